/** A drawn page as text. Pages are drawn at once; one that waits for something is a mistake. */
export function toHtml(page: JSX.Element): string {
  if (typeof page !== 'string') throw new TypeError('A page must be drawn without waiting')
  return page
}
