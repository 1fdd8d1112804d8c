import { at } from '../shared/asset.ts'
import { writeHours } from '../shared/amount.ts'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Cell, NumberCell, Strip, TitleCell, Trail } from '../shared/strip.tsx'
import { counted, escapeProse } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface AlterationRow {
  readonly number: string
  readonly href: string
  readonly kind: string
  readonly what: string
  readonly where: string
  /** As "F-021 Door panel"; empty for the body itself. */
  readonly part: string
  readonly why: string
  /** Whose and when; empty where nobody's is recorded. */
  readonly consent: string
  readonly way: 'reversible' | 'cannot be reversed' | 'reversed'
  readonly reversedOn: string
  readonly steps: readonly string[]
  readonly seconds: number
  /** Parts with price and lead time in words. */
  readonly buys: readonly string[]
  readonly outside: string
  readonly photos: readonly { readonly id: string, readonly caption: string }[]
  readonly missing: readonly string[]
}

export interface AlterationsData {
  readonly buildId: string
  readonly buildNumber: string
  readonly title: string
  readonly vehicle: string
  readonly rows: readonly AlterationRow[]
  /** How many of them have something missing. */
  readonly openCount: number
  /** Factory parts that are out, and nobody recorded where. */
  readonly lost: readonly { readonly number: string, readonly name: string, readonly zone: string, readonly href: string }[]
  readonly addHref?: string | undefined
}

/** All that was cut, drilled, spliced, trimmed or glued: whose consent, how it is undone, and what nobody recorded. */
export function AlterationsPage({ viewer, data }: { viewer: Viewer, data: AlterationsData }): JSX.Element {
  const { buildId, buildNumber, title, vehicle, rows, openCount, lost, addHref } = data
  const page = `/builds/${buildId}`
  return (
    <Frame title={`${buildNumber} Alterations`} place="builds" viewer={viewer}>
      <Trail steps={[{ name: `${buildNumber} ${title}`, href: page }, { name: 'Alterations' }]} />
      <Strip>
        <NumberCell label="Build" number={buildNumber} />
        <TitleCell label={vehicle} title="Alterations" />
        <Cell label="In all" width="w2"><span class="figure recorded">{rows.length}</span></Cell>
        <Cell label="Something missing" width="w3">{openCount === 0 ? 'nothing' : <><Mark name="point" /> {openCount} of {rows.length}</>}</Cell>
        <Cell label="Look at" width="w3"><div class="row"><a href={at(`${page}/restoration?scope=all`)}>the way back</a><a href={at(`${page}/removal`)}>order of removal</a><a href={at(`/alterations?build=${buildId}`)}>as a list, also what was taken away</a></div></Cell>
      </Strip>
      {addHref === undefined ? '' : <section class="deed"><a class="button" href={at(addHref)}>Record an alteration</a><span class="quiet">What was changed, where, whose consent, and how it is undone. A photo belongs to it.</span></section>}
      {rows.length === 0 ? <section class="block"><p>Nothing is altered. What cannot simply be put back belongs here, for example: four holes 6 mm in the load floor, consent of the owner, plugged on return.</p></section> : ''}
      {rows.map((row) => <Altered row={row} />)}
      {lost.length === 0 ? '' : <Lost parts={lost} />}
    </Frame>
  )
}

function Altered({ row }: { row: AlterationRow }): JSX.Element {
  const { number, href, kind, what, where, part, why, consent, way, reversedOn, missing } = row
  return (
    <section class="block altered">
      <h2><a href={at(href)}><span class="no" safe>{number}</span>{' '}<span safe>{what}</span></a></h2>
      {missing.length === 0 ? '' : <p class="missing"><Mark name="point" /> <strong>Missing: <span safe>{missing.join(', ')}</span></strong></p>}
      <dl class="facts">
        <div><dt>Kind</dt><dd><Mark name={way === 'reversed' ? 'done' : 'altered'} />{' '}<span safe>{kind}</span></dd></div>
        <div><dt>Where</dt><dd safe>{where}</dd></div>
        {part === '' ? '' : <div><dt>Factory part</dt><dd safe>{part}</dd></div>}
        <div><dt>Why</dt><dd safe>{why === '' ? 'not recorded' : why}</dd></div>
        <div><dt>Consent</dt><dd safe>{consent === '' ? 'nobody’s is recorded' : consent}</dd></div>
        <div><dt>Way back</dt><dd>{way}{reversedOn === '' ? '' : <> <span safe>{reversedOn}</span></>}</dd></div>
        <Reversal row={row} />
      </dl>
      <Pictures row={row} />
    </section>
  )
}

function Reversal({ row: { steps, seconds, buys, outside } }: { row: AlterationRow }): JSX.Element {
  return (
    <>
      {steps.length === 0 ? '' : <div><dt>Steps</dt><dd><ol class="numbered">{steps.map((step) => <li safe>{step}</li>)}</ol></dd></div>}
      {seconds === 0 ? '' : <div><dt>Time for it</dt><dd><span class="figure recorded" safe>{`${writeHours(seconds, 2)} h`}</span></dd></div>}
      {buys.length === 0 ? '' : <div><dt>{buys.length === 1 ? 'Part to buy' : 'Parts to buy'}</dt>{buys.map((part) => <dd class="recorded" safe>{part}</dd>)}</div>}
      {outside === '' ? '' : <div><dt>Another firm</dt><dd class="recorded" safe>{outside}</dd></div>}
    </>
  )
}

function Pictures({ row: { number, what, photos } }: { row: AlterationRow }): JSX.Element {
  if (photos.length === 0) return ''
  return (
    <p class="row photos-small">
      {photos.slice(0, 4).map(({ id, caption }, index) => (
        <a href={at(`/photos/${id}`)}><img src={at(`/photos/${id}?size=small`)} alt={`${number} ${what}${caption === '' ? '' : `: ${caption}`}${photos.length > 1 ? `, photo ${index + 1}` : ''}`} width="120" height="90" loading="lazy" /></a>
      ))}
    </p>
  )
}

function Lost({ parts }: { parts: AlterationsData['lost'] }): JSX.Element {
  return (
    <section class="block">
      <h2><span safe>{counted(parts.length, 'factory part is', 'factory parts are')}</span> out without a place</h2>
      <ul class="plainlist">
        {parts.map(({ number, name, zone, href }) => {
          const safeZone = escapeProse(zone)
          return <li><Mark name="point" /> <a href={at(href)}><span class="no" safe>{number}</span>{' '}<span safe>{name}</span></a> <span class="quiet">{safeZone}</span></li>
        })}
      </ul>
    </section>
  )
}
