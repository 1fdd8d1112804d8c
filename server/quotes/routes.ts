import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerQuoteApi } from './apiRoutes.ts'
import { registerDraft } from './draftRoutes.ts'
import { depositStep, quote, quoteLine, quoteOption } from './records.ts'

/** The quote of a build: its draft, and the frozen revisions. */
export function registerQuotes(app: App, shell: Shell): void {
  registerRecords(app, shell, [quote, quoteOption, quoteLine, depositStep])
  registerDraft(app, shell)
  registerQuoteApi(app, shell)
}
