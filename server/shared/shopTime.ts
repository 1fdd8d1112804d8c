// Making a format takes far longer than using it, and every page asks for many dates.
const remembered = (make: (timeZone: string) => Intl.DateTimeFormat): ((timeZone: string) => Intl.DateTimeFormat) => {
  const formats = new Map<string, Intl.DateTimeFormat>()
  return (timeZone) => {
    const format = formats.get(timeZone) ?? make(timeZone)
    formats.set(timeZone, format)
    return format
  }
}
const DATE = remembered((timeZone) => new Intl.DateTimeFormat('en-CA', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' }))
const CLOCK = remembered((timeZone) => new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }))

/** The calendar date of an instant in the shop's zone, YYYY-MM-DD. */
export function calendarDateIn(timeZone: string, instant: Date): string {
  return DATE(timeZone).format(instant)
}

/** Hours and minutes of an instant in the shop's zone, 24-hour: 09:48. */
export function clockTimeIn(timeZone: string, instant: Date): string {
  return CLOCK(timeZone).format(instant)
}

/** The instant of a date and wall-clock time in the shop's zone; a time that a clock change skips moves on. */
export function instantOf(timeZone: string, date: string, clock: string): Date {
  const wall = Date.parse(`${date}T${clock}:00Z`)
  const first = wall - offsetAt(timeZone, wall)
  return new Date(wall - offsetAt(timeZone, first))
}

function offsetAt(timeZone: string, instant: number): number {
  const date = calendarDateIn(timeZone, new Date(instant))
  const shown = Date.parse(`${date}T${clockTimeIn(timeZone, new Date(instant))}:00Z`)
  return shown - Math.floor(instant / 60_000) * 60_000
}
