import type { Viewer } from '../../web/shared/viewer.ts'
import { writeHours } from '../../web/shared/amount.ts'
import { minorDigits } from '../calc/money.ts'
import { costOfTime } from '../calc/money.ts'
import { chainEntries } from '../calc/hours/timeEntries.ts'
import { loadBuild } from '../builds/store.ts'
import { toInputs } from '../builds/inputs.ts'
import { guarded } from '../shared/csv/guard.ts'
import { writeCsv } from '../shared/csv/writeCsv.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import type { PaperContent } from '../quotes/content.ts'
import { drawQuote } from '../quotes/freezing.ts'
import { listRevisions, standingAt } from '../quotes/revisionStore.ts'
import { loadAccount } from './accountData.ts'
import { getHead } from './store.ts'

export interface CsvFile {
  readonly file: string
  readonly text: string
}

/** An amount as a number that a spreadsheet reads: a point, no thousands apart, a plain minus. */
export function plainAmount(minor: number, currency: string): string {
  const digits = minorDigits(currency)
  const size = String(Math.abs(minor)).padStart(digits + 1, '0')
  const text = digits === 0 ? size : `${size.slice(0, -digits)}.${size.slice(-digits)}`
  return minor < 0 ? `-${text}` : text
}

/** Invoices, credit notes and payments in the order of their days, with the balance after each. */
export async function accountCsv(reads: Reads, buildId: string, { currency }: Viewer): Promise<CsvFile> {
  const { head, documents, payments, names } = await loadAccount(reads, buildId)
  const rows = [
    ...documents.map(({ issuedOn, number, kind, content, dueOn, netMinor, taxMinor, totalMinor }, index) => ({
      day: issuedOn, rank: 0, index, minor: totalMinor, cells: [kind, number, content.credits?.number ?? '', dueOn, plainAmount(netMinor, currency), plainAmount(taxMinor, currency), '', '', content.note, ''],
    })),
    ...payments.map((payment, index) => ({
      day: payment.paidOn, rank: 1, index, minor: -payment.amountMinor,
      cells: [payment.takesBackId ? 'payment taken back' : payment.amountMinor < 0 ? 'paid back' : 'payment', '', documents.find(({ id }) => id === payment.invoiceId)?.number ?? '', '', '', '', payment.method, payment.reference, payment.note, names.get(payment.receivedById) ?? ''],
    })),
  ].toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.rank - b.rank || a.index - b.index))
  let balance = 0
  const body = rows.map(({ day, minor, cells: [what = '', number = '', of = '', due = '', net = '', tax = '', ...words] }) => {
    balance += minor
    return [day, what, number, of, due, net, tax, plainAmount(minor, currency), plainAmount(balance, currency), ...words.map(guarded)]
  })
  const headings = ['Day', 'What', 'Number', 'For', 'Due', `Net (${currency})`, `Tax (${currency})`, `Owed (${currency})`, `Balance (${currency})`, 'How', 'Reference', 'Note', 'Entered by']
  return { file: `${label('B', head.number)}-account`, text: writeCsv([headings, ...body]) }
}

/** Every hour that counts, with its department and what it comes to at its price; no person is named. */
export async function hoursCsv(reads: Reads, buildId: string, { currency }: Viewer): Promise<CsvFile> {
  const stored = await loadBuild(reads, buildId)
  const { entries, labor: { departments } } = toInputs(stored)
  const timeZone = stored.shop?.timeZone ?? 'UTC'
  const rows = chainEntries(entries).filter(({ effective }) => effective.seconds > 0).map(({ effective, history }) => {
    const row = stored.entries.find(({ id }) => id === (history[0]?.id ?? effective.id))
    const operation = stored.operations.find(({ id }) => id === effective.operationId)
    const department = departments.find(({ id }) => id === effective.departmentId)
    const part = stored.parts.find(({ id }) => id === operation?.partId)
    const price = effective.kind === 'waiting' || !department ? 0 : costOfTime(effective.seconds, department.sellRateMinor)
    return [
      row ? calendarDateIn(timeZone, row.startedAt) : '', guarded(department?.name ?? ''), part ? label('P', part.number) : '', guarded(part?.name ?? ''), operation ? String(operation.number) : '', operation?.kind ?? '',
      effective.kind, writeHours(effective.seconds, 2).replace('−', '-'), plainAmount(price, currency), guarded(row?.why ?? ''),
    ]
  })
  const headings = ['Day', 'Department', 'Part', 'Name', 'Operation', 'Kind', 'Work', 'Hours', `Price (${currency})`, 'Why']
  return { file: `${label('B', stored.head.number)}-hours`, text: writeCsv([headings, ...rows.toSorted((a, b) => (String(a[0]) < String(b[0]) ? -1 : 1))]) }
}

/** Every line of every frozen quote and change order of a build, and whether it counts by now. */
export async function quoteLinesCsv(reads: Reads, buildId: string, { currency, today }: Viewer): Promise<CsvFile> {
  const { number } = await getHead(reads, buildId)
  const rows = (await listRevisions(reads, buildId)).toReversed().flatMap((revision) => {
    const { content, consent } = revision
    return lineRows(content, currency, { standing: standingAt(revision, today), issuedOn: content.issuedOn, chosen: consent?.chosen ?? [] })
  })
  return { file: `${label('B', number)}-quote-lines`, text: writeCsv([lineHeadings(currency), ...rows]) }
}

/** The lines of the quote as it would be frozen now. Throws a 409 where the build's figures cannot be made. */
export async function quoteDraftCsv(reads: Reads, buildId: string, { currency, name }: Viewer, now: Date): Promise<CsvFile> {
  const { draft: { content } } = await drawQuote(reads, buildId, { personName: name, now })
  return { file: `${content.build.number}-quote-draft`, text: writeCsv([lineHeadings(currency), ...lineRows(content, currency, { standing: 'draft', issuedOn: '', chosen: [] })]) }
}

const lineHeadings = (currency: string): string[] => ['Paper', 'Kind', 'Standing', 'Issued', 'Option', 'Line', 'Quantity', `Price (${currency})`, `Amount (${currency})`, 'Tax code', 'Rate (%)', 'Accepted']

function lineRows({ number, kind, options, lines }: PaperContent, currency: string, { standing, issuedOn, chosen }: { readonly standing: string, readonly issuedOn: string, readonly chosen: readonly string[] }): string[][] {
  const taken = options.filter(({ id }) => chosen.includes(id)).map((option) => option.number)
  return lines.map(({ text, quantity, eachMinor, amountMinor, taxCode, option }) => [
    number, kind, standing, issuedOn, option === null ? '' : guarded(options.find((one) => one.number === option)?.name ?? String(option)), guarded(text),
    plainThousandths(quantity), plainAmount(eachMinor, currency), plainAmount(amountMinor, currency), guarded(taxCode?.code ?? ''), taxCode === null ? '' : plainThousandths(taxCode.rateThousandthsOfPercent),
    standing === 'accepted' && (option === null || taken.includes(option)) ? 'yes' : 'no',
  ])
}

const plainThousandths = (value: number): string => {
  const text = String(value).padStart(4, '0')
  return `${text.slice(0, -3)}.${text.slice(-3)}`.replace(/\.?0+$/, '')
}
