import { z } from 'zod'
import { LARGEST_INTEGER } from '../../calc/amounts.ts'
import { isCalendarDate } from '../../calc/calendar.ts'
import { parseClock } from '../../calc/clock.ts'
import { formatMoney, parseMoney } from '../../calc/money.ts'
import { formatQuantity } from '../../calc/figures.ts'
import { parseQuantity } from '../../calc/quantities.ts'
import { defaultUnit, type QuantityKind } from '../../calc/units.ts'
import type { Role, Units } from '../../../web/shared/viewer.ts'
import { EVERYBODY, MANAGERS } from '../roles.ts'
import { canonical, listOf, LONGEST_LINE, LONGEST_TEXT, reading, textOf, type Checked, type Reading } from './reading.ts'

export type { Checked }

/** What the reading of a typed value depends on. */
export interface EntryContext {
  readonly units: Units
  readonly currency: string
}

export type EntryKind =
  | { readonly as: 'text' | 'long' | 'date' | 'check' | 'whole' | 'clock' }
  | { readonly as: 'quantity'; readonly measures: QuantityKind }
  | { readonly as: 'money' }
  | { readonly as: 'measured'; readonly by: string }
  | { readonly as: 'choice'; readonly choices: readonly string[]; readonly words?: Readonly<Record<string, string>> }
  | { readonly as: 'checks'; readonly choices: readonly string[]; readonly words?: Readonly<Record<string, string>> }
  | { readonly as: 'reference'; readonly kind: string; readonly orKinds?: readonly string[] }
  | { readonly as: 'references'; readonly kind: string; readonly link: Link }

/** The table that holds a many-to-many field. */
export interface Link {
  readonly model: 'personSkill'
  readonly own: string
  readonly other: string
}

export interface Field {
  readonly label: string
  readonly note: string
  readonly isRequired: boolean
  readonly isListed: boolean
  readonly isFixed: boolean
  readonly seenBy: readonly Role[]
  readonly changedBy: readonly Role[] | null
  readonly entry: EntryKind
  readonly heading: string
  /** What stands in the form of a new record. */
  readonly initial: unknown
  /** Text of a form or value of the API to a checked value. */
  input(context: EntryContext): z.ZodType<Checked>
  readonly output: z.ZodType
}

interface Options {
  readonly note?: string
  readonly isRequired?: boolean
  readonly isListed?: boolean
  /** Set when the record is created, never changed. */
  readonly isFixed?: boolean
  readonly seenBy?: readonly Role[]
  readonly changedBy?: readonly Role[]
  readonly initial?: unknown
  /** What the records that refer by it are headed on the other's page, where the plain name would not say. */
  readonly heading?: string
  /** Why a text that is not empty cannot be taken, in words, or null. */
  readonly refuse?: (text: string) => string | null
}

function field(label: string, options: Options, entry: EntryKind, output: z.ZodType, input: Field['input']): Field {
  return {
    label,
    note: options.note ?? '',
    isRequired: options.isRequired ?? false,
    isListed: options.isListed ?? false,
    isFixed: options.isFixed ?? false,
    seenBy: options.seenBy ?? EVERYBODY,
    changedBy: options.changedBy ?? null,
    entry,
    heading: options.heading ?? '',
    initial: options.initial ?? null,
    input,
    output,
  }
}

export function text(label: string, options: Options = {}): Field {
  return field(label, options, { as: 'text' }, z.string(), () =>
    reading(label, options.isRequired ?? false, '', (raw) => {
      const read = textOf(label, LONGEST_LINE)(raw)
      const refused = 'value' in read ? (options.refuse?.(String(read.value)) ?? null) : null
      return refused === null ? read : { message: refused }
    }))
}

export function longText(label: string, options: Options = {}): Field {
  return field(label, options, { as: 'long' }, z.string(), () =>
    reading(label, options.isRequired ?? false, '', textOf(label, LONGEST_TEXT)))
}

