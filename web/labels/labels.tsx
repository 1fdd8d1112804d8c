import { asset, at } from '../shared/asset.ts'
import { ChoiceEntry, Fields, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

/** What stands on one label: numbers and words that tell nothing of whose vehicle it is. */
export interface Label {
  readonly kind: string
  readonly number: string
  readonly name: string
  readonly zone: string
  readonly build: string
  readonly vehicle: string
  /** Where its code leads. */
  readonly path: string
}

export interface LabelsData {
  readonly trail: readonly TrailStep[]
  readonly action: string
  readonly pdfHref: string
  readonly what: string
  readonly choices: readonly string[]
  readonly number: string
  readonly numbers: readonly { readonly value: string, readonly label: string }[]
  readonly sheet: { readonly key: string, readonly name: string, readonly isCut: boolean, readonly places: number, readonly columns: number }
  readonly sheets: readonly { readonly value: string, readonly label: string }[]
  readonly start: number
  /** Sheet by sheet, place by place; null where a place stays free. */
  readonly pages: readonly (readonly (Label | null)[])[]
  readonly count: number
}

/** Labels to print: what is chosen above, and the sheets as they come out of the printer below. */
export function LabelsPage({ viewer, data }: { viewer: Viewer, data: LabelsData }): JSX.Element {
  return (
    <Frame title="Labels" place="builds" viewer={viewer} kind="paper">
      <link rel="stylesheet" href={asset('labels.css')} />
      <div class="sheet label-choice">
        <Trail steps={data.trail} />
        <Strip>
          <TitleCell label="To print" title="Labels" />
          <TextCell label="Labels" text={String(data.count)} more={counted(data.pages.length, 'sheet', 'sheets')} />
          <TextCell label="First one at" text={`row ${Math.ceil(data.start / data.sheet.columns)}, column ${(data.start - 1) % data.sheet.columns + 1}`} />
        </Strip>
        <form class="block" method="get" action={at(data.action)}>
          <Fields>
            <ChoiceEntry name="what" label="What" value={data.what} options={data.choices.map((value) => ({ value, label: value }))} />
            <TextEntry name="number" label="Which one" note="Only for one part, one bag or one bin: F-021, A-003." value={data.number} list="labeled" />
            <datalist id="labeled">{data.numbers.map(({ value, label }) => <option value={value} safe>{label}</option>)}</datalist>
            <ChoiceEntry name="sheet" label="On" value={data.sheet.key} options={data.sheets} />
            <TextEntry name="start" label="First free place" note={`On a sheet that is partly used: counted row by row, from 1 to ${data.sheet.places}.`} value={String(data.start)} isNumber />
          </Fields>
          <div class="deed">
            <button class="button first" type="submit">Show</button>
            <button class="button" type="button" data-print hidden>Print</button>
            <a class="button" href={at(data.pdfHref)}>As PDF</a>
            <span class="quiet">Print at 100 %, without margins and without “fit to page”, or the labels miss their places.</span>
          </div>
        </form>
      </div>
      {data.count === 0 ? <p class="sheet block">There is nothing of this kind to label yet.</p> : data.pages.map((places) => <LabelPage sheet={data.sheet} places={places} />)}
    </Frame>
  )
}

function LabelPage({ sheet, places }: { sheet: LabelsData['sheet'], places: readonly (Label | null)[] }): JSX.Element {
  return (
    <div class={['label-sheet', `on-${sheet.key}`, sheet.isCut && 'to-cut']}>
      {places.map((label) => (label === null ? <div class="label-free"></div> : <OneLabel label={label} />))}
    </div>
  )
}

function OneLabel({ label }: { label: Label }): JSX.Element {
  return (
    <div class="stuck">
      <img src={at(`${label.path}/code.svg`)} alt={`Code of ${label.build} ${label.number}`} />
      <div>
        <p class="stuck-number" safe>{label.number}</p>
        <p class="stuck-name" safe>{label.name}</p>
        <p safe>{[label.kind, label.zone].filter((word) => word !== '').join(', ')}</p>
        <p safe>{`${label.build} ${label.vehicle}`}</p>
      </div>
    </div>
  )
}
