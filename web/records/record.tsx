import type { Children } from '@kitajs/html'
import { at } from '../shared/asset.ts'
import type { Place } from '../shared/frame.tsx'
import { Frame } from '../shared/frame.tsx'
import type { HistoryEntry } from '../shared/history.tsx'
import { History } from '../shared/history.tsx'
import { Mark } from '../shared/marks.tsx'
import { Photos } from '../shared/photos.tsx'
import type { PhotosProps } from '../shared/photos.tsx'
import { Saved } from '../shared/saved.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { NumberCell, Strip, TitleCell, Trail } from '../shared/strip.tsx'
import type { Viewer } from '../shared/viewer.ts'

export interface Fact {
  readonly label: string
  readonly text: string
  readonly href?: string
}

/** Records that belong to this one, with a way to add the next. */
export interface Related {
  readonly title: string
  readonly rows: readonly { readonly href: string, readonly name: string, readonly more: string }[]
  readonly addHref: string | null
  readonly addName: string
}

export interface RecordPageData {
  readonly place: Place
  readonly trail: readonly TrailStep[]
  readonly kindName: string
  readonly number: string
  readonly title: string
  readonly facts: readonly Fact[]
  readonly photos?: PhotosProps | undefined
  readonly related: readonly Related[]
  readonly changeHref: string | null
  /** What is begun from this record, beside changing it. */
  readonly begin?: { readonly href: string, readonly name: string } | undefined
  readonly removal: { readonly action: string, readonly key: string } | null
  readonly isRemoved: boolean
  /** What is odd about it though it may stand; empty for most. */
  readonly warning: string
  readonly saved: string | null
  readonly nextHref: string | null
  readonly history: readonly HistoryEntry[]
}

/** One record as it stands: its facts, what its subject adds as children, what belongs to it, and who changed what. */
export function RecordPage({ viewer, data, children }: { viewer: Viewer, data: RecordPageData, children?: Children }): JSX.Element {
  const recorded = data.facts.filter((fact) => fact.text !== '')
  const missing = data.facts.filter((fact) => fact.text === '').map((fact) => fact.label.toLowerCase())
  return (
    <Frame title={`${data.number} ${data.title}`.trim()} place={data.place} viewer={viewer}>
      <Trail steps={[...data.trail, { name: data.title }]} />
      <SavedLine viewer={viewer} data={data} />
      <Strip>
        {data.number === '' ? '' : <NumberCell label={data.kindName} number={data.number} />}
        <TitleCell label={data.number === '' ? data.kindName : 'Title'} title={data.title} isNamed />
      </Strip>
      {data.isRemoved ? <p class="block"><strong>Removed.</strong> It is kept with its history and can be taken back.</p> : ''}
      {data.warning === '' ? '' : <p class="block" role="note"><Mark name="point" />{' '}<strong safe>{data.warning}</strong></p>}
      <section class="block">
        <h2 class="unseen">What is recorded</h2>
        <dl class="facts">{recorded.map((fact) => <FactLine fact={fact} />)}</dl>
        {missing.length === 0 ? '' : <p class="quiet">Not recorded: <span safe>{missing.join(', ')}</span>.</p>}
        <Deeds viewer={viewer} data={data} />
      </section>
      {children ?? ''}
      {data.photos === undefined ? '' : <Photos {...data.photos} />}
      {data.related.map((related) => <RelatedBlock related={related} />)}
      <History entries={data.history} />
    </Frame>
  )
}

function SavedLine({ viewer, data }: { viewer: Viewer, data: RecordPageData }): JSX.Element {
  if (data.saved === null) return ''
  return data.nextHref === null
    ? <Saved what={data.saved} csrfToken={viewer.csrfToken} />
    : <Saved what={data.saved} csrfToken={viewer.csrfToken} next={{ href: at(data.nextHref), name: `Add another ${data.kindName.toLowerCase()}` }} />
}

function FactLine({ fact }: { fact: Fact }): JSX.Element {
  return (
    <div>
      <dt safe>{fact.label}</dt>
      <dd>
        {fact.href === undefined ? <span class="prose" safe>{fact.text}</span> : <a class="link" href={at(fact.href)} safe>{fact.text}</a>}
      </dd>
    </div>
  )
}

function Deeds({ viewer, data }: { viewer: Viewer, data: RecordPageData }): JSX.Element {
  if (data.changeHref === null && data.removal === null && data.begin === undefined) return ''
  return (
    <div class="deed">
      {data.changeHref === null ? '' : <a class="button first" href={at(data.changeHref)}>Change</a>}
      {data.begin === undefined ? '' : <a class="button" href={at(data.begin.href)} safe>{data.begin.name}</a>}
      {data.removal === null ? '' : (
        <form method="post" action={at(data.removal.action)}>
          <input type="hidden" name="_csrf" value={viewer.csrfToken} />
          <input type="hidden" name="_key" value={data.removal.key} />
          <button class="button" type="submit">{data.isRemoved ? 'Take back' : 'Remove'}</button>
        </form>
      )}
    </div>
  )
}

function RelatedBlock({ related }: { related: Related }): JSX.Element {
  return (
    <section class="block">
      <h2 safe>{related.title}</h2>
      {related.rows.length === 0 ? <p class="quiet">None yet.</p> : (
        <ul class="plainlist">
          {related.rows.map((row) => (
            <li><a class="link" href={at(row.href)} safe>{row.name}</a>{' '}<span class="quiet" safe>{row.more}</span></li>
          ))}
        </ul>
      )}
      {related.addHref === null ? '' : <p><a class="link" href={at(related.addHref)} safe>{related.addName}</a></p>}
    </section>
  )
}
