import type { Reader } from '../shared/amount.ts'
import { writeAmount } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { Mark } from '../shared/marks.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { PartMaterial } from './partData.ts'

const COLUMNS = [{ name: 'Material' }, { name: 'Bought as' }, { name: 'Net', isFigure: true }, { name: 'Packs for the build', isFigure: true }, { name: 'Where' }] as const

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
          {materials.map((material, index) => <Row material={material} reader={reader} how={`m${index}`} />)}
        </Table>
      )}
      {materials.length === 0 ? '' : <p class="quiet">Net of all pieces. What to buy stands in the bill of materials, with waste by a share: no cut plan is made yet.</p>}
      {addHref === undefined ? '' : <p><a href={at(addHref)}>Add a material</a></p>}
    </section>
  )
}

function Row({ material: { name, boughtAs, net, toTake, where, isHere, href }, reader, how }: { material: PartMaterial, reader: Reader, how: string }): JSX.Element {
  return (
    <tr>
      <th scope="row"><a href={at(href)} safe>{name}</a></th>
      <WordCell text={boughtAs} />
      <FigureCell is="net" text={writeAmount(net, reader)} how={`${how}n`} />
      <FigureCell is="packs for the build" text={toTake} how={`${how}t`} />
      <td>{isHere ? '' : <Mark name="waiting" />} <span safe>{where}</span></td>
    </tr>
  )
}
