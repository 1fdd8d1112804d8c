import type { Working } from '../../server/calc/amounts.ts'
import { at } from '../shared/asset.ts'
import { Explained } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import type { HistoryEntry } from '../shared/history.tsx'
import { History } from '../shared/history.tsx'
import { Mark, State } from '../shared/marks.tsx'
import { Photos } from '../shared/photos.tsx'
import type { PhotosProps } from '../shared/photos.tsx'
import { Saved } from '../shared/saved.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface VisitOperation {
  readonly item: string
  readonly itemHref: string
  readonly operation: string
  readonly href: string
  readonly department: string
  readonly state: string
}

export interface VisitClaim {
  readonly href: string
  readonly line: string
  readonly reference: string
  readonly state: string
  readonly on: string
  readonly answeredOn: string
  /** Empty for those who see no money. */
  readonly credited: string
  readonly warning: string
}

export interface VisitSwap {
  readonly href: string
  readonly line: string
  readonly lineHref: string
  readonly oldSerial: string
  readonly newSerial: string
  readonly on: string
  readonly warrantyUntil: string
  readonly oldUnit: string
}

export interface VisitPageData {
  readonly trail: readonly TrailStep[]
  /** As W-001. */
  readonly number: string
  readonly title: string
  readonly saved: string | null
  readonly isRemoved: boolean
  readonly facts: readonly { readonly label: string, readonly text: string }[]
  readonly photos?: PhotosProps | undefined
  readonly deliveredOn: string
  /** Who pays for it, in a sentence. */
  readonly billing: string
  readonly hours: Working
  /** Null for those who see no money. */
  readonly cost: Working | null
  readonly operations: readonly VisitOperation[]
  readonly claims: readonly VisitClaim[]
  readonly swaps: readonly VisitSwap[]
  readonly add: { readonly operation: string | null, readonly claim: string | null, readonly swap: string | null }
  readonly changeHref: string | null
  readonly removal: { readonly action: string, readonly key: string } | null
  readonly asBuiltHref: string
  readonly history: readonly HistoryEntry[]
}

/** A vehicle that came back: complaint and cause, what was done, what it cost, who is asked to make good. */
export function VisitPage({ viewer, data }: { viewer: Viewer, data: VisitPageData }): JSX.Element {
  return (
    <Frame title={`${data.number} ${data.title}`} place="builds" viewer={viewer}>
      <Trail steps={[...data.trail, { name: data.number }]} />
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      <VisitStrip viewer={viewer} data={data} />
      {data.isRemoved ? <p class="block"><strong>Removed.</strong> It is kept with its history and can be taken back.</p> : ''}
      <Facts data={data} />
      <Operations data={data} />
      <Claims data={data} />
      <Swaps data={data} />
      {data.photos === undefined ? '' : <Photos {...data.photos} />}
      <Deeds viewer={viewer} data={data} />
      <History entries={data.history} />
    </Frame>
  )
}

function VisitStrip({ viewer, data }: { viewer: Viewer, data: VisitPageData }): JSX.Element {
  return (
    <Strip>
      <NumberCell label="Service visit" number={data.number} />
      <TitleCell label="Complaint" title={data.title} />
      <Turn />
      <TextCell label="Delivered" width="w3" text={data.deliveredOn} />
      <Cell label="Hours after delivery" width="w3"><Explained working={data.hours} reader={viewer} byHand /></Cell>
      {data.cost === null ? '' : <Cell label="What they cost the shop" width="w3"><Explained working={data.cost} reader={viewer} /></Cell>}
      <TextCell label="Billing" width="w5" text={data.billing} />
    </Strip>
  )
}

function Facts({ data }: { data: VisitPageData }): JSX.Element {
  const recorded = data.facts.filter(({ text }) => text !== '')
  const missing = data.facts.filter(({ text }) => text === '').map(({ label }) => label.toLowerCase())
  return (
    <section class="block">
      <h2 class="unseen">What is recorded</h2>
      <dl class="facts">
        {recorded.map(({ label, text }) => <div><dt safe>{label}</dt><dd class="prose" safe>{text}</dd></div>)}
      </dl>
      {missing.length === 0 ? '' : <p class="quiet">Not recorded: <span safe>{missing.join(', ')}</span>.</p>}
    </section>
  )
}