/** One of a list; people may read it in other words than it is stored in. */
export function choice(label: string, choices: readonly string[], { words, ...options }: Options & { readonly words?: Readonly<Record<string, string>> } = {}): Field {
  const mayBeEmpty = options.isRequired === false
  // Where something is chosen from the start, nobody has to be told that they must choose.
  return field(label, { isRequired: options.initial === undefined, ...options }, { as: 'choice', choices, ...(words ? { words } : {}) }, z.enum(mayBeEmpty ? ['', ...choices] : choices), () =>
    reading(label, options.isRequired ?? true, options.initial ?? '', (raw) =>
      choices.includes(String(raw)) ? { value: String(raw) } : { message: `${label} is one of: ${choices.join(', ')}.` }))
}

/** Several of a list, stored as comma-separated text; people may read them in other words. */
export function checks(label: string, choices: readonly string[], { words, ...options }: Options & { readonly words?: Readonly<Record<string, string>> } = {}): Field {
  return field(label, options, { as: 'checks', choices, ...(words ? { words } : {}) }, z.string(), () =>
    reading(label, options.isRequired ?? false, '', (raw) => {
      const chosen = listOf(raw)
      const strange = chosen.find((one) => !choices.includes(one))
      if (options.isRequired && chosen.length === 0) return { message: `${label} is needed: choose at least one.` }
      return strange === undefined ? { value: chosen.join(',') } : { message: `${label} does not know “${strange.slice(0, 40)}”.` }
    }))
}

export function check(label: string, options: Options = {}): Field {
  return field(label, { initial: false, ...options }, { as: 'check' }, z.boolean(), () =>
    reading(label, false, false, (raw) => {
      if (['yes', 'on', 'true', true].includes(raw as string | boolean)) return { value: true }
      if (['no', 'false', false].includes(raw as string | boolean)) return { value: false }
      return { message: `${label} is yes or no.` }
    }))
}

export function whole(label: string, least: number, largest: number, options: Options = {}): Field {
  const bounds = `${label} is a whole number from ${least.toLocaleString('en-US')} to ${largest.toLocaleString('en-US')}.`
  return field(label, options, { as: 'whole' }, z.int().nullable(), () =>
    reading(label, options.isRequired ?? false, options.initial ?? null, (raw) => {
      const number = typeof raw === 'number' ? raw : /^-?\d{1,12}$/.test(String(raw)) ? Number(raw) : NaN
      return Number.isInteger(number) && number >= least && number <= largest ? { value: number } : { message: bounds }
    }))
}

export function date(label: string, options: Options = {}): Field {
  return field(label, options, { as: 'date' }, z.string().nullable(), () =>
    reading(label, options.isRequired ?? false, null, (raw) =>
      isCalendarDate(String(raw)) ? { value: String(raw) } : { message: `${label} is a calendar date, written 2027-02-12.` }))
}

/** A time of day by the shop’s clock, stored as seconds after midnight; the API may send those. */
export function clock(label: string, options: Options = {}): Field {
  const isOptional = !(options.isRequired ?? false)
  return field(label, options, { as: 'clock' }, isOptional ? z.int().nullable() : z.int(), () =>
    reading(label, !isOptional, options.initial ?? null, (raw) => {
      const seconds = typeof raw === 'number' ? (Number.isInteger(raw) && raw >= 0 && raw <= 86_400 ? raw : null) : parseClock(String(raw).slice(0, LONGEST_LINE))
      return seconds === null ? { message: `${label} is a time of day, written 8:00 or 17:30.` } : { value: seconds }
    }))
}

interface QuantityOptions extends Options {
  readonly least?: number
  readonly largest?: number
}

/** A measured value: text with its unit, or the canonical integer where the API sends a number. */
export function quantity(label: string, measures: QuantityKind, options: QuantityOptions = {}): Field {
  const { least = 0, largest = LARGEST_INTEGER } = options
  const isOptional = !(options.isRequired ?? false)
  return field(label, options, { as: 'quantity', measures }, isOptional ? z.int().nullable() : z.int(), (context) =>
    reading(label, !isOptional, options.initial ?? null, (raw) => {
      const read = typeof raw === 'number' ? canonical(label, raw) : readQuantity(label, String(raw), measures, context)
      if ('message' in read) return read
      const value = Number(read.value)
      const limit = (bound: number): string => formatQuantity(bound, measures, context.units)
      if (value < least) return { message: `${label} is at least ${limit(least)}; this is ${limit(value)}.` }
      if (value > largest) return { message: `${label} is at most ${limit(largest)}; this is ${limit(value)}. Check the unit.` }
      return read
    }))
}

