import { at } from '../shared/asset.ts'
import { Mark } from '../shared/marks.tsx'
import { Post } from '../shared/post.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import type { ProposalData, StandingData } from './scheduleData.ts'

/** How the plan stands: in force, out of date, proposed, impossible, too much; and what can be done. */
export function Standing({ viewer, data }: { viewer: Viewer, data: StandingData }): JSX.Element {
  const { inForce, proposals, failure, noPlan, isNothingToPlan, overloaded } = data
  const isOld = inForce !== null && inForce.changed.length > 0
  return (
    <section class="block" aria-labelledby="standing">
      <h2 id="standing">State of the plan</h2>
      {inForce === null ? <p>There is no plan in force yet. A plan is made from the open operations, who has which skill, the bays, and what is promised. It is proposed first, and in force once a manager takes it; it changes nothing that is recorded.</p> : <InForce data={inForce} />}
      {isNothingToPlan ? <p>There is nothing to plan: no open operation is recorded on any build in the shop. Enter on a <a class="link" href={at('/builds')}>build</a> what goes in, is made and comes out, with its operations and hours. While a quote is out, its build is not planned.</p> : ''}
      <Reasons head="No plan can be made as things are." list={noPlan} />
      <Reasons head="There is more to do than there are hours." list={overloaded} />
      {failure === '' ? '' : <p><Mark name="point" /> <strong safe>{failure}</strong></p>}
      {proposals.length === 0 ? '' : <Proposals list={proposals} />}
      <div class="row on-screen">
        {data.change === null ? '' : <Post post={data.change} csrfToken={viewer.csrfToken} class={isOld && proposals.length === 0 ? 'button first' : 'button'}>Plan with the least change</Post>}
        {data.anew === null ? '' : <Post post={data.anew} csrfToken={viewer.csrfToken} class={inForce === null && proposals.length === 0 ? 'button first' : 'button'}>{inForce === null ? 'Plan the shop' : 'Plan everything anew'}</Post>}
        {data.stop === null ? '' : <Post post={data.stop} csrfToken={viewer.csrfToken}>Stop looking</Post>}
        {data.stop === null ? '' : <a class="button" href={at('/schedule')}>Look again</a>}
        {inForce === null ? '' : <a class="button" href={at('/schedule/chances')}>Chances</a>}
      </div>
      {data.change === null ? '' : <p class="quiet on-screen">The least change keeps people, days, order and bays wherever it can, and moves work only where a promise gains by it. Everything anew looks for the least delay, whatever moves.</p>}
    </section>
  )
}

function InForce({ data: { at: taken, by, reason, late, changed, goneOn, overrun } }: { data: NonNullable<StandingData['inForce']> }): JSX.Element {
  return (
    <>
      <p safe>{`In force since ${taken}, taken by ${by}${reason === '' ? '' : `: ${reason}`}. ${late}`}</p>
      {changed.length > 0 ? (
        <>
          <p><Mark name="point" /> <strong>It is out of date: these have changed since it was made.</strong></p>
          <ul>{changed.map((what) => <li safe>{what}</li>)}</ul>
        </>
      ) : <p safe>{`Nothing it was made from has changed.${goneOn.length === 0 ? '' : ` Work has gone on in ${goneOn.join(', ')}: plan again where it took longer than planned.`}`}</p>}
      {overrun.length === 0 ? '' : <><p><Mark name="point" /> <strong>More hours are left than it has:</strong></p><ul>{overrun.map((what) => <li safe>{what}</li>)}</ul></>}
    </>
  )
}

function Reasons({ head, list }: { head: string, list: readonly string[] }): JSX.Element {
  if (list.length === 0) return ''
  return <><p><Mark name="point" /> <strong safe>{head}</strong></p><ul>{list.map((why) => <li safe>{why}</li>)}</ul></>
}

function Proposals({ list }: { list: readonly ProposalData[] }): JSX.Element {
  return (
    <>
      <h3 class="heading">Proposed, not in force</h3>
      <Table columns={[{ name: 'Proposal' }, { name: 'Late builds' }, { name: 'Days late' }, { name: 'Moved' }, { name: 'Today changes for' }, { name: 'Search' }]} caption="What is proposed, and what it gives">
        {list.map(({ name, href, late, daysLate, moved, today, tries, proof, isSearching, spoiled }) => (
          <tr>
            <th scope="row"><a class="link" href={at(href)} safe>{name}</a>{spoiled.length === 0 ? '' : <><br /><Mark name="point" /> <span safe>{`no longer holds, plan again: ${spoiled.join('; ')}`}</span></>}</th>
            <WordCell is="late builds" text={late} />
            <WordCell is="days late" text={daysLate} />
            <WordCell is="moved" text={moved} />
            <WordCell is="today changes for" text={today} />
            <td data-is="search">{escapeHtml(proof)} {isSearching ? 'Still looking' : 'Looked through'}: {escapeHtml(tries)}.</td>
          </tr>
        ))}
      </Table>
    </>
  )
}
