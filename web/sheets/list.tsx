import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { NumberCell, Strip, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

export interface SheetListData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly restoreHref: string
  readonly sheets: readonly { readonly href: string, readonly number: string, readonly title: string, readonly frozen: string, readonly done: string, readonly state: string }[]
}

const COLUMNS = [{ name: 'Sheet' }, { name: 'What goes back' }, { name: 'Frozen' }, { name: 'Done', isFigure: true }, { name: 'State' }]

/** The frozen return-to-stock sheets of a build. */
export function SheetListPage({ viewer, data }: { viewer: Viewer, data: SheetListData }): JSX.Element {
  return (
    <Frame title={`${data.number} Sheets`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip><NumberCell label="Build" number={data.number} /><TitleCell label="Frozen" title="Return-to-stock sheets" /></Strip>
      <section class="block">
        {data.sheets.length === 0 ? <p>None yet. Choose what goes back to stock, look at it, and freeze it: from then on it is worked by, ticked and signed as it stands.</p> : (
          <Table columns={COLUMNS} caption="Frozen sheets">
            {data.sheets.map((sheet) => (
              <tr>
                <th scope="row"><a class="no" href={at(sheet.href)} safe>{sheet.number}</a></th>
                <WordCell is="what goes back" text={sheet.title} />
                <WordCell is="frozen" text={sheet.frozen} />
                <FigureCell is="done" text={sheet.done} how="recorded" />
                <WordCell is="state" text={sheet.state} />
              </tr>
            ))}
          </Table>
        )}
        <p><a class="button" href={at(data.restoreHref)}>Choose what goes back</a></p>
      </section>
    </Frame>
  )
}

export interface MarkListData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly marks: readonly { readonly step: string, readonly what: string, readonly words: string, readonly who: string, readonly when: string, readonly isLate: boolean }[]
  readonly isCut: boolean
}

/** Everything that was put down on a sheet, in the order in which it was. */
export function MarkListPage({ viewer, data }: { viewer: Viewer, data: MarkListData }): JSX.Element {
  return (
    <Frame title={`${data.number} Marks`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip><NumberCell label="Sheet" number={data.number} /><TitleCell label="In the order they were put down" title="All marks" /></Strip>
      <section class="block">
        {data.isCut ? <p class="quiet">The newest ones; the API lists all.</p> : ''}
        {data.marks.length === 0 ? <p class="quiet">None yet.</p> : (
          <Table columns={[{ name: 'Step' }, { name: 'What' }, { name: 'In words' }, { name: 'By' }, { name: 'When' }]} caption="Marks">
            {data.marks.map(({ step, what, words, who, when, isLate }) => (
              <tr><th scope="row" class="no" safe>{step}</th><WordCell is="what" text={what} /><WordCell is="in words" text={words} /><WordCell is="by" text={who} /><WordCell is="when" text={isLate ? `${when}, after the sheet was closed` : when} /></tr>
            ))}
          </Table>
        )}
      </section>
    </Frame>
  )
}
