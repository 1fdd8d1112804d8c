import type { Amount, Working, WorkingInput } from '../calc/amounts.ts'
import type { TaxOnCode } from '../calc/quotes/tax.ts'
import type { Workings } from '../shared/workings.ts'
import type { InvoiceLine } from './content.ts'
import { codeInWords, type Showable } from './shown.ts'

const SOURCE = 'common practice, no source; local law decides about tax'
const money = (label: string, source: string, value: number): WorkingInput => ({ label, source, amount: { kind: 'money', value } })
const working = (title: string, inputs: readonly WorkingInput[], value: number, formula: string, assumed = ''): Working =>
  ({ title, inputs, result: { kind: 'money', value }, formula, assumed, source: SOURCE })

/** What the figures of an invoice or a draft open: L3 is its third line, wn0 the net of its first tax code, lt1 the tax left of its second. */
export function invoiceWorkings(content: Showable): Workings {
  const { lines, parts, whole, earlier, total, paidAheadMinor, kind } = content
  const ofCodes = (letter: string, of: readonly TaxOnCode[], own: readonly InvoiceLine[]): [string, Working][] => of.flatMap((code, index): [string, Working][] => [
    [`${letter}n${index}`, working(`${codeInWords(code)}: net`, own.filter(({ taxCode }) => taxCode === code.taxCode).map(({ text, amountMinor }) => money(text, 'line', amountMinor)), code.netMinor, 'sum of its lines')],
    [`${letter}t${index}`, taxWorking(code)],
  ])
  const codes = parts.length < 2 ? ofCodes('w', whole.codes, lines) : parts.flatMap(({ number, codes: of }, index) => ofCodes(`p${index}`, of, lines.filter(({ group }) => group.startsWith(`${number}, `))))
  const left = earlier.length === 0 && parts.length < 2 ? [] : total.codes.flatMap((code, index): [string, Working][] => (['net', 'tax'] as const).map((what) => [
    `l${what.charAt(0)}${index}`, leftWorking(code, what, parts.length < 2 ? [{ number: 'All lines', codes: whole.codes }] : parts, earlier),
  ]))
  const sumOfCodes = (what: 'net' | 'tax'): Working => working(what === 'net' ? 'Net' : 'Tax', total.codes.map((code) => money(codeInWords(code), 'tax code', code[`${what}Minor`])), total[`${what}Minor`], 'sum over the tax codes')
  return new Map([
    ...lines.flatMap((line): [string, Working][] => (line.eachMinor === null ? [] : [[line.key, lineWorking(line, line.eachMinor)]])), ...codes, ...left,
    ['net', sumOfCodes('net')], ['tax', sumOfCodes('tax')],
    ['total', working(kind === 'credit note' ? 'Credited, with tax' : 'Total with tax', [money('Net', 'lines', total.netMinor), money('Tax', 'by code', total.taxMinor)], total.totalMinor, 'net + tax')],
    ['ahead', working('Paid ahead', [money('Paid ahead when it was issued', 'payments that no invoice used up', paidAheadMinor)], -paidAheadMinor, '− paid ahead')],
    ['topay', working('To be paid', [money('Total with tax', 'this invoice', total.totalMinor), money('Paid ahead', 'payments', paidAheadMinor)], total.totalMinor - paidAheadMinor, 'total − paid ahead')],
  ])
}

function lineWorking({ text, quantity, amountMinor }: InvoiceLine, eachMinor: number): Working {
  const isTime = quantity?.of === 'time'
  const amount: Amount = quantity === null ? { kind: 'times', value: 1_000 } : isTime ? { kind: 'time', value: quantity.seconds } : { kind: 'times', value: quantity.thousandths }
  return {
    ...working(text, [{ label: isTime ? 'Hours' : 'Quantity', source: isTime ? 'time entries that no earlier invoice holds' : 'records of the build, less what was invoiced', amount }, money(isTime ? 'Price of an hour' : 'Price of one', isTime ? 'department' : 'records', eachMinor)],
      amountMinor, isTime ? 'hours × price of an hour' : 'quantity × price of one'),
    source: 'common practice, no source',
  }
}

function taxWorking(code: TaxOnCode): Working {
  return {
    ...working(`${codeInWords(code)}: tax`, [money('Net', 'sum of its lines', code.netMinor), { label: 'Rate', source: 'tax code', amount: { kind: 'rate', value: code.rateThousandthsOfPercent } }], code.taxMinor, 'net × rate, half away from zero'),
    assumed: code.taxCode === 'none' ? 'No tax code is named for these lines, so no tax is computed.' : '',
  }
}

function leftWorking(code: TaxOnCode, what: 'net' | 'tax', parts: Showable['parts'], earlier: Showable['earlier']): Working {
  const of = (codes: readonly TaxOnCode[]): number => codes.find(({ taxCode }) => taxCode === code.taxCode)?.[`${what}Minor`] ?? 0
  return working(`${codeInWords(code)}: ${what} of this invoice`, [...parts.map(({ number, codes }) => money(number, 'above', of(codes))), ...earlier.map(({ number, codes }) => money(`Less ${number}`, 'earlier invoice', -of(codes)))], code[`${what}Minor`], 'all above − earlier invoices')
}
