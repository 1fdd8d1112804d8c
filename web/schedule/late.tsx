import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

/** What an operation makes late if it is late itself. */
export interface LateData {
  readonly operationId: string
  readonly name: string
  readonly build: string
  readonly planned: string
  readonly by: string
  readonly unit: string
  /** Why nothing can be said; empty where it can. */
  readonly problem: string
  readonly work: readonly { readonly what: string, readonly href: string, readonly build: string, readonly was: string, readonly is: string }[]
  readonly builds: readonly { readonly name: string, readonly href: string, readonly was: string, readonly is: string, readonly words: string, readonly isLate: boolean }[]
  readonly calls: readonly { readonly customer: string, readonly phone: string, readonly why: string }[]
  readonly moveHref: string
}

export function LatePage({ viewer, data }: { viewer: Viewer, data: LateData }): JSX.Element {
  return (
    <Frame title="If it is late" place="schedule" viewer={viewer}>
      <Trail steps={[{ name: 'The operation', href: `/operations/${data.operationId}` }, { name: 'If it is late' }]} />
      <Strip>
        <TitleCell label={`If it is late · ${data.build}`} title={data.name} isNamed />
        <TextCell label="Planned" width="w5" text={data.planned} />
      </Strip>
      <section class="block" aria-labelledby="late">
        <h2 id="late">What if it is late</h2>
        <form class="find" method="get" action={at('/schedule/late')}>
          <input type="hidden" name="operation" value={data.operationId} />
          <label for="by">Late by</label>
          <div class="entry"><input id="by" inputmode="decimal" name="by" value={data.by} size="4" maxlength="10" /></div>
          <label class="unseen" for="unit">Unit</label>
          <div class="entry"><select name="unit" id="unit">
            <option value="hours" selected={data.unit === 'hours'}>hours of work more</option>
            <option value="days" selected={data.unit === 'days'}>working days later</option>
          </select></div>
          <button class="button first" type="submit">Say what it makes late</button>
        </form>
        {data.problem === '' ? '' : <p role="alert"><Mark name="point" /> <strong safe>{data.problem}</strong></p>}
        {data.moveHref === '' ? '' : <p><a class="button" href={at(data.moveHref)}>Move it in the plan</a></p>}
        <p class="quiet">Everything keeps its order, its people and its bay; room between is used up first. Nothing is changed by asking.</p>
      </section>
      {data.problem === '' ? <Found data={data} /> : ''}
    </Frame>
  )
}

function Found({ data: { calls, builds, work } }: { data: LateData }): JSX.Element {
  return (
    <>
      <section class="block" aria-labelledby="call">
        <h2 id="call">Whom to call</h2>
        {calls.length === 0 ? <p>Nobody: every date that is promised holds, or was missed already by as much.</p> : <ul>{calls.map(({ customer, phone, why }) => <li><strong safe>{customer}</strong><span safe>{`${phone === '' ? '' : `, ${phone}`}: ${why}`}</span></li>)}</ul>}
      </section>
      <section class="block" aria-labelledby="ends">
        <h2 id="ends">Builds that end later</h2>
        {builds.length === 0 ? <p>None.</p> : (
          <Table columns={[{ name: 'Build' }, { name: 'As planned' }, { name: 'Then' }, { name: 'Promise' }]} caption="Builds that end later">
            {builds.map(({ name, href, was, is, words, isLate }) => (
              <tr>
                <th scope="row"><a class="link" href={at(href)} safe>{name}</a></th>
                <WordCell is="as planned" text={was} /><WordCell is="then" text={is} />
                <td data-is="promise">{isLate ? <><Mark name="point" /> </> : ''}<span safe>{words}</span></td>
              </tr>
            ))}
          </Table>
        )}
      </section>
      <section class="block" aria-labelledby="moves">
        <h2 id="moves">Operations that move</h2>
        {work.length === 0 ? <p>None: there is room for it.</p> : (
          <Table columns={[{ name: 'Operation' }, { name: 'As planned' }, { name: 'Then' }]} caption="Operations that move">
            {work.map(({ what, href, build, was, is }) => (
              <tr>
                <th scope="row"><a class="link" href={at(href)} safe>{what}</a><br /><span class="quiet" safe>{build}</span></th>
                <WordCell is="as planned" text={was} /><WordCell is="then" text={is} />
              </tr>
            ))}
          </Table>
        )}
      </section>
    </>
  )
}
