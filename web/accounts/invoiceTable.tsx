import { FigureCell, GroupRow, Table, WordCell } from '../shared/table.tsx'

/** A figure in words, and what explains it where figures open. */
export interface ShownFigure {
  readonly text: string
  readonly how: string | undefined
  /** The address it opens on, where that is another than that of the table. */
  readonly on?: string
}

export interface ShownLine {
  readonly no: string
  readonly text: string
  readonly quantity: string
  readonly each: string
  readonly code: string
  readonly amount: ShownFigure
}

export interface ShownTax {
  /** As "GOODS, 7.25 %". */
  readonly code: string
  readonly net: ShownFigure
  readonly tax: ShownFigure
}

export interface ShownSum {
  readonly name: string
  readonly figure: ShownFigure
  readonly isTotal: boolean
}

/** What stands on an invoice, in words: the same on screen, on paper and in the PDF. */
export interface ShownInvoice {
  readonly currency: string
  readonly groups: readonly { readonly name: string, readonly lines: readonly ShownLine[] }[]
  /** The whole, what earlier invoices charged of it, and this one; one part alone where there is no earlier invoice. */
  readonly taxes: readonly { readonly name: string, readonly rows: readonly ShownTax[] }[]
  readonly sums: readonly ShownSum[]
}

/** The notes of the columns on paper. */
export const INVOICE_NOTES = [
  'Amount: quantity × price, each line rounded half away from zero. Hours are written to the second where they are not a round part of an hour.',
  'Net: the sum of the lines of a code. Tax: by code on that sum, rounded half away from zero. What earlier invoices charged is taken off as it stands on them, net and tax.',
  'Total: net + tax. To be paid: total − what was paid ahead.',
]

/** And those of a credit note. */
export const CREDIT_NOTES = [
  'Amount: what is taken back of a line of the invoice, net.',
  'Net: the sum of the lines of a code. Tax: by code on that sum, rounded half away from zero, never more than is left of it on the invoice.',
  'Credited: net + tax.',
]

/** Lines, tax by code, and the sums, on the screen or on paper. */
export function InvoiceTable({ shown, onPaper = false, on }: { shown: ShownInvoice, onPaper?: boolean, on?: string | undefined }): JSX.Element {
  const note = (number: number): { note?: number } => (onPaper ? { note: number } : {})
  return (
    <>
      <Table columns={[{ name: 'No.' }, { name: 'What' }, { name: 'Quantity', isFigure: true }, { name: `Price, ${shown.currency}`, isFigure: true }, { name: 'Tax code' }, { name: `Amount, ${shown.currency}`, isFigure: true, ...note(1) }]} caption="Lines">
        {shown.groups.map(({ name, lines }) => (
          <>
            {name === '' ? '' : <GroupRow name={name} span={6} />}
            {lines.map((line) => (
              <tr>
                <td class="no" safe>{line.no}</td>
                <th scope="row" safe>{line.text}</th>
                <FigureCell is="quantity" text={line.quantity} how="recorded" />
                <FigureCell is="price" text={line.each} how="recorded" />
                <WordCell is="tax code" text={line.code} quiet />
                <FigureCell is="amount" text={line.amount.text} how={line.amount.how} on={line.amount.on ?? on} />
              </tr>
            ))}
          </>
        ))}
      </Table>
      <Table columns={[{ name: 'Tax by code' }, { name: `Net, ${shown.currency}`, isFigure: true, ...note(2) }, { name: `Tax, ${shown.currency}`, isFigure: true, ...note(2) }]} caption="Tax by code">
        {shown.taxes.map(({ name, rows }) => (
          <>
            {name === '' ? '' : <GroupRow name={name} span={3} />}
            {rows.map(({ code, net, tax }) => <tr><th scope="row" safe>{code}</th><FigureCell is="net" text={net.text} how={net.how} on={on} /><FigureCell is="tax" text={tax.text} how={tax.how} on={on} /></tr>)}
          </>
        ))}
      </Table>
      <Table columns={[{ name: 'Sum' }, { name: shown.currency, isFigure: true, ...note(3) }]} caption="Sums">
        {shown.sums.map(({ name, figure, isTotal }) => <tr class={[isTotal && 'total']}><th scope="row" safe>{name}</th><FigureCell is={shown.currency} text={figure.text} how={figure.how} on={on} /></tr>)}
      </Table>
    </>
  )
}
