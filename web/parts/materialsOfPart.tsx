import type { Reader } from '../shared/amount.ts'
import { writeAmount } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { Mark } from '../shared/marks.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { PartMaterial } from './partData.ts'

const COLUMNS = [{ name: 'Material' }, { name: 'Bought as' }, { name: 'Net', isFigure: true }, { name: 'To take', isFigure: true }, { name: 'Where' }] as const

interface MaterialsProps {
  readonly materials: readonly PartMaterial[]
  readonly reader: Reader
  readonly addHref: string | undefined
}

/** What all pieces of the part take, in the form the material is bought in. */
export function Materials({ materials, reader, addHref }: MaterialsProps): JSX.Element {
  return (
    <section class="block">
      <h2>Materials</h2>
      {materials.length === 0 ? <p>None yet. For example: birch plywood 12 mm, 0.5 m² a piece.</p> : (
        <Table columns={COLUMNS} caption="Materials of this part">
          {materials.map((material) => <Row material={material} reader={reader} />)}
        </Table>
      )}
      {materials.length === 0 ? '' : <p class="quiet">Net of all pieces. What to buy stands in the bill of materials, with waste by a share: no cut plan is made yet.</p>}
      {addHref === undefined ? '' : <p><a href={at(addHref)}>Add a material</a></p>}
    </section>
  )
}

function Row({ material: { name, boughtAs, net, toTake, where, isHere, href }, reader }: { material: PartMaterial, reader: Reader }): JSX.Element {
  return (
    <tr>
      <th scope="row"><a href={at(href)} safe>{name}</a></th>
      <WordCell text={boughtAs} />
      <FigureCell is="net" text={writeAmount(net, reader)} how={undefined} />
      <FigureCell is="to take" text={toTake} how={undefined} />
      <td>{isHere ? '' : <Mark name="waiting" />} <span safe>{where}</span></td>
    </tr>
  )
}