function Operations({ data: { operations, add } }: { data: VisitPageData }): JSX.Element {
  return (
    <section class="block">
      <h2>Work</h2>
      {operations.length === 0 ? <p class="quiet">No operation is planned. For example: check, on the door panel, to find the rattle.</p> : (
        <Table columns={[{ name: 'On' }, { name: 'Operation' }, { name: 'Department' }, { name: 'State' }]} caption="Operations of this visit">
          {operations.map((each) => (
            <tr>
              <th scope="row"><a href={at(each.itemHref)} safe>{each.item}</a></th>
              <td><a href={at(each.href)} safe>{each.operation}</a></td>
              <WordCell is="department" text={each.department} quiet />
              <td><State name={each.state as Parameters<typeof State>[0]['name']} words={each.state} /></td>
            </tr>
          ))}
        </Table>
      )}
      <Add href={add.operation} name="Plan an operation of this visit" />
    </section>
  )
}

function Claims({ data: { claims, add } }: { data: VisitPageData }): JSX.Element {
  const showsCredit = claims.some(({ credited }) => credited !== '')
  return (
    <section class="block">
      <h2>Maker’s claims</h2>
      {claims.length === 0 ? <p class="quiet">None.</p> : (
        <Table columns={['Equipment', 'Reference', 'State', 'Claimed', 'Answered', ...(showsCredit ? ['Credited'] : [])].map((name) => ({ name }))} caption="Maker’s claims">
          {claims.map((claim) => (
            <tr>
              <th scope="row">
                <a href={at(claim.href)} safe>{claim.line}</a>
                {claim.warning === '' ? '' : <span class="sub"><Mark name="point" />{' '}{escapeHtml(claim.warning)}</span>}
              </th>
              <WordCell is="reference" text={claim.reference} />
              <WordCell text={claim.state} />
              <WordCell is="claimed" text={claim.on} />
              <WordCell is="answered" text={claim.answeredOn} />
              {showsCredit ? <FigureCell is="credited" text={claim.credited} how="recorded" /> : ''}
            </tr>
          ))}
        </Table>
      )}
      <Add href={add.claim} name="Add a maker’s claim" />
    </section>
  )
}

function Swaps({ data: { swaps, add } }: { data: VisitPageData }): JSX.Element {
  return (
    <section class="block">
      <h2>Swapped units</h2>
      {swaps.length === 0 ? <p class="quiet">None.</p> : (
        <Table columns={['Equipment', 'Came out', 'Went in', 'On', 'Warranty until', 'Old unit'].map((name) => ({ name }))} caption="Swapped units with their serial numbers">
          {swaps.map((swap) => (
            <tr>
              <th scope="row"><a href={at(swap.lineHref)} safe>{swap.line}</a></th>
              <td class="no" data-is="came out" safe>{swap.oldSerial}</td>
              <td class="no" data-is="went in"><a href={at(swap.href)} safe>{swap.newSerial}</a></td>
              <WordCell is="on" text={swap.on} />
              <WordCell is="warranty until" text={swap.warrantyUntil} />
              <WordCell is="old unit" text={swap.oldUnit} quiet />
            </tr>
          ))}
        </Table>
      )}
      <Add href={add.swap} name="Swap a unit" />
    </section>
  )
}

function Add({ href, name }: { href: string | null, name: string }): JSX.Element {
  return href === null ? '' : <p><a class="link" href={at(href)} safe>{name}</a></p>
}

function Deeds({ viewer, data }: { viewer: Viewer, data: VisitPageData }): JSX.Element {
  return (
    <div class="deed">
      {data.changeHref === null ? '' : <a class="button first" href={at(data.changeHref)}>Change</a>}
      {data.removal === null ? '' : (
        <form method="post" action={at(data.removal.action)}>
          <input type="hidden" name="_csrf" value={viewer.csrfToken} />
          <input type="hidden" name="_key" value={data.removal.key} />
          <button class="button" type="submit">{data.isRemoved ? 'Take back' : 'Remove'}</button>
        </form>
      )}
      <a class="link" href={at(data.asBuiltHref)}>As-built record</a>
    </div>
  )
}
