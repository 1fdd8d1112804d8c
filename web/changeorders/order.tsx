import type { Working } from '../../server/calc/amounts.ts'
import { at } from '../shared/asset.ts'
import { Explained } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Post, type PostProps } from '../shared/post.tsx'
import { Saved } from '../shared/saved.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Trail, Turn, type TrailStep } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

export interface OrderData {
  /** What has just been saved. */
  readonly saved: string | null
  readonly trail: readonly TrailStep[]
  /** As C-0231-3. */
  readonly number: string
  readonly build: string
  readonly title: string
  readonly reason: string
  readonly later: string
  readonly good: string
  readonly figures: Readonly<Record<'net' | 'tax' | 'total', Working>>
  readonly accepted: Working | null
  readonly lines: readonly { readonly text: string, readonly href: string, readonly quantity: string, readonly each: string, readonly code: string, readonly amount: { readonly text: string, readonly how: string } }[]
  readonly revisions: readonly { readonly number: string, readonly href: string, readonly frozen: string, readonly standing: string, readonly total: string }[]
  /** Null once it is accepted: then it stays as it is. */
  readonly draft: { readonly formHref: string, readonly addHref: string, readonly freeze: PostProps, readonly next: string } | null
  readonly links: readonly { readonly href: string, readonly name: string }[]
}

/** One change order: what it changes, and what of it was frozen for the customer. */
export function OrderPage({ viewer, data }: { viewer: Viewer, data: OrderData }): JSX.Element {
  const { draft, figures } = data
  return (
    <Frame title={`${data.number} ${data.title}`} place="builds" viewer={viewer}>
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Change order" number={data.number} />
        <TitleCell label={data.build} title={data.title} isNamed />
        <Turn />
        <Cell label="Without tax" width="w3"><Explained working={figures.net} reader={viewer} /></Cell>
        <Cell label="Tax" width="w3"><Explained working={figures.tax} reader={viewer} /></Cell>
        <Cell label="With tax" width="w3"><Explained working={figures.total} reader={viewer} /></Cell>
        <TextCell label="Later" text={data.later} />
        <TextCell label="Good for" text={data.good} />
        {data.accepted === null ? '' : <Cell label="Accepted so far, with tax" width="w4"><Explained working={data.accepted} reader={viewer} /></Cell>}
      </Strip>
      <div class="deed">
        {draft === null ? '' : <><a class="button" href={at(draft.addHref)}>Add a line</a><a class="button" href={at(draft.formHref)}>Change title and reason</a></>}
        {data.links.map(({ href, name }) => <a class="link" href={at(href)} safe>{name}</a>)}
      </div>
      {data.reason === '' ? '' : <section class="block" aria-labelledby="reason"><h2 id="reason">Reason</h2><p class="prose" safe>{data.reason}</p></section>}
      <section class="block" aria-labelledby="lines">
        <h2 id="lines">Lines</h2>
        {data.lines.length === 0 ? <p class="quiet">No line yet. What comes on top has a price above zero, what is left out one below zero.</p> : (
          <Table columns={[{ name: 'What' }, { name: 'Quantity', isFigure: true }, { name: 'Price each', isFigure: true }, { name: 'Tax code' }, { name: 'Amount', isFigure: true }]} caption="Lines of the change order">
            {data.lines.map((line) => (
              <tr><th scope="row"><a href={at(line.href)} safe>{line.text}</a></th><FigureCell is="quantity" text={line.quantity} how="recorded" /><FigureCell is="price" text={line.each} how="recorded" /><WordCell is="tax code" text={line.code} quiet /><FigureCell is="amount" text={line.amount.text} how={line.amount.how} /></tr>
            ))}
          </Table>
        )}
      </section>
      <section class="block" aria-labelledby="frozen">
        <h2 id="frozen">Frozen for the customer</h2>
        {data.revisions.length === 0 ? <p class="quiet">Not frozen yet. Freezing keeps it as it stands, with a number and a hash; the customer says yes or no to that.</p> : (
          <Table columns={[{ name: 'No.' }, { name: 'Frozen' }, { name: 'Standing' }, { name: 'With tax', isFigure: true }]} caption="Frozen revisions, newest first">
            {data.revisions.map((row) => <tr><th scope="row" class="no"><a href={at(row.href)} safe>{row.number}</a></th><WordCell is="frozen" text={row.frozen} /><WordCell is="standing" text={row.standing} /><FigureCell is="with tax" text={row.total} how="recorded" /></tr>)}
          </Table>
        )}
        {draft === null || data.lines.length === 0 ? '' : <Post post={draft.freeze} csrfToken={viewer.csrfToken}>Freeze <span safe>{draft.next}</span></Post>}
        <p class="quiet">Local law decides what a consent needs.</p>
      </section>
    </Frame>
  )
}
