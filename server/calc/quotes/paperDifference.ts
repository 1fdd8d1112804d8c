/** A line as far as two papers are compared: the same key is the same line. */
export interface ComparedLine {
  readonly key: string
  readonly text: string
  readonly amountMinor: number
  readonly option: number | null
}

export interface LineDifference {
  readonly what: 'added' | 'taken out' | 'changed'
  readonly text: string
  /** The older wording, where it was another. */
  readonly textBefore: string | null
  readonly beforeMinor: number | null
  readonly afterMinor: number | null
}

/**
 * What differs between the lines of two papers, in the order of the newer one, those taken out last; equal lines are
 * left out. Minor units, null where there is no such line. Source: common practice, no source.
 *
 * @example compareLines([], [{ key: 'a', text: 'Roof', amountMinor: 500, option: null }])[0]?.what // 'added'
 */
export function compareLines(before: readonly ComparedLine[], after: readonly ComparedLine[]): LineDifference[] {
  const [there, here] = [new Map(before.map((line) => [line.key, line])), new Map(after.map((line) => [line.key, line]))]
  return [
    ...after.flatMap(({ key, text, amountMinor, option }): LineDifference[] => {
      const old = there.get(key)
      if (!old) return [{ what: 'added', text, textBefore: null, beforeMinor: null, afterMinor: amountMinor }]
      const isSame = old.amountMinor === amountMinor && old.text === text && old.option === option
      return isSame ? [] : [{ what: 'changed', text, textBefore: old.text === text ? null : old.text, beforeMinor: old.amountMinor, afterMinor: amountMinor }]
    }),
    ...before.filter(({ key }) => !here.has(key)).map(({ text, amountMinor }): LineDifference =>
      ({ what: 'taken out', text, textBefore: null, beforeMinor: amountMinor, afterMinor: null })),
  ]
}
