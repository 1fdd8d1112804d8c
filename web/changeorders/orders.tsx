import type { Working } from '../../server/calc/amounts.ts'
import { at } from '../shared/asset.ts'
import { Explained } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Post, type PostProps } from '../shared/post.tsx'
import { Cell, NumberCell, Strip, TitleCell, Trail, type TrailStep } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

export interface OrderRow {
  readonly number: string
  readonly title: string
  readonly href: string
  readonly later: string
  readonly standing: string
  readonly net: { readonly text: string, readonly how: string }
}

export interface GuardData {
  readonly accepted: Working
  readonly forecast: Working
  readonly left: Working
  readonly words: string
  /** Options that were said no to, and what stands in them: the forecast is without it. */
  readonly leftOut: readonly { readonly name: string, readonly amount: string, readonly logged: string }[]
  /** The lines of a change order over what is missing; none where nothing is. */
  readonly causes: readonly { readonly label: string, readonly amount: { readonly text: string, readonly how: string } }[]
  readonly prepare: PostProps
}

export interface OrdersData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  readonly guard: GuardData | null
  readonly orders: readonly OrderRow[]
  readonly newHref: string
  readonly links: readonly { readonly href: string, readonly name: string }[]
}

/** What changed since the quote was accepted, and whether the forecast is still inside. */
export function OrdersPage({ viewer, data }: { viewer: Viewer, data: OrdersData }): JSX.Element {
  return (
    <Frame title={`Change orders of ${data.number}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Build" number={data.number} />
        <TitleCell label={data.title} title="Change orders" />
        {data.guard === null ? '' : <><Cell label="Accepted, without tax" width="w3"><Explained working={data.guard.accepted} reader={viewer} /></Cell><Cell label="Forecast, without tax" width="w3"><Explained working={data.guard.forecast} reader={viewer} /></Cell><Cell label="Left of it" width="w3"><Explained working={data.guard.left} reader={viewer} /></Cell></>}
      </Strip>
      <div class="deed">
        <a class="button first" href={at(data.newHref)}>A new change order</a>
        {data.links.map(({ href, name }) => <a class="link" href={at(href)} safe>{name}</a>)}
      </div>
      <Guard guard={data.guard} viewer={viewer} />
      <section class="block" aria-labelledby="orders">
        <h2 id="orders">Change orders</h2>
        {data.orders.length === 0 ? <p class="quiet">None yet. What comes on top of what was accepted, or is left out of it, is a change order: lines, a reason, days later, and a consent of its own.</p> : (
          <Table columns={[{ name: 'No.' }, { name: 'Title' }, { name: 'Standing' }, { name: 'Later' }, { name: 'Without tax', isFigure: true }]} caption="Change orders">
            {data.orders.map((row) => (
              <tr><td class="no"><a href={at(row.href)} safe>{row.number}</a></td><th scope="row" safe>{row.title}</th><WordCell is="standing" text={row.standing} /><WordCell is="later" text={row.later} quiet /><FigureCell is="without tax" text={row.net.text} how={row.net.how} /></tr>
            ))}
          </Table>
        )}
        <p class="quiet">Accepted total = accepted quote + accepted change orders. Local law decides what a consent needs, and what may be charged without one.</p>
      </section>
    </Frame>
  )
}

function Guard({ guard, viewer }: { guard: GuardData | null, viewer: Viewer }): JSX.Element {
  if (guard === null) return <section class="block" aria-label="Accepted so far"><p class="quiet">The customer has accepted nothing yet: until then change the quote itself.</p></section>
  return (
    <section class="block" aria-labelledby="guard">
      <h2 id="guard">Forecast against what was accepted</h2>
      <p safe>{guard.words}</p>
      {guard.leftOut.map(({ name, amount, logged }) => <p class="quiet" safe>{`${name}, was said no to: ${amount} in the estimate, not in this forecast.${logged === '' ? '' : ` ${logged} of it is logged already, and nobody has agreed to pay it.`}`}</p>)}
      {guard.causes.length === 0 ? '' : (
        <>
          <Table columns={[{ name: 'What it comes from' }, { name: 'Missing', isFigure: true }]} caption="Where the forecast is over the estimate">
            {guard.causes.map(({ label, amount }) => <tr><th scope="row" safe>{label}</th><FigureCell is="missing" text={amount.text} how={amount.how} /></tr>)}
          </Table>
          <Post post={guard.prepare} csrfToken={viewer.csrfToken}>Prepare a change order from these</Post>
        </>
      )}
    </section>
  )
}
