import { at } from '../shared/asset.ts'
import { Paper } from '../shared/printSheet.tsx'
import type { TitleBlockFields } from '../shared/printSheet.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface AsBuiltLine {
  readonly number: string
  readonly name: string
  readonly zone: string
  /** The serial numbers now. */
  readonly serials: readonly string[]
  /** Those before, each with date and visit. */
  readonly before: readonly string[]
  /** Until when, and how that comes about. */
  readonly warranty: readonly string[]
}

export interface AsBuiltChange {
  readonly when: string
  readonly who: string
  readonly what: string
  readonly href: string
}

export interface AsBuiltData {
  readonly titleBlock: TitleBlockFields
  /** As delivered on …; last changed on … */
  readonly standing: string
  readonly lines: readonly AsBuiltLine[]
  readonly parts: readonly { readonly number: string, readonly name: string, readonly zone: string, readonly removable: string }[]
  readonly alterations: readonly { readonly number: string, readonly what: string, readonly zone: string, readonly consent: string, readonly way: string }[]
  readonly kept: readonly { readonly number: string, readonly name: string, readonly state: string, readonly condition: string, readonly where: string }[]
  readonly visits: readonly {
    readonly number: string, readonly href: string, readonly when: string, readonly complaint: string, readonly cause: string, readonly found: string, readonly paidBy: string
  }[]
  readonly changes: readonly AsBuiltChange[]
  readonly backHref: string
}

const MOST_CHANGES = 60

/** What the vehicle carries now, for whoever opens it next: on a page and on paper. */
export function AsBuiltPage({ viewer, data }: { viewer: Viewer, data: AsBuiltData }): JSX.Element {
  return (
    <Paper viewer={viewer} titleBlock={data.titleBlock} backHref={data.backHref}>
      <section><p><strong safe>{data.standing}</strong></p></section>
      <Equipment lines={data.lines} />
      <Made parts={data.parts} />
      <Alterations rows={data.alterations} />
      <Kept rows={data.kept} />
      <Visits rows={data.visits} />
      <Changes rows={data.changes} />
      <section>
        <p class="note">Warranty dates are counted from delivery by the months the catalog states, the last day included; the maker’s own terms decide. Work on airbags, belts, high voltage and fuel follows the vehicle maker’s manual and is for trained people.</p>
      </section>
    </Paper>
  )
}

const named = (...names: readonly string[]): { name: string }[] => names.map((name) => ({ name }))

function Equipment({ lines }: { lines: AsBuiltData['lines'] }): JSX.Element {
  return (
    <section>
      <h2>Equipment as fitted</h2>
      {lines.length === 0 ? <p>No equipment is recorded as fitted.</p> : (
        <Table columns={named('Number', 'What', 'Serial numbers', 'Warranty until')} caption="Equipment as fitted">
          {lines.map((line) => (
            <tr>
              <td class="no" safe>{line.number}</td>
              <th scope="row"><span safe>{line.name}</span> <span class="sub" safe>{line.zone}</span></th>
              <td data-is="serial numbers">
                {line.serials.length === 0 ? <span class="quiet">none recorded</span> : <span safe>{line.serials.join(', ')}</span>}
                {line.before.map((words) => <span class="sub">before: {escapeHtml(words)}</span>)}
              </td>
              <td data-is="warranty until">{line.warranty.map((words) => <span class="sub" safe>{words}</span>)}</td>
            </tr>
          ))}
        </Table>
      )}
    </section>
  )
}

function Made({ parts }: { parts: AsBuiltData['parts'] }): JSX.Element {
  if (parts.length === 0) return ''
  return (
    <section>
      <h2>Made parts fitted</h2>
      <Table columns={named('Number', 'Part', 'Zone', 'Comes off')} caption="Made parts fitted">
        {parts.map((part) => (
          <tr>
            <td class="no" safe>{part.number}</td><th scope="row" safe>{part.name}</th>
            <WordCell is="zone" text={part.zone} /><WordCell is="comes off" text={part.removable === '' ? 'not recorded' : part.removable} />
          </tr>
        ))}
      </Table>
    </section>
  )
}

function Alterations({ rows }: { rows: AsBuiltData['alterations'] }): JSX.Element {
  if (rows.length === 0) return ''
  return (
    <section>
      <h2>Alterations to the vehicle</h2>
      <Table columns={named('Number', 'What', 'Zone', 'Consent', 'Way back')} caption="Alterations to the vehicle">
        {rows.map((row) => (
          <tr>
            <td class="no" safe>{row.number}</td><th scope="row" safe>{row.what}</th>
            <WordCell is="zone" text={row.zone} /><WordCell is="consent" text={row.consent} /><WordCell is="way back" text={row.way} />
          </tr>
        ))}
      </Table>
    </section>
  )
}

function Kept({ rows }: { rows: AsBuiltData['kept'] }): JSX.Element {
  if (rows.length === 0) return ''
  return (
    <section>
      <h2>Factory parts that are out, and where</h2>
      <Table columns={named('Number', 'Part', 'State', 'Where', 'Condition')} caption="Factory parts that are out">
        {rows.map((row) => (
          <tr>
            <td class="no" safe>{row.number}</td><th scope="row" safe>{row.name}</th>
            <WordCell text={row.state} /><WordCell is="where" text={row.where === '' ? 'not recorded' : row.where} /><WordCell is="condition" text={row.condition} />
          </tr>
        ))}
      </Table>
    </section>
  )
}

function Visits({ rows }: { rows: AsBuiltData['visits'] }): JSX.Element {
  if (rows.length === 0) return ''
  return (
    <section>
      <h2>Service visits</h2>
      <Table columns={named('Number', 'Complaint', 'Came', 'Cause', 'Found and done', 'Paid by')} caption="Service visits">
        {rows.map((row) => (
          <tr>
            <td class="no"><a href={at(row.href)} safe>{row.number}</a></td><th scope="row" safe>{row.complaint}</th>
            <WordCell is="came" text={row.when} /><WordCell is="cause" text={row.cause} /><WordCell is="found" text={row.found} /><WordCell is="paid by" text={row.paidBy} />
          </tr>
        ))}
      </Table>
    </section>
  )
}

function Changes({ rows }: { rows: AsBuiltData['changes'] }): JSX.Element {
  if (rows.length === 0) return ''
  return (
    <section id="changes">
      <h2>Changed since delivery</h2>
      <Table columns={named('When', 'What', 'By')} caption="Changed since delivery">
        {rows.slice(0, MOST_CHANGES).map((row) => (
          <tr><td safe>{row.when}</td><th scope="row"><a href={at(row.href)} safe>{row.what}</a></th><WordCell is="by" text={row.who} /></tr>
        ))}
      </Table>
      {rows.length > MOST_CHANGES ? <p class="note">{rows.length - MOST_CHANGES} older changes stand in the histories of the records.</p> : ''}
    </section>
  )
}
