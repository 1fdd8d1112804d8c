import type { LabelsData } from '../../web/labels/labels.tsx'
import { LABEL_SHEETS, placesOn, sheetsOfLabels, type LabelSheet } from '../calc/labelSheets.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { CHOICES, toLabels, type Choice } from './labels.ts'
import { loadLabeled, type Labeled } from './store.ts'

export interface LabelsAsked {
  readonly what: Choice
  readonly number: number | null
  readonly sheet: LabelSheet
  /** The first free place on a partly used sheet, from 1. */
  readonly start: number
}

export async function labelsData(reads: Reads, buildId: string, { what, number, sheet, start }: LabelsAsked): Promise<LabelsData> {
  const build = await loadLabeled(reads, buildId)
  const labels = toLabels(build, what, number)
  const address = new URLSearchParams({ what, ...(number === null ? {} : { number: String(number) }), sheet: sheet.key, start: String(start) }).toString()
  return {
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href: `/builds/${buildId}` }, { name: 'Labels' }],
    action: `/builds/${buildId}/labels`, pdfHref: `/builds/${buildId}/labels/pdf?${address}`, what, choices: CHOICES, number: number === null ? '' : String(number), numbers: numbersOf(build),
    sheet: { key: sheet.key, name: sheet.name, isCut: sheet.isCut, places: placesOn(sheet), columns: sheet.columns }, start,
    sheets: LABEL_SHEETS.map(({ key, name }) => ({ value: key, label: name })),
    pages: sheetsOfLabels(labels.length, placesOn(sheet), start).map((places) => places.map((at) => (at === null ? null : labels[at] ?? null))),
    count: labels.length,
  }
}

function numbersOf({ factoryParts, bins }: Labeled): LabelsData['numbers'] {
  return [
    ...factoryParts.map(({ number, name }) => ({ value: label('F', number), label: name })), ...bins.map(({ number, place }) => ({ value: label('A', number), label: place })),
  ]
}
