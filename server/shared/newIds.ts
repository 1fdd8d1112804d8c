import { randomBytes } from 'node:crypto'

const MOST_IN_A_MILLISECOND = 0x1000

/** Ids of version 7 (RFC 9562, 5.7) in rising order, for rows that refer to each other before they are written. */
export function newIds(now: Date): () => string {
  let count = 0
  return () => {
    const time = (now.getTime() + Math.floor(count / MOST_IN_A_MILLISECOND)).toString(16).padStart(12, '0')
    const sequence = (count % MOST_IN_A_MILLISECOND).toString(16).padStart(3, '0')
    count += 1
    const random = randomBytes(8)
    random[0] = ((random[0] ?? 0) & 0x3f) | 0x80
    const tail = random.toString('hex')
    return `${time.slice(0, 8)}-${time.slice(8)}-7${sequence}-${tail.slice(0, 4)}-${tail.slice(4)}`
  }
}
