import { formatClock } from '../calc/clock.ts'
import { figureIn, formatIn, formatQuantity } from '../calc/figures.ts'
import { formatMoneyFigure } from '../calc/money.ts'
import { parseQuantity } from '../calc/quantities.ts'
import { defaultUnit, findUnit, UNITS, type QuantityKind } from '../calc/units.ts'
import { guarded, unguarded } from '../shared/csv/guard.ts'
import type { Row } from '../shared/database/delegate.ts'
import type { Field } from '../shared/records/field.ts'
import { measuredKind } from '../shared/records/measured.ts'
import { enteredOf } from '../shared/records/table.ts'
import { fold } from './headings.ts'
import type { Names } from './names.ts'

/** What a field reads from a cell, or why it cannot. */
export type CellValue = { readonly value: string | readonly string[] } | { readonly message: string }

const FAULT_OF_SHEET = /^#(?:REF!|N\/A|NAME\?|VALUE!|DIV\/0!|NUM!|NULL!|SPILL!)$/i
const BARE_NUMERAL = /^[\d.,/\s¼-¾⅐-⅞-]+$/
const YES = ['yes', 'y', 'true', '1', 'x', 'on']
const NO = ['no', 'n', 'false', '0', 'off']

/** A cell as its field reads it in a form. */
export function readCell(cell: string, field: Field, unit: string, names: Names | undefined, form: string): CellValue {
  const text = unguarded(withoutQuotedFormula(cell.trim()))
  if (FAULT_OF_SHEET.test(text)) return { message: `${field.label}: “${text}” is a fault of the spreadsheet. Correct the cell there, or clear it.` }
  if (text.startsWith('=') && !cell.trim().startsWith("'")) {
    return { message: `${field.label}: “${text.slice(0, 30)}” is a formula. Paste its value instead, or put an apostrophe before it where it is meant as text.` }
  }
  return valueOf(text, field, unit, names, form)
}

function valueOf(text: string, field: Field, unit: string, names: Names | undefined, form: string): CellValue {
  const { entry } = field
  if (text === '') return { value: '' }
  if (entry.as === 'long') return { value: text }
  const line = text.replace(/[\u00a0\u2007\u202f]/g, ' ')
  if (entry.as === 'check') return { value: YES.includes(line.toLowerCase()) ? 'yes' : NO.includes(line.toLowerCase()) ? 'no' : line }
  if (entry.as === 'choice') return { value: chosen(line, entry.choices) }
  if (entry.as === 'checks') return { value: line.split(/[,;]/).map((one) => chosen(one.trim(), entry.choices)) }
  if (entry.as === 'quantity') return { value: withUnit(line, unit, entry.measures) }
  if (entry.as === 'measured') return { value: withUnit(line, unit, measuredKind(form)) }
  if (entry.as === 'reference') return named(names?.find(line))
  if (entry.as === 'references') return named(names?.findAll(line))
  return { value: line }
}

// ="0042" is how some sheets keep a leading zero.
const withoutQuotedFormula = (cell: string): string => /^="([^"]*)"$/.exec(cell)?.[1] ?? cell

const chosen = (text: string, choices: readonly string[]): string => choices.find((one) => fold(one) === fold(text)) ?? text

const withUnit = (text: string, unit: string, measures: QuantityKind): string =>
  unit !== '' && BARE_NUMERAL.test(text) && findUnit(measures, unit) ? `${text} ${unit}` : text

function named(found: ReturnType<Names['find']> | ReturnType<Names['findAll']> | undefined): CellValue {
  if (found === undefined) return { message: 'This cannot be looked up.' }
  if ('message' in found) return found
  return { value: 'id' in found ? found.id : found.ids }
}

/** A stored value as a cell: numbers bare, measures as they were typed, texts guarded; always read back as the same value. */
export function toCell(name: string, field: Field, row: Row, currency: string, names: Names | undefined): string {
  const value = row[name]
  const { entry } = field
  if (entry.as === 'check') return value === true ? 'yes' : 'no'
  if (entry.as === 'references') return guarded((Array.isArray(value) ? value.map((id) => names?.nameOf(String(id)) ?? '') : []).sort().join('; '))
  if (value === null || value === undefined || value === '') return ''
  if (entry.as === 'quantity') return enteredOf(row)[name] ?? exactText(Number(value), entry.measures)
  if (entry.as === 'measured') return enteredOf(row)[name] ?? exactText(Number(value), measuredKind(row[entry.by]))
  if (entry.as === 'money') return formatMoneyFigure(Number(value), currency).replaceAll(',', '')
  if (entry.as === 'reference') return guarded(names?.nameOf(String(value)) ?? '')
  if (entry.as === 'clock') return formatClock(Number(value))
  if (entry.as === 'checks') return String(value).split(',').join(', ')
  return entry.as === 'text' || entry.as === 'long' ? guarded(String(value)) : String(value)
}

/** A quantity in the usual unit where that loses nothing, else in the smallest. */
function exactText(value: number, measures: QuantityKind): string {
  const usual = formatQuantity(value, measures, 'metric')
  const read = parseQuantity(usual, measures, defaultUnit(measures, 'metric'))
  if (read.ok && read.value === value) return usual
  const smallest = UNITS[measures][0]?.symbol ?? ''
  return measures === 'count' ? figureIn(value, measures, smallest) : formatIn(value, measures, smallest)
}
