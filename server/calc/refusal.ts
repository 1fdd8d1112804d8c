/** An input that a calculation cannot take; its message tells a user what to correct. */
export class Refusal extends Error {
  override readonly name = 'Refusal'
}

/** The whole number itself, or a Refusal when it has grown beyond exact counting (2^53). */
export function toExact(value: number, what: string): number {
  if (!Number.isSafeInteger(value)) throw new Refusal(`${what} is more than can be counted: check the quantities.`)
  return value
}

/** The whole number itself, or a Refusal when it is not whole or below `least`. */
export function toWhole(value: number, least: number, what: string): number {
  if (!Number.isSafeInteger(value) || value < least) {
    throw new Refusal(`${what} must be a whole number of at least ${least}.`)
  }
  return value
}
