import { at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { Table } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

/** With what chance each build of the plan in force ends by when, and what that hangs on. */
export interface ChancesData {
  readonly on: string
  readonly problem: string
  readonly builds: readonly {
    /** Its place in the plan, by which its figures open. */
    readonly place: number
    readonly name: string
    readonly href: string
    readonly dates: readonly string[]
    /** Ended by the day asked for. */
    readonly chance: string
    readonly drivers: readonly { readonly what: string, readonly share: string, readonly href: string }[]
  }[]
}

export function ChancesPage({ viewer, data: { on, problem, builds } }: { viewer: Viewer, data: ChancesData }): JSX.Element {
  return (
    <Frame title="Chances" place="schedule" viewer={viewer}>
      <Trail steps={[{ name: 'Schedule', href: '/schedule' }, { name: 'Chances' }]} />
      <Strip><TitleCell label="Plan in force" title="Chances" /><TextCell label="Builds with chances" text={String(builds.length)} /></Strip>
      <section class="block" aria-labelledby="chances">
        <h2 id="chances">By when, with what chance</h2>
        <form class="find" method="get" action={at('/schedule/chances')}>
          <label for="on">Done by the evening of</label>
          <div class="entry"><input id="on" type="date" name="on" value={on} /></div>
          <button class="button first" type="submit">Say with what chance</button>
        </form>
        {problem === '' ? '' : <p role="alert" safe>{problem}</p>}
        {builds.length === 0 ? <p>There are none: no plan is in force, it was taken before its search had ended, or nobody is unsure of anything.</p> : (
          <Table columns={[{ name: 'Build' }, { name: 'Even chance' }, { name: '80 in 100' }, { name: '90 in 100' }, { name: 'By the day asked' }, { name: 'Hangs most on' }]} caption="When builds end with what chance, and what it hangs on" class="list-of">
            {builds.map(({ place: own, name, href, dates, chance, drivers }) => (
              <tr>
                <th scope="row"><a class="link" href={at(href)} safe>{name}</a></th>
                {(['even chance', '80 in 100', '90 in 100'] as const).map((is, place) => <td data-is={is}><RowFigure text={dates[place] ?? ''} how={`${'efg'[place]}${own}`} /></td>)}
                <td data-is="by the day asked">{chance === '' ? '' : <RowFigure text={chance} how={`e${own}`} />}</td>
                <td data-is="hangs most on">{drivers.length === 0 ? 'no single operation' : <ul class="plain">{drivers.map(({ what, share, href: to }, place) => <li><a class="link" href={at(to)} safe>{what}</a> <RowFigure text={share} how={`d${own}-${place}`} /></li>)}</ul>}</td>
              </tr>
            ))}
          </Table>
        )}
        <p class="quiet">From 400 cases in which unsure work takes longer or shorter, in the order of the plan; kept in steps of 5 in 100. What a build hangs on is told by how much of the variance of its end goes along with the hours of one operation: the square of their correlation. Sure work varies in truth as well, so real chances are wider.</p>
      </section>
    </Frame>
  )
}
