import type { ChecklistStep } from '../calc/restoration/checklist.ts'
import type { SheetFastener } from '../calc/removal/fastenerText.ts'
import { columnHead, table, tickBox, titledTable } from '../shared/pdf/pieces.ts'
import type { Cell, Piece } from '../shared/pdf/library.ts'
import { groupsOf } from './progress.ts'
import type { Pictures } from './pdfContent.ts'
import { torqueWords } from './shownStep.ts'

const BOX = 26
const NUMBER = 20
const INITIALS = 38
const PICTURE_SIDE = 80

/** Steps under a head for each phase and zone; on every page their head comes again. */
export function stepTables(steps: readonly ChecklistStep[], pictures: Pictures): Piece[] {
  return groupsOf({ steps }).map(({ name, steps: own }) => table({
    isWritten: true, widths: [BOX, NUMBER, '*', 164, 76, INITIALS],
    head: [columnHead('Done'), columnHead('No.'), { text: name, bold: true, fontSize: 10, outline: true } as Cell, columnHead('Fasteners, torque in N·m and lbf·ft'), columnHead('Where it is'), columnHead('Initials')],
    rows: own.map((step) => rowOf(step, pictures)),
  }))
}

export function testTable(steps: readonly ChecklistStep[]): Piece[] {
  return titledTable('Function tests', {
    isWritten: true, widths: [BOX, NUMBER, '*', INITIALS], head: ['Done', 'No.', 'What to try', 'Initials'].map(columnHead),
    rows: steps.map(({ number, text }) => [tickBox(), String(number), text, '']),
  })
}

function rowOf(step: ChecklistStep, pictures: Pictures): Cell[] {
  const { number, fasteners, place } = step
  const shown = pictures.get(step.thingId ?? '') ?? []
  const words = wordsOf(step, shown)
  // What needs no fastener and has no place may use their room.
  const middle: Cell[] = fasteners.length > 0 ? [words, { stack: fasteners.map(fastenerOf) }, place] : place === '' ? [{ ...words, colSpan: 3 }, {}, {}] : [{ ...words, colSpan: 2 }, {}, place]
  return [tickBox(), { text: String(number), bold: true }, ...middle, '']
}

function wordsOf({ text, notes, cautionNumbers }: ChecklistStep, shown: readonly { readonly hash: string }[]): { readonly stack: readonly Piece[] } {
  const cited = cautionNumbers.length === 0 ? '' : `  [${cautionNumbers.join(', ')}]`
  return {
    stack: [
      { text: [text, { text: cited, fontSize: 8, bold: true }] },
      ...notes.map((one): Piece => ({ text: one, fontSize: 8.5 })),
      ...(shown.length === 0 ? [] : [{ columns: shown.map(({ hash }): Piece => ({ image: hash, fit: [PICTURE_SIDE, PICTURE_SIDE], width: 'auto' })), columnGap: 4, margin: [0, 3, 0, 0] } as const]),
    ],
  }
}

const unbroken = (torque: string): string => torque.replaceAll(/(\d) (?=N·m|lbf)/g, '$1\u00A0')

// What has to be looked up stands out like what is known.
const isTightened = ({ torque }: SheetFastener): boolean => typeof torque !== 'string' || torque === 'maker\'s manual'

function fastenerOf(fastener: SheetFastener): Piece {
  const source = typeof fastener.torque === 'string' ? '' : fastener.torque.source
  return {
    stack: [
      { text: [`${fastener.text}  `, { text: unbroken(torqueWords(fastener)), bold: isTightened(fastener) }] },
      ...(source === '' ? [] : [{ text: source, fontSize: 8 }]),
    ],
    margin: [0, 0, 0, 2],
  }
}
