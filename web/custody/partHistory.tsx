import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Signature } from '../shared/signature.tsx'
import type { SignedBy } from '../shared/signature.tsx'
import { NumberCell, Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

export interface MoveShown {
  readonly when: string
  readonly kind: string
  readonly from: string
  readonly to: string
  readonly who: string
  readonly note: string
  readonly receiptHref: string | null
  readonly signed: SignedBy | null
}

export interface PartHistoryData {
  readonly trail: readonly TrailStep[]
  readonly label: string
  readonly name: string
  readonly where: string
  readonly condition: string
  readonly moves: readonly MoveShown[]
  readonly next: readonly { readonly href: string, readonly name: string }[]
  readonly links: readonly { readonly href: string, readonly name: string }[]
}

/** Where one factory part has been, from the day it came out, newest first. */
export function PartHistoryPage({ viewer, data }: { viewer: Viewer, data: PartHistoryData }): JSX.Element {
  return (
    <Frame title={`${data.label} ${data.name}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Factory part" number={data.label} />
        <TitleCell label="Where it has been" title={data.name} />
        <TextCell label="Now" width="w4" text={data.where} />
        {data.condition === '' ? '' : <TextCell label="Condition" text={data.condition} />}
      </Strip>
      <div class="deed">
        {data.next.map(({ href, name }) => <a class="button" href={at(href)} safe>{name}</a>)}
        {data.links.map(({ href, name }) => <a class="link" href={at(href)} safe>{name}</a>)}
      </div>
      <section class="block">
        <h2>Moves</h2>
        {data.moves.length === 0 ? <p class="quiet">It has not been moved: it is where it was when it was entered.</p> : (
          <Table columns={[{ name: 'When' }, { name: 'What' }, { name: 'From' }, { name: 'To' }, { name: 'Recorded by' }]} caption="Moves, newest first">
            {data.moves.map((move) => <MoveRow move={move} />)}
          </Table>
        )}
      </section>
    </Frame>
  )
}

function MoveRow({ move }: { move: MoveShown }): JSX.Element {
  return (
    <>
      <tr>
        <WordCell text={move.when} />
        <th scope="row"><span safe>{move.kind}</span>{move.note === '' ? '' : <span class="sub prose" safe>{move.note}</span>}</th>
        <WordCell is="from" text={move.from} />
        <WordCell is="to" text={move.to} />
        <td data-is="by"><span safe>{move.who}</span>{move.receiptHref === null ? '' : <>{' '}<a href={at(move.receiptHref)}>receipt</a></>}</td>
      </tr>
      {move.signed === null ? '' : <tr><td class="whole" colspan="5"><Signature signed={move.signed} /></td></tr>}
    </>
  )
}
