import { groupBy } from '../grouping.ts'
import { addExactly } from '../rounding.ts'

/** An option of a paper: yes or no where `insteadOf` is empty, else one of those with the same word. */
export interface PaperOptionChoice {
  readonly number: number
  readonly name: string
  readonly insteadOf: string
}

/**
 * Two chosen options that exclude each other, or null. Source: common practice, no source.
 *
 * @example findClash([{ number: 1, name: 'oak', insteadOf: 'ash' }, { number: 2, name: 'elm', insteadOf: 'ash' }], [1, 2])?.[1].name // 'elm'
 */
export function findClash<T extends PaperOptionChoice>(options: readonly T[], chosen: readonly number[]): readonly [T, T] | null {
  const taken = options.filter(({ number }) => chosen.includes(number))
  for (const [index, one] of taken.entries()) {
    const other = taken.slice(index + 1).find((each) => excludesOf(each) !== '' && excludesOf(each) === excludesOf(one))
    if (other) return [one, other]
  }
  return null
}

/** Options with the same key exclude each other; capitals and spaces around do not matter. Source: common practice, no source. */
export const excludesOf = ({ insteadOf }: Pick<PaperOptionChoice, 'insteadOf'>): string => insteadOf.trim().toLowerCase()

/**
 * The least and the most that a figure can come to, whatever is chosen of the options: of those that exclude each
 * other at most one counts. Minor units or any whole number. Throws a RangeError for a sum beyond the exact range.
 * Source: the least and the most of each independent choice add up; arithmetic, no source.
 *
 * @example boundsOf(100, [{ insteadOf: '', by: -30 }, { insteadOf: 'trim', by: 5 }, { insteadOf: 'trim', by: 9 }]) // { least: 70, most: 109 }
 */
export function boundsOf(base: number, options: readonly { readonly insteadOf: string, readonly by: number }[]): { readonly least: number, readonly most: number } {
  const alone = options.filter((option) => excludesOf(option) === '').map(({ by }) => [by])
  const groups = [...groupBy(options.filter((option) => excludesOf(option) !== ''), excludesOf).values()].map((group) => group.map(({ by }) => by))
  const sides = [...alone, ...groups]
  return {
    least: addExactly([base, ...sides.map((each) => Math.min(0, ...each))]),
    most: addExactly([base, ...sides.map((each) => Math.max(0, ...each))]),
  }
}
