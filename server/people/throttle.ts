/** Counts wrong tries by sign-in name, whether anybody has that name or not. */
export interface Throttle {
  /** Counts a try before it is judged; false when the name has had its tries. */
  take(name: string, now: Date): boolean
  /** After a right try. */
  forget(name: string): void
}

const MOST_TRIES = 10
export const WINDOW_MINUTES = 15
const MOST_NAMES = 10_000

/** For routes that guess at secrets: a whole shop may stand behind one address. */
export const PER_ADDRESS = { max: 100, timeWindow: WINDOW_MINUTES * 60_000 }

export function createThrottle(): Throttle {
  const tries = new Map<string, { count: number; until: number }>()
  return {
    take(name, now) {
      const earlier = tries.get(name)
      const isOver = !earlier || earlier.until <= now.getTime()
      const entry = isOver ? { count: 0, until: now.getTime() + WINDOW_MINUTES * 60_000 } : earlier
      entry.count += 1
      tries.set(name, entry)
      if (tries.size > MOST_NAMES) forgetOldest(tries)
      return entry.count <= MOST_TRIES
    },
    forget(name) {
      tries.delete(name)
    },
  }
}

// A map keeps the order of first insertion.
function forgetOldest(tries: Map<string, unknown>): void {
  const [oldest] = tries.keys()
  if (oldest !== undefined) tries.delete(oldest)
}
