import { findUnit, type QuantityKind } from '../calc/units.ts'
import type { Field } from '../shared/records/field.ts'
import { measuredKind } from '../shared/records/measured.ts'

/** One form of what stands over columns: small letters, no signs, single spaces. */
export const fold = (text: string): string => text.toLowerCase().normalize('NFKC').replace(/[^\p{L}\p{N}#]+/gu, ' ').trim()

const NUMBER_WORDS = ['number', 'no', 'nr', '#', 'our number']

// What lists from elsewhere call the same things; common practice, no source.
const ALSO_CALLED: Readonly<Record<string, readonly string[]>> = {
  maker: ['brand', 'manufacturer', 'make'],
  model: ['article', 'type'],
  cost: ['purchase price', 'buying price', 'unit cost'],
  price: ['selling price', 'retail', 'retail price', 'list price', 'sell'],
  packCost: ['cost', 'purchase price', 'buying price'],
  packPrice: ['price', 'selling price', 'retail price'],
  packName: ['pack', 'packaging', 'unit of purchase'],
  packSize: ['pack size', 'size of pack', 'content'],
  form: ['form', 'measured by'],
  leadDays: ['lead time', 'lead days'],
  mass: ['weight'],
  mountingDepth: ['depth'],
  resistance: ['impedance', 'ohm', 'load'],
  warrantyMonths: ['warranty'],
  note: ['notes', 'remark', 'remarks', 'comment'],
  supplier: ['vendor', 'bought from'],
  signInName: ['login', 'user', 'user name'],
  quantity: ['qty', 'pieces', 'how many'],
  name: ['item', 'description', 'part'],
  partNumber: ['oem number', 'maker s number'],
}

/** What a heading says of its column. */
export interface Heading {
  /** A field's name, 'number', or null where nobody knows it. */
  readonly field: string | null
  /** What stands in parentheses after it, as "kg" of "Mass (kg)". */
  readonly unit: string
}

export function readHeading(heading: string, fields: Readonly<Record<string, Field>>, hasNumber: boolean): Heading {
  const tail = /[([]\s*([^()[\]]+?)\s*[)\]]\s*$/.exec(heading)
  const unit = tail?.[1] ?? ''
  const field = named(heading, fields, hasNumber) ?? (tail ? named(heading.slice(0, tail.index), fields, hasNumber) : null)
  return { field, unit }
}

function named(heading: string, fields: Readonly<Record<string, Field>>, hasNumber: boolean): string | null {
  const words = fold(heading)
  const names = Object.keys(fields)
  const exact = names.find((name) => fold(fields[name]?.label ?? '') === words || fold(name) === words || fold(apart(name)) === words)
  if (exact) return exact
  if (hasNumber && NUMBER_WORDS.includes(words)) return 'number'
  return names.find((name) => ALSO_CALLED[name]?.includes(words)) ?? null
}

const apart = (name: string): string => name.replace(/[A-Z]/g, (letter) => ` ${letter}`)

/** What a column of measured values is measured in by its heading; '' where it says nothing of use. */
export function unitOfHeading(field: Field | undefined, unit: string, form: unknown): string {
  const measures = measuresOf(field, form)
  return measures && findUnit(measures, unit) ? unit : ''
}

function measuresOf(field: Field | undefined, form: unknown): QuantityKind | null {
  if (field?.entry.as === 'quantity') return field.entry.measures
  return field?.entry.as === 'measured' ? measuredKind(form) : null
}
