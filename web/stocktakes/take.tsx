import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { State } from '../shared/marks.tsx'
import type { StateName } from '../shared/marks.tsx'
import { NumberCell, Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { GroupRow, Table } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

export interface TakeData {
  readonly trail: readonly TrailStep[]
  readonly number: number
  readonly href: string
  readonly begun: string
  readonly note: string
  readonly counts: readonly { readonly label: string, readonly text: string }[]
  /** What was typed and fits no bin. */
  readonly notFound: string
  readonly groups: readonly { readonly name: string, readonly spots: readonly { readonly name: string, readonly href: string, readonly state: StateName, readonly words: string }[] }[]
  readonly resultHref: string
}

/** An open stock-take: bin after bin, how far each is looked through. */
export function TakePage({ viewer, data }: { viewer: Viewer, data: TakeData }): JSX.Element {
  return (
    <Frame title={`Stock-take ${data.number}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Stock-take" number={String(data.number)} />
        <TitleCell label={data.begun} title="Bin after bin" />
        {data.counts.map(({ label, text }) => <TextCell label={label} width="w2" text={text} />)}
      </Strip>
      {data.note === '' ? '' : <p class="block prose" safe>{data.note}</p>}
      <form class="find" method="get" action={at(data.href)}>
        <label class="unseen" for="spot">Number of a bin</label>
        <div class="entry"><input id="spot" name="find" type="text" value={data.notFound} placeholder="B-0231 A-003" autocomplete="off" /></div>
        <button class="button first" type="submit">Count this bin</button>
      </form>
      {data.notFound === '' ? '' : <p class="block" role="alert">There is no bin <strong safe>{data.notFound}</strong>. Write the build and the bin as on the label: B-0231 A-003.</p>}
      <section class="block">
        <h2>What there is to look through</h2>
        {data.groups.length === 0 ? <p class="quiet">No factory part is stored in the shop.</p> : (
          <Table columns={[{ name: 'Bin or place' }, { name: 'Looked through' }]} caption="Bins and places by build">
            {data.groups.map((group) => (
              <>
                <GroupRow name={group.name} span={2} />
                {group.spots.map((spot) => <tr><th scope="row"><a href={at(spot.href)} safe>{spot.name}</a></th><td><State name={spot.state} words={spot.words} /></td></tr>)}
              </>
            ))}
          </Table>
        )}
      </section>
      <div class="deed"><a class="button first" href={at(data.resultHref)}>What came of it, and close</a></div>
    </Frame>
  )
}

export interface ResultRow {
  readonly id: string
  readonly label: string
  readonly build: string
  readonly name: string
  readonly href: string
  readonly seen: string
  readonly recorded: string
  readonly more: string
}

export interface ResultData {
  readonly trail: readonly TrailStep[]
  readonly number: number
  readonly when: string
  readonly isOpen: boolean
  readonly saved: string | null
  readonly here: number
  readonly elsewhere: readonly ResultRow[]
  readonly notFound: readonly ResultRow[]
  readonly notLookedAt: readonly ResultRow[]
  /** Presses, where the role may and something is left to do; with a key each. */
  readonly move: { readonly action: string, readonly key: string, readonly count: number } | null
  readonly miss: { readonly action: string, readonly key: string, readonly ids: readonly string[] } | null
  readonly close: { readonly action: string, readonly key: string } | null
  readonly backHref: string
}
