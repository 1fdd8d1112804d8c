const HOUR_S = 3600
const DAY_S = 24 * HOUR_S

/**
 * Seconds after midnight from a time of day as people write it; null where it is none.
 *
 * Source: the 24-hour clock of ISO 8601, the leading zero and the minutes left out where nobody writes them.
 *
 * @example parseClock('17:30') // 63000
 */
export function parseClock(text: string): number | null {
  const [, hours, minutes = '0'] = /^(\d{1,2})(?::(\d{2}))?$/.exec(text.trim()) ?? []
  if (hours === undefined || Number(minutes) > 59) return null
  const seconds = Number(hours) * HOUR_S + Number(minutes) * 60
  return seconds > DAY_S ? null : seconds
}

/** Seconds after midnight as a time of day, 24-hour: 08:00. Source: ISO 8601. */
export function formatClock(seconds: number): string {
  const minutes = Math.floor(seconds / 60)
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
}
