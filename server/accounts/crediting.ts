import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { creditOf, totalOf, type Credit } from '../calc/quotes/invoicing.ts'
import { formatMoney, parseMoney } from '../calc/money.ts'
import type { TaxedTotal } from '../calc/quotes/tax.ts'
import type { Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { FieldProblems, Problem } from '../shared/problems.ts'
import type { InvoiceContent, InvoiceLine } from './content.ts'
import { partiesOf, titleBlockOf } from './issuing.ts'
import { isTakenBack, standingsOf, type Standing } from './standing.ts'
import { createInvoice, getHead, getInvoice, getShop, listInvoices, nextInvoiceNumber } from './store.ts'

/** What is credited: all that is left, or net amounts by the keys of the invoice's lines as they were typed. */
export interface CreditAsked {
  readonly what: 'whole' | 'chosen'
  readonly amounts: Readonly<Record<string, string | number>>
  readonly note: string
}

/** An invoice that something can still be taken back from. */
export interface Creditable extends Standing {
  /** Net, by the key of a line, what earlier credit notes took back of it. */
  readonly creditedOf: ReadonlyMap<string, number>
}

/** Throws a 409 where it is a credit note itself, or nothing of it is left. */
export async function getCreditable(client: Reads | Write, id: string): Promise<Creditable> {
  const invoice = await getInvoice(client, id)
  if (invoice.kind === 'credit note') throw new Problem(409, 'This is a credit note', 'A credit note takes back from an invoice. To charge it again, issue an invoice.')
  const standing = standingsOf(await listInvoices(client, invoice.buildId)).find((one) => one.invoice.id === id)
  if (!standing || isTakenBack(standing)) throw new Problem(409, 'Nothing left to credit', `${invoice.number} is credited whole already.`)
  const creditedOf = new Map<string, number>()
  for (const { key, amountMinor } of standing.credits.flatMap(({ content }) => content.lines)) creditedOf.set(key, (creditedOf.get(key) ?? 0) - amountMinor)
  return { ...standing, creditedOf }
}

/** Issues a credit note with the next number of the same row as the invoices. Returns its id. */
export async function issueCredit(write: Write, invoiceId: string, asked: CreditAsked, viewer: Viewer, actor: Actor): Promise<string> {
  const creditable = await getCreditable(write, invoiceId)
  const { invoice } = creditable
  const { lines, total } = asked.what === 'whole' ? wholeOf(creditable) : chosenOf(creditable, asked.amounts, viewer.currency)
  const [number, shop, head] = [await nextInvoiceNumber(write), await getShop(write), await getHead(write, invoice.buildId)]
  const off = turned(total)
  const content: InvoiceContent = {
    format: 1, kind: 'credit note', basis: 'credit', ...partiesOf(head, invoice.content.currency), customer: invoice.content.customer,
    titleBlock: titleBlockOf({ head, shop, viewer, number, title: 'Credit note' }), issuedOn: viewer.today, dueOn: viewer.today,
    lines, parts: [], whole: off, earlier: [], total: off, paidAheadMinor: 0, note: asked.note, credits: { number: invoice.number, issuedOn: invoice.issuedOn },
  }
  return createInvoice(write, { number, buildId: invoice.buildId, content, creditsId: invoiceId }, actor)
}

const turned = ({ codes }: TaxedTotal): TaxedTotal => totalOf(codes.map((code) => ({ ...code, netMinor: -code.netMinor + 0, taxMinor: -code.taxMinor + 0 })))

const creditLine = ({ key, group, text, taxCode, rateThousandthsOfPercent }: InvoiceLine, amountMinor: number): InvoiceLine =>
  ({ key, group, text, taxCode, rateThousandthsOfPercent, quantity: null, eachMinor: null, amountMinor: -amountMinor + 0, holds: [] })

const leftOfLine = ({ creditedOf }: Creditable, { key, amountMinor }: InvoiceLine): number => amountMinor - (creditedOf.get(key) ?? 0)

/** Everything that is left: each line, and against them what earlier invoices had charged already. */
function wholeOf(creditable: Creditable): { readonly lines: InvoiceLine[], readonly total: TaxedTotal } {
  const { invoice: { content }, left } = creditable
  const lines = content.lines.filter((line) => leftOfLine(creditable, line) !== 0).map((line) => creditLine(line, leftOfLine(creditable, line)))
  const earlier = content.earlier.flatMap(({ number, codes }) => codes.filter(({ netMinor }) => netMinor !== 0).map((code): InvoiceLine =>
    ({ ...code, key: `less ${number} ${code.taxCode}`, group: 'Invoiced earlier', text: `Not charged here, but on ${number}`, quantity: null, eachMinor: null, amountMinor: code.netMinor, holds: [] })))
  return { lines: [...lines, ...earlier], total: left }
}

function chosenOf(creditable: Creditable, amounts: CreditAsked['amounts'], currency: string): { readonly lines: InvoiceLine[], readonly total: TaxedTotal } {
  const { content } = creditable.invoice
  const strange = Object.keys(amounts).find((key) => !content.lines.some((line) => line.key === key))
  if (strange !== undefined) throw new FieldProblems([{ field: strange, message: `${creditable.invoice.number} has no line ${strange.slice(0, 20)}.` }])
  const credits = readAmounts(amounts, currency)
  if (credits.length === 0) throw new FieldProblems([{ field: content.lines[0]?.key ?? 'what', message: 'Nothing to credit: enter an amount at one line at least, or credit the whole invoice.' }])
  const lines = content.lines.map((line) => ({ ...line, creditedMinor: creditable.creditedOf.get(line.key) ?? 0 }))
  const found = creditOf(lines, creditable.left.codes, credits)
  if ('refusal' in found) throw new FieldProblems([refusalInWords(found.refusal, credits, content.lines, currency)])
  return { lines: credits.flatMap(({ key, amountMinor }) => content.lines.filter((line) => line.key === key).map((line) => creditLine(line, amountMinor))), total: found.total }
}

function readAmounts(amounts: CreditAsked['amounts'], currency: string): Credit[] {
  const problems: FieldProblem[] = []
  const credits = Object.entries(amounts).flatMap(([key, typed]): Credit[] => {
    if (typed === '' || typed === 0) return []
    if (typeof typed === 'number') {
      if (typed > 0) return [{ key, amountMinor: typed }]
      problems.push({ field: key, message: 'An amount to credit is above zero.' })
      return []
    }
    const read = parseMoney(typed, currency)
    if (!read.ok) problems.push({ field: key, message: `Credit: ${read.message}` })
    return read.ok && read.minor > 0 ? [{ key, amountMinor: read.minor }] : []
  })
  if (problems.length > 0) throw new FieldProblems(problems)
  return credits
}

type Refusal = Extract<ReturnType<typeof creditOf>, { refusal: unknown }>['refusal']

function refusalInWords(refusal: Refusal, credits: readonly Credit[], lines: readonly InvoiceLine[], currency: string): FieldProblem {
  const left = formatMoney(Math.max(refusal.leftMinor, 0), currency)
  if (refusal.why === 'more than the line') return { field: refusal.key, message: `${lines.find(({ key }) => key === refusal.key)?.text ?? 'The line'}: at most ${left} net is left to credit.` }
  const first = credits.find(({ key }) => lines.find((line) => line.key === key)?.taxCode === refusal.taxCode)
  return { field: first?.key ?? 'what', message: `${refusal.taxCode === 'none' ? 'Without a tax code' : `Taxed as ${refusal.taxCode}`}: only ${left} net is left of this invoice, the rest was charged earlier or credited.` }
}
