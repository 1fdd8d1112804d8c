import { at } from './asset.ts'
import { Frame } from './frame.tsx'
import type { Place } from './frame.tsx'
import { Cell, Strip, TitleCell, Turn } from './strip.tsx'
import { escapeHtml } from './text.ts'
import type { Viewer } from './viewer.ts'

/** One field in which the two versions differ. The two values are what is shown and what is sent. */
export interface DifferingField {
  readonly name: string
  readonly label: string
  readonly yours: string
  readonly theirs: string
  /** Where the value sent is no word for people, as an id. */
  readonly yoursShown?: string
  readonly theirsShown?: string
}

export interface ConflictData {
  readonly place: Place
  /** As "F-055 Rear wall panel". */
  readonly record: string
  readonly theirName: string
  /** In the shop's zone, as "11:08". */
  readonly theirTime: string
  readonly fields: readonly DifferingField[]
  /** All other values of the form, sent along unchanged. */
  readonly hidden: readonly (readonly [name: string, value: string])[]
  readonly action: string
  readonly idempotencyKey: string
  /** The version now saved: the one that this save will replace. */
  readonly version: number
  readonly recordHref: string
}

/** Two versions side by side: only what differs, yours in pencil, theirs in ink. */
export function ConflictPage({ viewer, data }: { viewer: Viewer, data: ConflictData }): JSX.Element {
  return (
    <Frame title={`Two versions of ${data.record}`} place={data.place} viewer={viewer}>
      <Strip>
        <TitleCell label="Two versions" title={data.record} />
        <Turn />
        <Cell label="What happened" width="w7">
          <strong safe>{data.theirName}</strong> saved this record at <span safe>{data.theirTime}</span> while you were typing.
          Nothing of yours is lost and nothing is overwritten.
        </Cell>
        <Cell label="Differ" width="w2"><span class="no">{data.fields.length}</span> {data.fields.length === 1 ? 'field' : 'fields'}</Cell>
      </Strip>
      <Choices viewer={viewer} data={data} />
    </Frame>
  )
}

function Choices({ viewer, data }: { viewer: Viewer, data: ConflictData }): JSX.Element {
  return (
    <form method="post" action={at(data.action)}>
      <input type="hidden" name="_csrf" value={viewer.csrfToken} />
      <input type="hidden" name="_key" value={data.idempotencyKey} />
      <input type="hidden" name="_version" value={String(data.version)} />
      {data.hidden.map(([name, value]) => <input type="hidden" name={name} value={value} />)}
      <section class="versions" aria-label="Choose for each field">
        <div class="version heads" aria-hidden="true">
          <span class="label">Field</span><span class="label">Yours</span>
          <span class="label">Saved {escapeHtml(data.theirTime)}, {escapeHtml(data.theirName)}</span>
        </div>
        {data.fields.map((field) => <Choice field={field} theirName={data.theirName} />)}
      </section>
      <div class="deed">
        <button class="button first" type="submit">Save what is chosen</button>
        <a href={at(data.recordHref)}>Keep the saved version as it is</a>
        <span class="quiet">Both versions stay in the history of the record.</span>
      </div>
    </form>
  )
}

function Choice({ field, theirName }: { field: DifferingField, theirName: string }): JSX.Element {
  return (
    <fieldset class="version">
      <legend safe>{field.label}</legend>
      <label>
        <input type="radio" name={field.name} value={field.yours} checked />
        <span class="typed prose" safe>{shown(field.yoursShown ?? field.yours)}</span><small>yours</small>
      </label>
      <label>
        <input type="radio" name={field.name} value={field.theirs} />
        <span class="prose" safe>{shown(field.theirsShown ?? field.theirs)}</span><small>by {escapeHtml(theirName)}</small>
      </label>
    </fieldset>
  )
}

function shown(value: string): string {
  return value === '' ? 'empty' : value
}
