import type { Working } from '../../server/calc/amounts.ts'
import { Explained, Notes } from '../shared/figure.tsx'
import { Paper } from '../shared/printSheet.tsx'
import type { TitleBlockFields } from '../shared/printSheet.tsx'
import type { Viewer } from '../shared/viewer.ts'
import { BillTable } from './billTable.tsx'
import type { BillLine } from './billTable.tsx'
import { NestedParts } from './nestedParts.tsx'
import type { NestedPart } from './nestedParts.tsx'

export type { BillLine, NestedPart }
export type { BillPeg } from './billTable.tsx'

export interface BillOfMaterialsData {
  readonly titleBlock: TitleBlockFields
  readonly materials: readonly BillLine[]
  readonly equipment: readonly BillLine[]
  readonly singleUse: readonly BillLine[]
  /** What the numbers of zones stand for, as "4 Rear wall". */
  readonly zones: readonly string[]
  /** The tree of made parts, indented, as bill of what is made. */
  readonly parts: readonly NestedPart[]
  /** Left out for those who see no money; then no line shows any. */
  readonly totals?: { readonly cost: Working, readonly sell: Working, readonly buy: Working } | undefined
  readonly backHref: string
}

/** Everything a build takes, each line with where it comes from; on the screen and on paper. */
export function BillOfMaterialsPage({ viewer, data }: { viewer: Viewer, data: BillOfMaterialsData }): JSX.Element {
  const showsMoney = data.totals !== undefined
  const notes = showsMoney ? 3 : 0
  return (
    <Paper viewer={viewer} titleBlock={data.titleBlock} backHref={data.backHref}>
      <Totals viewer={viewer} data={data} />
      {data.zones.length === 0 ? '' : <section><p class="note">Zones: <span safe>{data.zones.join(', ')}</span>.</p></section>}
      <BillTable notes={notes} name="Materials" lines={data.materials} showsMoney={showsMoney} reader={viewer}
        none="No material yet." note="Waste is a share on top of the net need, as set on the material: no cut plan is made yet. Packs are whole." />
      <BillTable notes={notes} name="Equipment" lines={data.equipment} showsMoney={showsMoney} reader={viewer} none="No equipment yet." />
      <BillTable notes={notes} name="Single-use parts of the way back" lines={data.singleUse} showsMoney={showsMoney} reader={viewer}
        none="None noted." note="Fasteners that are used once, and spares for those that break." />
      <NestedParts parts={data.parts} />
      <BillNotes viewer={viewer} data={data} />
    </Paper>
  )
}

function Totals({ viewer, data: { totals } }: { viewer: Viewer, data: BillOfMaterialsData }): JSX.Element {
  if (totals === undefined) return ''
  return (
    <section>
      <h2>Totals</h2>
      <dl class="tally">
        <div><dt>Cost</dt><dd><Explained working={totals.cost} reader={viewer} /><sup class="note-no on-paper">1</sup></dd></div>
        <div><dt>Price</dt><dd><Explained working={totals.sell} reader={viewer} /><sup class="note-no on-paper">2</sup></dd></div>
        <div><dt>Still to spend</dt><dd><Explained working={totals.buy} reader={viewer} /><sup class="note-no on-paper">3</sup></dd></div>
      </dl>
    </section>
  )
}

/** On paper nothing opens, so the same stands there as notes: the totals, then the columns. */
function BillNotes({ viewer, data: { totals } }: { viewer: Viewer, data: BillOfMaterialsData }): JSX.Element {
  const workings = totals === undefined ? QUANTITY_NOTES : [totals.cost, totals.sell, totals.buy, ...QUANTITY_NOTES, ...MONEY_NOTES]
  return <section class="on-paper together"><h2>Notes</h2><Notes workings={workings} reader={viewer} /></section>
}

const QUANTITY_NOTES = [
  'Need: the sum of what it is for, as it stands below each line, and waste on top where the material has some; of equipment what was entered (common practice, no source)',
  'To take: need ÷ what one pack holds, rounded up to whole packs; of what is bought by the piece the need (common practice, no source)',
]
const MONEY_NOTES = [
  'Cost: packs or pieces to take × cost of one as recorded; what the customer brings costs nothing (common practice, no source)',
  'Price: packs or pieces to take × price of one as recorded; what the customer brings costs nothing (common practice, no source)',
]
