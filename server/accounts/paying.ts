import { accountOf } from '../calc/quotes/account.ts'
import { isCalendarDate } from '../calc/calendar.ts'
import { formatMoney } from '../calc/money.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { METHODS, type PaymentTyped } from '../../web/accounts/paymentForm.tsx'
import type { Actor } from '../shared/audit.ts'
import { isDuplicate, type Write } from '../shared/database/database.ts'
import { FieldProblems, Problem } from '../shared/problems.ts'
import { money } from '../shared/records/field.ts'
import { acceptedTotal } from './accepted.ts'
import { createPayment, getHead, getPayment, listInvoices, listPayments, type StoredInvoice, type StoredPayment } from './store.ts'

/** No shop keeps its books here for longer: a year that was mistyped. */
const EARLIEST = '2000-01-01'
const AMOUNT = money('Amount', { isRequired: true })

interface Checked {
  readonly minor: number
  readonly invoice: StoredInvoice | null
}

/** Writes down what was received, or paid back. Returns the id of the entry. Throws FieldProblems with all that is wrong. */
export async function pay(write: Write, buildId: string, typed: PaymentTyped, viewer: Viewer, actor: Actor): Promise<string> {
  await getHead(write, buildId)
  const documents = await listInvoices(write, buildId)
  const payments = await listPayments(write, buildId)
  const checked = check(typed, documents, viewer)
  const question = typed.confirmed ? null : await questionOf(write, { buildId, typed, checked, documents, payments, currency: viewer.currency })
  if (question !== null) throw new FieldProblems([{ field: 'confirmed', message: question }])
  const amountMinor = typed.direction === 'paid back' ? -checked.minor : checked.minor
  const words = `${typed.direction} ${formatMoney(checked.minor, viewer.currency)}, ${checked.invoice ? `for ${checked.invoice.number}` : 'for no invoice'}, ${typed.method}`
  return createPayment(write, {
    buildId, invoiceId: checked.invoice?.id ?? null, amountMinor, paidOn: typed.paidOn, method: typed.method, reference: typed.reference, takesBackId: null, note: typed.note,
  }, actor, words)
}

function check(typed: PaymentTyped, documents: readonly StoredInvoice[], { currency, units, today }: Viewer): Checked {
  const problems: FieldProblem[] = []
  const read = AMOUNT.input({ currency, units }).safeParse(typed.amount)
  const minor = read.success ? Number(read.data.value) : 0
  if (!read.success) problems.push({ field: 'amount', message: read.error.issues[0]?.message ?? 'Amount cannot be read.' })
  else if (minor === 0) problems.push({ field: 'amount', message: 'Amount is above zero: an entry of nothing is no payment.' })
  const invoice = documents.find(({ id }) => id === typed.invoiceId) ?? null
  if (typed.invoiceId !== '' && (!invoice || invoice.kind !== 'invoice')) problems.push({ field: 'invoiceId', message: 'For: there is no such invoice of this build. Choose one from the list.' })
  if (!isCalendarDate(typed.paidOn)) problems.push({ field: 'paidOn', message: 'Paid on is a calendar date, written 2027-02-12.' })
  else if (typed.paidOn > today) problems.push({ field: 'paidOn', message: `Paid on lies in the future; today is ${today}. Enter it when the money is there.` })
  else if (typed.paidOn < EARLIEST) problems.push({ field: 'paidOn', message: `Paid on lies before ${EARLIEST}: check the year.` })
  else if (invoice && typed.paidOn < invoice.issuedOn) problems.push({ field: 'paidOn', message: `Paid on lies before ${invoice.number} was issued, ${invoice.issuedOn}. Check the date; what was paid before is entered for no invoice, and counts for it all the same.` })
  if (!METHODS.some((method) => method === typed.method)) problems.push({ field: 'method', message: `How is one of: ${METHODS.join(', ')}.` })
  if (problems.length > 0) throw new FieldProblems(problems)
  return { minor, invoice }
}

interface Asked {
  readonly buildId: string
  readonly typed: PaymentTyped
  readonly checked: Checked
  readonly documents: readonly StoredInvoice[]
  readonly payments: readonly StoredPayment[]
  readonly currency: string
}

/** What somebody has to say yes to before the entry is written, in words; null where nothing is odd. */
async function questionOf(write: Write, { buildId, typed, checked: { minor, invoice }, documents, payments, currency }: Asked): Promise<string | null> {
  const written = (amount: number): string => formatMoney(amount, currency)
  const account = accountOf(documents, payments)
  const signed = typed.direction === 'paid back' ? -minor : minor
  const takenBack = new Set(payments.map(({ takesBackId }) => takesBackId))
  const isSame = (one: StoredPayment): boolean => one.amountMinor === signed && one.paidOn === typed.paidOn && one.method === typed.method
    && one.reference === typed.reference && one.invoiceId === (invoice?.id ?? null) && one.takesBackId === null && !takenBack.has(one.id)
  if (payments.some(isSame)) return `An equal entry is there already: ${written(minor)}, ${typed.method}, ${typed.paidOn}. Tick that this is a second one, or leave without saving.`
  if (typed.direction === 'paid back') {
    const credit = Math.max(-account.balanceMinor, 0)
    return minor <= credit ? null : `${written(minor)} is more than the ${written(credit)} that the customer has paid too much. Tick that it is right; the balance is then open again.`
  }
  if (invoice) {
    const open = account.invoices.find(({ id }) => id === invoice.id)?.openMinor ?? 0
    return minor <= open ? null : `${written(minor)} is more than the ${written(open)} still open on ${invoice.number}. Tick that it is right; the rest then counts as paid ahead.`
  }
  const accepted = await acceptedTotal(write, buildId)
  // Ahead of anything agreed or invoiced nobody can say what would be too much.
  if (accepted === null && documents.length === 0) return null
  const open = Math.max(Math.max(accepted?.totalMinor ?? 0, account.invoicedMinor - account.creditedMinor) - account.paidMinor, 0)
  return minor <= open ? null : `${written(minor)} is more than the ${written(open)} still to be paid on this build. Tick that it is right.`
}

/** Takes an entry back whole by one of the opposite amount: nothing is changed or removed. Returns the id of the new entry. */
export async function takeBack(write: Write, paymentId: string, note: string, viewer: Viewer, actor: Actor): Promise<string> {
  const payment = await getPayment(write, paymentId)
  if (payment.takesBackId !== null) throw new Problem(409, 'This entry takes another back', 'It stays. Where the money did come, enter it as a new payment.')
  const twice = new Problem(409, 'Taken back already', 'An entry is taken back once. Nothing was written.')
  if ((await listPayments(write, payment.buildId)).some(({ takesBackId }) => takesBackId === paymentId)) throw twice
  const { id: _, createdAt: _at, receivedById: _by, ...entry } = payment
  try {
    return await createPayment(write, { ...entry, amountMinor: -entry.amountMinor, paidOn: viewer.today, takesBackId: paymentId, note }, actor,
      `took back the entry of ${formatMoney(payment.amountMinor, viewer.currency)} of ${payment.paidOn}`)
  } catch (error) {
    throw isDuplicate(error) ? twice : error
  }
}
