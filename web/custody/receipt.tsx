import { Paper, Signatures } from '../shared/printSheet.tsx'
import type { TitleBlockFields } from '../shared/printSheet.tsx'
import { Signature } from '../shared/signature.tsx'
import type { SignedBy } from '../shared/signature.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

/** Told to whoever takes parts home. */
export const BELONGS = 'These parts belong to the vehicle. Keep them dry, flat and with this sheet: without them the vehicle cannot go back to how it left its maker.'

export interface ReceiptData {
  readonly titleBlock: TitleBlockFields
  readonly backHref: string
  /** Without the paper, as /custody-moves/…/receipt.pdf. */
  readonly pdfHref: string
  readonly parts: readonly { readonly label: string, readonly name: string, readonly zone: string, readonly makerNumber: string, readonly condition: string, readonly from: string }[]
  readonly keptAt: string
  readonly note: string
  readonly signed: SignedBy
}

/** What a customer took home, signed. */
export function ReceiptPage({ viewer, data }: { viewer: Viewer, data: ReceiptData }): JSX.Element {
  return (
    <Paper viewer={viewer} titleBlock={data.titleBlock} backHref={data.backHref} pdfHref={data.pdfHref}>
      <section>
        <h2>Factory parts taken home</h2>
        <Table columns={[{ name: 'No.' }, { name: 'Factory part' }, { name: 'Zone' }, { name: 'Maker’s number' }, { name: 'Condition' }, { name: 'Was in' }]} caption="Parts taken home">
          {data.parts.map((part) => (
            <tr>
              <td class="no" safe>{part.label}</td><th scope="row" safe>{part.name}</th><WordCell text={part.zone} />
              <WordCell is="maker’s number" text={part.makerNumber} /><WordCell is="condition" text={part.condition} /><WordCell is="was in" text={part.from} />
            </tr>
          ))}
        </Table>
      </section>
      <section class="together">
        <h2>What this means</h2>
        <p>{BELONGS}</p>
        {data.keptAt === '' ? '' : <p>Kept: <span safe>{data.keptAt}</span>.</p>}
        {data.note === '' ? '' : <p class="prose" safe>{data.note}</p>}
      </section>
      <section class="together">
        <h2>Received by</h2>
        <Signature signed={data.signed} />
        {data.signed.path === '' ? <Signatures fields={[{ label: 'Received by' }, { label: 'Date' }, { label: 'Handed over by' }, { label: 'Date' }]} /> : ''}
      </section>
    </Paper>
  )
}
