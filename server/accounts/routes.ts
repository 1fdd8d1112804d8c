import type { App, Shell } from '../shared/shell.ts'
import { registerAccountPages } from './accountRoutes.ts'
import { registerAccountApi } from './apiRoutes.ts'
import { registerCreditPages } from './creditRoutes.ts'
import { registerInvoicePages } from './invoiceRoutes.ts'
import { registerPaymentPages } from './paymentRoutes.ts'

/** What a customer owes on a build: invoices, credit notes, payments. */
export function registerAccounts(app: App, shell: Shell): void {
  registerAccountPages(app, shell)
  registerPaymentPages(app, shell)
  registerInvoicePages(app, shell)
  registerCreditPages(app, shell)
  registerAccountApi(app, shell)
}
