export const LONGEST_SEARCH = 100
export const SHORTEST_SEARCH = 2

/** A word that reads as a short number: F-021 or F21 with its letter, 231 without. */
export interface NumberRead {
  /** '' where only digits were typed: then it is any record's number. */
  readonly prefix: string
  readonly number: number
}

export interface SearchWord {
  /** In small letters, as it is compared. */
  readonly folded: string
  readonly number: NumberRead | null
}

export interface Search {
  readonly words: readonly SearchWord[]
  /** Builds that something else is looked for in, as in "B-0231 F-021". */
  readonly builds: readonly SearchWord[]
}

/** What somebody looks for. A build's number beside other words narrows to that build. */
export function readSearch(text: string): Search {
  const words = [...new Set(fold(text).split(/\s+/).filter((word) => word !== ''))].map((folded) => ({ folded, number: readNumber(folded) }))
  const builds = words.filter(({ number }) => number?.prefix === 'B')
  const others = words.filter((word) => !builds.includes(word))
  if (others.length === 0) return { words, builds: [] }
  return { words: others, builds }
}

/** Why nothing was looked for, in words, or null. */
export function refuseSearch(text: string): string | null {
  if (text === '') return 'Type what you look for in the field above: a number, a name, a serial number.'
  if (text.length < SHORTEST_SEARCH) return `One sign fits nearly everything. Type at least ${SHORTEST_SEARCH}.`
  if (text.length > LONGEST_SEARCH) return `This is longer than ${LONGEST_SEARCH} signs. Look for the part of it that is least common.`
  return null
}

/** As two texts are compared: composed, in small letters of every script. */
export const fold = (text: string): string => text.normalize('NFC').toLowerCase()

function readNumber(folded: string): NumberRead | null {
  const [, prefix = '', digits] = /^(?:([a-z])-?)?(\d{1,9})$/.exec(folded) ?? []
  return digits === undefined ? null : { prefix: prefix.toUpperCase(), number: Number(digits) }
}

/**
 * A text as the database can compare it without missing a match: it folds only the letters A to Z, and
 * has its own wild cards, so that every other sign stands for any one sign here. `fold` then decides.
 */
export const loosely = (folded: string): string => folded.replaceAll(/[^\x20-\x7e]/gu, '_')
