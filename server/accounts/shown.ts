import type { ShownFigure, ShownInvoice, ShownLine, ShownTax } from '../../web/accounts/invoiceTable.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { writeTime } from '../../web/shared/exactAmount.ts'
import { formatMoneyFigure } from '../calc/money.ts'
import { writeDecimal } from '../calc/numerals.ts'
import type { TaxOnCode } from '../calc/quotes/tax.ts'
import type { InvoiceContent, InvoiceLine, Quantity } from './content.ts'

/** What is shown of an invoice; a draft has no day yet on which it is due. */
export type Showable = Pick<InvoiceContent, 'lines' | 'parts' | 'whole' | 'earlier' | 'total' | 'paidAheadMinor'> & { readonly kind: InvoiceContent['kind'], readonly dueOn: string | null }

/** An invoice in words, with the keys of its workings. */
export function toShown(content: Showable, currency: string): ShownInvoice {
  const { lines, parts, whole, earlier, total, paidAheadMinor, kind, dueOn } = content
  const figure = (minor: number, how: string | undefined): ShownFigure => ({ text: formatMoneyFigure(minor, currency), how })
  const taxRows = (codes: readonly TaxOnCode[], letter: string | null): ShownTax[] => codes.map((code, index) => ({
    code: codeInWords(code), net: figure(code.netMinor, letter === null ? undefined : `${letter}n${index}`), tax: figure(code.taxMinor, letter === null ? undefined : `${letter}t${index}`),
  }))
  const isCredit = kind === 'credit note'
  const sums: ShownInvoice['sums'] = [
    { name: 'Net', figure: figure(total.netMinor, 'net'), isTotal: false },
    { name: 'Tax', figure: figure(total.taxMinor, 'tax'), isTotal: false },
    { name: isCredit ? 'Credited, with tax' : 'Total with tax', figure: figure(total.totalMinor, 'total'), isTotal: true },
    ...(isCredit ? [] : [
      ...(paidAheadMinor === 0 ? [] : [{ name: 'Paid ahead', figure: figure(-paidAheadMinor, 'ahead'), isTotal: false }]),
      { name: dueOn === null ? 'To be paid' : `To be paid by ${writeDay(dueOn)}`, figure: figure(total.totalMinor - paidAheadMinor, 'topay'), isTotal: true },
    ]),
  ]
  return {
    currency, groups: groupsOf(lines, currency), sums,
    taxes: earlier.length === 0 && parts.length < 2 ? [{ name: '', rows: taxRows(whole.codes, isCredit ? null : 'w') }] : [
      ...(parts.length < 2 ? [{ name: 'All of the above', rows: taxRows(whole.codes, 'w') }] : parts.map(({ number, codes }, index) => ({ name: `${number}, as accepted`, rows: taxRows(codes, `p${index}`) }))),
      ...earlier.map(({ number, issuedOn, codes }) => ({ name: `Less ${number} of ${writeDay(issuedOn)}`, rows: taxRows(codes.map((code) => ({ ...code, netMinor: -code.netMinor, taxMinor: -code.taxMinor })), null) })),
      { name: 'This invoice', rows: taxRows(total.codes, 'l').filter((_, index) => total.codes[index]?.netMinor !== 0 || total.codes[index]?.taxMinor !== 0) },
    ],
  }
}

export const codeInWords = ({ taxCode, rateThousandthsOfPercent: rate }: Pick<TaxOnCode, 'taxCode' | 'rateThousandthsOfPercent'>): string =>
  (taxCode === 'none' ? 'no tax code' : taxCode.endsWith('%') ? taxCode : `${taxCode}, ${rateInWords(rate)}`)

export const rateInWords = (rate: number): string => `${writeDecimal(BigInt(rate), 3, 5).replace(/\.?0+$/, '')} %`

function groupsOf(lines: readonly InvoiceLine[], currency: string): ShownInvoice['groups'] {
  const names = [...new Set(lines.map(({ group }) => group))]
  return names.map((name) => ({ name, lines: lines.filter(({ group }) => group === name).map((line) => toLine(line, lines.indexOf(line) + 1, currency)) }))
}

function toLine({ key, text, quantity, eachMinor, taxCode, amountMinor }: InvoiceLine, number: number, currency: string): ShownLine {
  return {
    no: String(number), text, quantity: quantity === null ? '' : quantityInWords(quantity), each: eachMinor === null ? '' : formatMoneyFigure(eachMinor, currency),
    code: taxCode === 'none' ? '' : taxCode, amount: { text: formatMoneyFigure(amountMinor, currency), how: eachMinor === null ? undefined : key },
  }
}

/** Hours to the second unless they are a round part of an hour, so that quantity × price is the amount on paper too. */
export function quantityInWords(quantity: Quantity): string {
  if (quantity.of === 'count') return [writeDecimal(BigInt(quantity.thousandths), 3, 5).replace(/\.?0+$/, ''), quantity.unit].filter((word) => word !== '').join(' ')
  const { seconds } = quantity
  return writeTime(seconds, seconds % 360 === 0 ? 'tenths' : seconds % 36 === 0 ? 'hundredths' : seconds % 60 === 0 ? 'minutes' : 'seconds')
}
