const SHORTEST = 3
const squeezed = (text: string): string => text.toLowerCase().replace(/[\s.,;:()'’"/-]+/g, ' ').trim()

/**
 * The first of the private values that a text tells, in whatever case and with whatever gaps, or null. Values
 * shorter than three signs are not looked for: they stand in every other word.
 *
 * @example findPrivate('Built for PENBROOK land surveyors.', ['Penbrook Land Surveyors']) // 'Penbrook Land Surveyors'
 * @example findPrivate('Oak and walnut', ['Oakley']) // null
 */
export function findPrivate(text: string, values: readonly string[]): string | null {
  const words = ` ${squeezed(text)} `
  return values.find((value) => squeezed(value).length >= SHORTEST && words.includes(` ${squeezed(value)} `)) ?? null
}
