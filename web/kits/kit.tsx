import type { Amount, Working } from '../../server/calc/amounts.ts'
import type { RecordPageData } from '../records/record.tsx'
import { at } from '../shared/asset.ts'
import { writeAmount, writeBought } from '../shared/amount.ts'
import { Explained } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { History } from '../shared/history.tsx'
import { Post } from '../shared/post.tsx'
import { Saved } from '../shared/saved.tsx'
import { Cell, Strip, TitleCell, Trail } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

interface NamedLink { readonly name: string, readonly href: string }

export interface KitPartRow {
  readonly name: string
  readonly href: string
  readonly quantity: Amount
  readonly note: string
  readonly money?: { readonly cost: Amount, readonly sell: Amount } | undefined
}

export interface KitUse {
  readonly line: string
  readonly href: string
  readonly quantity: number
  readonly build: string
  readonly isDelivered: boolean
  /** What is not as the kit has it, in words. */
  readonly differs: readonly string[]
}

export interface KitData {
  readonly parts: readonly KitPartRow[]
  /** Left out for those who see no money. */
  readonly totals?: { readonly cost: Working, readonly sell: Working } | undefined
  readonly addHref?: string | undefined
  /** Catalog items and standard fittings that bring it. */
  readonly bringers: readonly NamedLink[]
  readonly uses: readonly KitUse[]
}

interface Props { readonly viewer: Viewer, readonly data: { readonly record: RecordPageData, readonly kit: KitData } }

/** A kit: its parts and what they cost, what brings it, and where a line has it differently. */
export function KitPage({ viewer, data: { record, kit } }: Props): JSX.Element {
  return (
    <Frame title={record.title} place="stock" viewer={viewer}>
      <Trail steps={[...record.trail, { name: record.title }]} />
      {record.saved === null ? '' : <Saved what={record.saved} csrfToken={viewer.csrfToken} />}
      <Strip>
        <TitleCell label="Kit" title={record.title} isNamed />
        {kit.totals === undefined ? '' : <Cell label="Cost of one"><Explained working={kit.totals.cost} reader={viewer} /></Cell>}
        {kit.totals === undefined ? '' : <Cell label="Price of one"><Explained working={kit.totals.sell} reader={viewer} /></Cell>}
      </Strip>
      {record.isRemoved ? <p class="block"><strong>Removed.</strong> It is kept with its history and can be taken back.</p> : ''}
      <Parts viewer={viewer} kit={kit} record={record} />
      <Uses kit={kit} />
      <History entries={record.history} />
    </Frame>
  )
}

function Parts({ viewer, kit, record }: { viewer: Viewer, kit: KitData, record: RecordPageData }): JSX.Element {
  const money = kit.totals === undefined ? [] : [{ name: 'Cost', isFigure: true }, { name: 'Price', isFigure: true }]
  const note = record.facts.find(({ label }) => label === 'Note')?.text ?? ''
  return (
    <section class="block" aria-labelledby="parts">
      <h2 id="parts">Parts, for one unit of the equipment</h2>
      {note === '' ? '' : <p safe>{note}</p>}
      {kit.parts.length === 0 ? <p class="quiet">None yet. The first one: 2 crimp terminals, or 1.5 m of speaker wire.</p> : (
        <Table columns={[{ name: 'Material' }, { name: 'How much', isFigure: true }, ...money]} caption="Parts of the kit">
          {kit.parts.map((part, index) => (
            <tr>
              <th scope="row"><a href={at(part.href)} safe>{part.name}</a>{part.note === '' ? '' : <span class="sub" safe>{part.note}</span>}</th>
              <FigureCell is="how much" text={writeBought(part.quantity, viewer)} how="recorded" />
              {part.money === undefined ? '' : <FigureCell is="cost" text={writeAmount(part.money.cost, viewer)} how={`c${index}`} />}
              {part.money === undefined ? '' : <FigureCell is="price" text={writeAmount(part.money.sell, viewer)} how={`p${index}`} />}
            </tr>
          ))}
        </Table>
      )}
      <p class="quiet">Change a part here and the lines of all open builds follow, except where somebody adjusted it. Delivered builds stay as they were built.</p>
      <div class="deed">
        {kit.addHref === undefined || record.isRemoved ? '' : <a class="button first" href={at(kit.addHref)}>Add a part</a>}
        {record.changeHref === null ? '' : <a class="button" href={at(record.changeHref)}>Change name or note</a>}
        {record.removal === null ? '' : <Post post={{ action: record.removal.action, idempotencyKey: record.removal.key }} csrfToken={viewer.csrfToken}>{record.isRemoved ? 'Take back' : 'Remove'}</Post>}
      </div>
    </section>
  )
}

function Uses({ kit }: { kit: KitData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="uses">
      <h2 id="uses">Where it is used</h2>
      {kit.bringers.length === 0 ? <p class="quiet">No catalog item or standard fitting brings it: choose it there, or on an equipment line.</p> : (
        <p>Comes with {kit.bringers.map(({ name, href }, index) => <>{index === 0 ? '' : ', '}<a class="link" href={at(href)} safe>{name}</a></>)}.</p>
      )}
      {kit.uses.length === 0 ? <p class="quiet">No equipment line has it yet.</p> : (
        <Table columns={[{ name: 'Line' }, { name: 'Build' }, { name: 'Units', isFigure: true }, { name: 'Differs from the kit' }]} caption="Equipment lines with this kit">
          {kit.uses.map((use) => (
            <tr>
              <th scope="row"><a href={at(use.href)} safe>{use.line}</a></th>
              <WordCell text={use.isDelivered ? `${use.build}, delivered` : use.build} />
              <FigureCell is="units" text={String(use.quantity)} how="recorded" />
              <WordCell is="differs" text={use.differs.length === 0 ? 'no' : use.differs.join('; ')} quiet={use.differs.length === 0} />
            </tr>
          ))}
        </Table>
      )}
    </section>
  )
}
