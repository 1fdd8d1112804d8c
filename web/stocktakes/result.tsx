import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Post } from '../shared/post.tsx'
import { Saved } from '../shared/saved.tsx'
import { NumberCell, Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import { counted, escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import type { ResultData, ResultRow } from './take.tsx'

/** What a stock-take found: here, elsewhere, not found, not looked at, and what follows from each. */
export function ResultPage({ viewer, data }: { viewer: Viewer, data: ResultData }): JSX.Element {
  return (
    <Frame title={`Stock-take ${data.number}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      <Strip>
        <NumberCell label="Stock-take" number={String(data.number)} />
        <TitleCell label={data.when} title={data.isOpen ? 'What came of it so far' : 'What came of it'} />
        <TextCell label="Here" width="w2" text={String(data.here)} />
        <TextCell label="Elsewhere" width="w2" text={String(data.elsewhere.length)} />
        <TextCell label="Not found" width="w2" text={String(data.notFound.length)} />
        <TextCell label="Not looked at" width="w2" text={String(data.notLookedAt.length)} />
      </Strip>
      <section class="block">
        <h2>Seen elsewhere</h2>
        <Rows rows={data.elsewhere} none="Nothing lay in another place than the records say." />
        {data.move === null ? '' : (
          <div class="deed">
            <Post post={{ action: data.move.action, idempotencyKey: data.move.key, values: [['what', 'elsewhere']] }} csrfToken={viewer.csrfToken}>
              {escapeHtml(`Record ${counted(data.move.count, 'part', 'parts')} where ${data.move.count === 1 ? 'it was' : 'they were'} seen`)}
            </Post>
          </div>
        )}
      </section>
      <section class="block">
        <h2>Not found</h2>
        {data.miss === null ? <Rows rows={data.notFound} none="Everything that was looked for was there." /> : <Missing viewer={viewer} data={data} miss={data.miss} />}
      </section>
      <section class="block">
        <h2>Not looked at</h2>
        <Rows rows={data.notLookedAt} none="Everything was looked for." />
      </section>
      <div class="deed">
        {data.close === null ? '' : <Post post={{ action: data.close.action, idempotencyKey: data.close.key }} csrfToken={viewer.csrfToken} class="button first">Close the stock-take</Post>}
        <a class="link" href={at(data.backHref)}>{data.isOpen ? 'Go on counting' : 'All stock-takes'}</a>
        {data.close === null ? '' : <span class="quiet">Closed, it stays as it is. Moves can be recorded before or after.</span>}
      </div>
    </Frame>
  )
}

const COLUMNS = [{ name: 'No.' }, { name: 'Factory part' }, { name: 'Build' }, { name: 'Seen' }, { name: 'Recorded now' }] as const

function Rows({ rows, none }: { rows: readonly ResultRow[], none: string }): JSX.Element {
  if (rows.length === 0) return <p class="quiet" safe>{none}</p>
  return <Table columns={COLUMNS} caption="Factory parts">{rows.map((row) => <tr><Cells row={row} /></tr>)}</Table>
}

function Cells({ row }: { row: ResultRow }): JSX.Element {
  return (
    <>
      <td class="no"><a href={at(row.href)} safe>{row.label}</a></td>
      <th scope="row"><span safe>{row.name}</span>{row.more === '' ? '' : <span class="sub" safe>{row.more}</span>}</th>
      <WordCell text={row.build} quiet />
      <WordCell is="seen" text={row.seen} />
      <WordCell is="recorded now" text={row.recorded} />
    </>
  )
}

/** Nothing is missing only because nobody saw it: each is ticked by somebody who looked twice. */
function Missing({ viewer, data, miss }: { viewer: Viewer, data: ResultData, miss: NonNullable<ResultData['miss']> }): JSX.Element {
  return (
    <form method="post" action={at(miss.action)}>
      <input type="hidden" name="_csrf" value={viewer.csrfToken} />
      <input type="hidden" name="_key" value={miss.key} />
      <input type="hidden" name="what" value="missing" />
      <Table columns={[{ name: 'Missing', isUnseen: true }, ...COLUMNS]} caption="Parts not found" class="kept">
        {data.notFound.map((row) => (
          <tr>
            <td class="choose">{miss.ids.includes(row.id) ? <input type="checkbox" name="parts" value={row.id} aria-label={`${row.build} ${row.label} ${row.name} is missing`} /> : ''}</td>
            <Cells row={row} />
          </tr>
        ))}
      </Table>
      <div class="deed">
        <button class="button" type="submit">Those ticked are missing</button>
        <span class="quiet">Look once more first. The way back to stock then counts a new one.</span>
      </div>
    </form>
  )
}
