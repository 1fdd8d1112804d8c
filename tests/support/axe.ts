import axe from 'axe-core'
import type { Page } from 'playwright-core'

interface Violation {
  readonly id: string
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[]
}

/** What an accessibility checker finds wrong with the page by WCAG 2.2 AA, in short lines. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe.source)
  const violations = await page.evaluate(async () => {
    const checker = (globalThis as unknown as { axe: { run(options: object): Promise<{ violations: Violation[] }> } }).axe
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']
    const { violations: found } = await checker.run({ runOnly: { type: 'tag', values: tags } })
    return found
  })
  return violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(' | ')}`)
}
