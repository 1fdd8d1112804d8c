import { escapeHtml } from '@kitajs/html'

export { escapeHtml }

const NUMBER_OF_THING = /\b[A-Z]-\d+(?:-\d+)?\b|\d+ × M?\d+(?:\.\d+)?(?: × \d+(?:\.\d+)?)*/g

/** Free text escaped, with "P-510" and "4 × M8 × 25" kept on one line. */
export function escapeProse(text: string): string {
  return escapeHtml(text).replace(NUMBER_OF_THING, '<i>$&</i>')
}

/** @example counted(1, 'part', 'parts') // '1 part' */
export function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`
}

/** @example withArticle('operation') // 'an operation' */
export const withArticle = (noun: string): string => `${/^[aeio]/i.test(noun) ? 'an' : 'a'} ${noun}`

/** @example capital('made parts') // 'Made parts' */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
