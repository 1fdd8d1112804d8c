import { at } from '../shared/asset.ts'
import { writeDay } from '../shared/day.ts'
import { PhotoList } from '../shared/photos.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import type { CodeShown, IntakeFact, MarkShown } from './intakeData.ts'

export function Facts({ facts }: { facts: readonly IntakeFact[] }): JSX.Element {
  return <dl class="facts">{facts.map(({ label, text }) => <div><dt safe>{label}</dt><dd class="prose" safe>{text === '' ? 'not recorded' : text}</dd></div>)}</dl>
}

const LATE = 'after signature'
const MARK_COLUMNS = [{ name: 'No.' }, { name: 'What' }, { name: 'Where' }, { name: 'Size' }, { name: 'Note' }] as const

/** The same as on the plan, in words. */
export function Marks({ marks, withPhotos = false }: { marks: readonly MarkShown[], withPhotos?: boolean }): JSX.Element {
  if (marks.length === 0) return <p class="quiet">None marked.</p>
  return (
    <Table columns={MARK_COLUMNS} caption="Condition marks">
      {marks.map((mark) => (
        <>
          <tr>
            <td class="no"><a href={at(mark.href)} safe>{mark.label}</a></td>
            <th scope="row"><span safe>{mark.kind}</span>{mark.isLate ? <span class="sub">{LATE}</span> : ''}</th>
            <WordCell text={mark.place} /><WordCell text={mark.size} /><WordCell text={mark.note} />
          </tr>
          {withPhotos && mark.photos.length > 0 ? <tr><td class="whole" colspan="5"><PhotoList photos={mark.photos} /></td></tr> : ''}
        </>
      ))}
    </Table>
  )
}

const CODE_COLUMNS = [{ name: 'Code' }, { name: 'In words' }, { name: 'Control unit' }, { name: 'Read' }, { name: 'Cleared' }] as const

export function Codes({ codes }: { codes: readonly CodeShown[] }): JSX.Element {
  if (codes.length === 0) return <p class="quiet">None recorded.</p>
  return (
    <Table columns={CODE_COLUMNS} caption="Fault codes">
      {codes.map(({ code, says, words, unit, readOn, clearedOn, isLate, href }) => (
        <tr>
          <td class="no"><a href={at(href)} safe>{code}</a></td>
          <th scope="row"><span safe>{words === '' ? says : words}</span>{words === '' || says === '' ? '' : <span class="sub" safe>{says}</span>}{isLate ? <span class="sub">{LATE}</span> : ''}</th>
          <WordCell text={unit} /><WordCell is="read" text={writeDay(readOn)} /><WordCell is="cleared" text={clearedOn === '' ? 'not cleared' : writeDay(clearedOn)} />
        </tr>
      ))}
    </Table>
  )
}