/**
 * A quantity whose dimension another field of the record names, as a pack of a material sold by area.
 * It arrives in the record's check as typed, or as the API's canonical integer: see toMeasured.
 */
export function measured(label: string, by: string, options: Options = {}): Field {
  return field(label, options, { as: 'measured', by }, z.int(), () =>
    reading(label, options.isRequired ?? false, null, (raw) => {
      if (typeof raw === 'number') return canonical(label, raw)
      const read = textOf(label, LONGEST_LINE)(raw)
      return 'value' in read ? { value: read.value, entered: String(read.value) } : read
    }))
}

function readQuantity(label: string, raw: string, measures: QuantityKind, context: EntryContext): Reading {
  if (raw.length > LONGEST_LINE) return { message: `${label} is too long to be a measured value.` }
  const read = parseQuantity(raw, measures, defaultUnit(measures, context.units))
  return read.ok ? { value: read.value, entered: read.entered } : { message: `${label}: ${read.message}` }
}

/** Working time, entered as 2.5 h, 2:30 or 45 min; a bare number is hours. */
export const time = (label: string, options: QuantityOptions = {}): Field =>
  quantity(label, 'time', { largest: 2_000 * 3600, initial: 0, ...options })

/** Money of the shop's currency, 0 or more unless a lower least is named; seen by managers alone unless said otherwise. */
export function money(label: string, options: QuantityOptions = {}): Field {
  const isOptional = !(options.isRequired ?? false)
  const { least = 0, largest = 1_000_000_000 } = options
  return field(label, { seenBy: MANAGERS, ...options }, { as: 'money' }, isOptional ? z.int().nullable() : z.int(), (context) =>
    reading(label, !isOptional, options.initial ?? null, (raw) => {
      const read = typeof raw === 'number' ? canonical(label, raw) : readMoney(label, String(raw), context, least)
      if ('message' in read) return read
      const value = Number(read.value)
      return value >= least && value <= largest
        ? read
        : { message: `${label} is from ${least === 0 ? '0' : formatMoney(least, context.currency)} to ${formatMoney(largest, context.currency)}.` }
    }))
}

function readMoney(label: string, raw: string, context: EntryContext, least: number): Reading {
  const read = parseMoney(raw.slice(0, LONGEST_LINE), context.currency, least < 0 ? 'allowed' : 'refused')
  return read.ok ? { value: read.minor } : { message: `${label}: ${read.message}` }
}

const ID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i
export const isId = (raw: unknown): raw is string => typeof raw === 'string' && ID.test(raw)

/** Another record; that it is there, and of the same build, is checked in the write. */
export function reference(label: string, kind: string, options: Options = {}): Field {
  const isOptional = !(options.isRequired ?? false)
  return field(label, options, { as: 'reference', kind }, isOptional ? z.string().nullable() : z.string(), () =>
    reading(label, !isOptional, null, (raw) =>
      isId(raw) ? { value: raw } : { message: `${label} is chosen from the list; this is no ${kind}.` }))
}

/** Any of several kinds of record, as what stands in front of a factory part. */
export function referenceToAny(label: string, [first, ...others]: readonly [string, ...string[]], options: Options = {}): Field {
  const plain = reference(label, first, options)
  return { ...plain, entry: { as: 'reference', kind: first, orKinds: others } }
}

export function references(label: string, kind: string, link: Link, options: Options = {}): Field {
  return field(label, { initial: [], ...options }, { as: 'references', kind, link }, z.array(z.string()), () =>
    reading(label, false, [], (raw) => {
      const ids = listOf(raw)
      return ids.every(isId) ? { value: ids } : { message: `${label} are chosen from the list.` }
    }))
}
