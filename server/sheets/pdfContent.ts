import type { ReturnToStockData } from '../../web/restoration/returnToStock.tsx'
import { notesOf } from '../../web/restoration/returnToStock.tsx'
import { writeAmount, type Reader } from '../../web/shared/amount.ts'
import { noteOf } from '../../web/shared/figure.tsx'
import { capital, counted } from '../../web/shared/text.ts'
import { innerWidth, type PaperSize } from '../shared/pdf/makeSheet.ts'
import { caution, columnHead, heading, note, signatureLines, tickBox, titledTable, together } from '../shared/pdf/pieces.ts'
import type { Cell, Piece } from '../shared/pdf/library.ts'
import type { FrozenPicture } from './content.ts'
import { stepTables, testTable } from './pdfSteps.ts'

type Data = Omit<ReturnToStockData, 'backHref'>
export type Pictures = ReadonlyMap<string, readonly FrozenPicture[]>

/** Everything below the title block, in the order in which it is read: cautions before all work. */
export function contentOf(data: Data, reader: Reader, paper: PaperSize, pictures: Pictures): Piece[] {
  const { checklist } = data
  const works = checklist.steps.filter(({ phase }) => phase !== 'function test' && phase !== 'signature')
  const cautions = checklist.cautions.map(({ number, signalWord, title, text }) => caution({ number, signal: signalWord, title, text }, innerWidth(paper)))
  const tests = checklist.steps.filter(({ phase }) => phase === 'function test')
  return [
    heading('Verdict'), ...verdictOf(data, reader),
    together(heading('Cautions, before anything else'), ...cautions.slice(0, 1)), ...cautions.slice(1),
    ...(data.factoryOptions === '' ? [] : [note(`In this vehicle: ${data.factoryOptions}`)]),
    note('The vehicle maker’s manual, local code and licensed practice come before this sheet.'),
    ...partsToBuy(data, reader), ...whereabouts(data),
    ...(data.outOfUse === undefined || data.outOfUse.length === 0 ? [] : [together(heading('What does not work meanwhile'), { ul: data.outOfUse })]),
    ...(data.openPoints.length === 0 ? [] : [heading('Not settled when this sheet was made'), { ul: data.openPoints }]),
    { ...heading('Steps, in this order'), pageBreak: 'before' },
    note('Tick the box and put your initials beside it when a step is done. A deviation is written beside the step.'),
    ...stepTables(works, pictures),
    note('“Maker’s manual” means that nobody noted the torque: look it up, never guess. Where the maker’s manual differs from this sheet, the manual holds. Single-use fasteners are never used again. C1, C2 … name the caution that holds for a step.'),
    ...testTable(tests),
    together(heading('Done and tested'), signatureLines([['Work done by', 'Date', 'Tested by', 'Date'], ['Received by the owner', 'Date, odometer', 'Parts missing or damaged']])),
    heading('Notes'),
    ...notesOf(data).map((one, index): Piece => note(`${index + 1}  ${typeof one === 'string' ? one : noteOf(one, reader)}`)),
  ]
}

function verdictOf({ verdict, scope, standing, showsMoney }: Data, reader: Reader): Piece[] {
  const { cost, leadDays, kind, reasons, needs } = verdict
  const price = showsMoney ? `, ${writeAmount(verdict.costWorking.result, reader)} with parts for ${writeAmount({ kind: 'money', value: cost.partsMinor }, reader)} (note 2)${cost.unpricedCount > 0 ? `, ${counted(cost.unpricedCount, 'part has', 'parts have')} no known price` : ''}` : ''
  return [
    { text: [{ text: `${capital(kind)}${reasons.length === 0 ? '.' : ':'} `, bold: true }, reasons.join(' ')] },
    ...(needs.length === 0 ? [] : [{ text: `Needed beside that: ${needs.join(' ')}` }]),
    { text: `For ${scope}: ${writeAmount(verdict.hoursWorking.result, reader)} of work (note 1)${price}, longest wait ${counted(leadDays, 'day', 'days')} (note ${showsMoney ? 3 : 2}).` },
    note(standing),
  ]
}

const WHY = { 'replacement': 'replaces the old one', 'repair': 'for a repair', 'single-use': 'single-use', 'breaks': 'some break' } as const

function partsToBuy({ verdict: { partsToBuy: lines }, showsMoney }: Data, reader: Reader): Piece[] {
  const priceOf = ({ priceMinor, count }: Data['verdict']['partsToBuy'][number]): string =>
    (priceMinor === null ? 'not known' : writeAmount({ kind: 'money', value: priceMinor * count }, reader))
  const rows = lines.map((line): Cell[] => [
    tickBox(), { text: line.name, bold: true }, line.forNumbers.join(', '), WHY[line.reason], { text: String(line.count), alignment: 'right' },
    ...(showsMoney ? [{ text: priceOf(line), alignment: 'right' } as const] : []), line.leadDays === 0 ? 'none' : counted(line.leadDays, 'day', 'days'),
  ])
  const noted = showsMoney ? 4 : 3
  const head = ['Have it', 'Part', 'For', 'Why', `Quantity (note ${noted})`, ...(showsMoney ? [`Price (note ${noted + 1})`] : []), 'Wait']
  const name = 'Parts to buy before you begin'
  return [
    ...(rows.length === 0 ? [together(heading(name), 'None.')] : [...titledTable(name, { widths: [30, '*', 110, 70, 46, ...(showsMoney ? [64] : []), 40], head: head.map(columnHead), rows })]),
  ]
}

function whereabouts({ whereabouts: { places, tools, zones } }: Data): Piece[] {
  const lines: [string, string][] = [
    ['Tools', tools.length === 0 ? 'none noted' : tools.join('; ')],
    ['Zones', zones.map(({ number, name }) => `${number} ${name}`).join('; ')],
    ...(places.length === 0 ? [['Factory parts', 'all in the vehicle'] as [string, string]] : places.map(({ place, holds }): [string, string] => [place, holds])),
  ]
  return titledTable('Where things are, and what you need', { widths: [150, '*'], head: ['What or where', ''].map(columnHead), rows: lines.map(([name, text]) => [{ text: name, bold: true }, text]) })
}
