import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { Mark } from '../shared/marks.tsx'
import { FigureCell, Table } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { PartTimeEntry } from './partData.ts'

const COLUMNS = [{ name: 'When' }, { name: 'Who' }, { name: 'Op' }, { name: 'Kind' }, { name: 'Hours', isFigure: true }, { name: 'Note' }] as const

/** Hours as they were written, newest first; a correction says what stood there. */
export function HoursLogged({ entries, logHref }: { entries: readonly PartTimeEntry[], logHref: string | undefined }): JSX.Element {
  return (
    <section class="block">
      <h2>Hours logged</h2>
      {entries.length === 0 ? <p>None yet.</p> : (
        <Table columns={COLUMNS} caption="Hours logged on this part">{entries.map((entry) => <Row entry={entry} />)}</Table>
      )}
      {logHref === undefined ? '' : <p><a href={at(logHref)}>Log hours</a></p>}
    </section>
  )
}

function Row({ entry: { when, who, operation, kind, seconds, why, correction, correctHref } }: { entry: PartTimeEntry }): JSX.Element {
  return (
    <tr>
      <td safe>{when}</td>
      <td safe>{who}</td>
      <td class="no" data-is="op">{operation}</td>
      <td class="keep">{kind === 'work' ? '' : <Mark name={kind === 'rework' ? 'rework' : 'waiting'} />} {kind}</td>
      <FigureCell is="hours" text={writeHours(seconds, 2)} byHand how="recorded" />
      <td class="whole">
        <span safe>{why}</span>
        {correction === '' ? '' : <span class="quiet"> {escapeHtml(correction)}</span>}
        {correctHref === undefined ? '' : <> <a href={at(correctHref)} aria-label={`Correct the ${kind} of ${who}, ${when}`}>Correct</a></>}
      </td>
    </tr>
  )
}
