import { asset, at } from '../shared/asset.ts'
import { Cautions } from '../shared/caution.tsx'
import { Frame } from '../shared/frame.tsx'
import { State } from '../shared/marks.tsx'
import { Saved } from '../shared/saved.tsx'
import { Signature } from '../shared/signature.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'
import type { CheckData, PointGroup, PointRow } from './checkData.ts'
import { CheckSigning } from './signing.tsx'

/** What is looked at before a vehicle leaves: which points apply, what was found, what is open, and who signs for it. */
export function FinalCheckPage({ viewer, data }: { viewer: Viewer, data: CheckData }): JSX.Element {
  return (
    <Frame title={`Final check of ${data.number} ${data.title}`} place="builds" viewer={viewer}>
      {data.saved === null ? '' : <Saved what={data.saved.what} csrfToken={viewer.csrfToken} {...(data.saved.next === null ? {} : { next: data.saved.next })} />}
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Final check of" number={data.number} />
        <TitleCell label="Title" title={data.title} />
        <TextCell label="Vehicle" text={data.vehicle} />
        <Turn />
        <TextCell label="Points" text={data.settled} more={data.kind} />
        <TextCell label="Signed" text={data.signed === null ? 'not yet' : `${data.signed.name}, ${data.signed.when}`} />
        <Cell label="Also" width="w3"><div class="row">{data.links.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}</div></Cell>
      </Strip>
      <Cautions cautions={data.cautions} />
      {data.problems.length === 0 ? '' : <section class="mend" role="alert"><h2>Nothing was saved.</h2><ol>{data.problems.map(({ message }) => <li safe>{message}</li>)}</ol></section>}
      {data.groups.map((group) => <Group viewer={viewer} data={data} group={group} />)}
      <Arrivals data={data} />
      {data.signed === null ? '' : <section class="block"><h2>Signature</h2><Signature signed={data.signed} /></section>}
      {data.sign === null ? '' : <CheckSigning viewer={viewer} sign={data.sign} />}
      <section class="block"><p class="quiet">This tool records and checks; it sets nothing and measures nothing. The vehicle maker’s procedures, local code and licensed practice go first.</p></section>
      <script src={asset('intake.js')} defer></script>
    </Frame>
  )
}

const COLUMNS = [{ name: 'Right', isUnseen: true }, { name: 'Point' }, { name: 'State' }, { name: 'Found' }, { name: 'By' }] as const

function Group({ viewer, data, group }: { viewer: Viewer, data: CheckData, group: PointGroup }): JSX.Element {
  const canTick = data.answer !== null && group.rows.some(({ isTickable }) => isTickable)
  const table = <Table columns={COLUMNS} caption={group.name} class="checks">{group.rows.map((row) => <Row row={row} canTick={canTick} />)}</Table>
  return (
    <section class="block">
      <h2><span safe>{group.name}</span> <span class="quiet" safe>{group.open === 0 ? 'settled' : `${group.open} open`}</span></h2>
      {!canTick || data.answer === null ? table : (
        <form method="post" action={at(data.answer.action)}>
          <input type="hidden" name="_csrf" value={viewer.csrfToken} />
          <input type="hidden" name="_key" value={`${data.answer.key}${group.name.slice(0, 4).trim()}`} />
          {table}
          <div class="deed"><button class="button" type="submit">Save the ticks: looked at and right</button></div>
        </form>
      )}
    </section>
  )
}

function Row({ row, canTick }: { row: PointRow, canTick: boolean }): JSX.Element {
  return (
    <tr>
      <td class={['tickcell', !row.isTickable && 'none']}>{canTick && row.isTickable ? <label><input type="checkbox" name="right" value={row.key} /><span class="unseen" safe>{`${row.title} is right`}</span></label> : ''}</td>
      <th scope="row"><a href={at(row.href)} safe>{row.title}</a><span class="sub" safe>{row.why}</span></th>
      <td data-is="state">{row.isSettled ? <State name="done" words={row.words} /> : <State name={row.words === 'not right' ? 'rework' : 'not started'} words={row.words} />}</td>
      <WordCell is="found" text={[row.found, row.note].filter((word) => word !== '').join(' · ')} />
      <WordCell is="by" text={row.by} quiet />
    </tr>
  )
}

const ARRIVAL_COLUMNS = [{ name: 'Speaker' }, { name: 'Distance', isFigure: true }, { name: 'Arrives earlier by', isFigure: true }] as const

function Arrivals({ data: { arrivals } }: { data: CheckData }): JSX.Element {
  if (arrivals === null) return ''
  return (
    <section class="block" id="arrivals">
      <h2>Arrival at the listening seat</h2>
      <p class="note">To see whether what is set elsewhere can be right: the farthest has 0, the others come earlier by what the distances imply.</p>
      <form class="row" action={at(`${arrivals.action}#arrivals`)}>
        <label>Air in the cabin, °C <input class="count short" type="text" inputmode="decimal" name="celsius" value={arrivals.celsius} /></label>
        <button class="button" type="submit">Work out</button>
      </form>
      {arrivals.problem === '' ? '' : <p class="wrong" role="alert" safe>{arrivals.problem}</p>}
      {arrivals.rows.length === 0 ? '' : (
        <Table columns={ARRIVAL_COLUMNS} caption="Arrival at the listening seat">
          {arrivals.rows.map(({ name, distance, earlier, how }) => (
            <tr><th scope="row" safe>{name}</th><FigureCell is="distance" text={distance} how="recorded" /><FigureCell is="earlier by" text={earlier} how={how} on={`celsius=${encodeURIComponent(arrivals.celsius)}`} /></tr>
          ))}
        </Table>
      )}
    </section>
  )
}
