import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { FieldProblems, invalid } from '../shared/problems.ts'
import { check, choice, date, longText, money, reference, text, whole, type Field } from '../shared/records/field.ts'
import { getKind, type Values } from '../shared/records/kind.ts'
import type { Body } from '../shared/records/submission.ts'

/** As many lines as a counter job has; what is larger is a build. */
export const LINES = [1, 2, 3] as const

const ON_RECORD = { vehicleId: reference('Vehicle', 'vehicle'), customerId: reference('Customer', 'customer') }
const LINE = {
  fittingId: reference('Fitting', 'standard fitting'),
  quantity: whole('Quantity', 1, 100, { initial: 1 }),
  equipment: text('What is fitted'),
  price: money('Price each'),
  suppliedBy: choice('Supplied by', ['shop', 'customer'], { initial: 'shop' }),
}
const JOB = { bayId: reference('Bay', 'bay'), promisedOn: date('Promised'), note: longText('Note') }
const MEANT = { isMeant: check('Enter it as typed') }

// The form calls some entries otherwise than the records they go into, as a customer's name.
const OF_CUSTOMER = { name: 'customerName', phone: 'phone' }
const OF_VEHICLE = { make: 'make', model: 'model', body: 'body', energy: 'energy' }

export interface TypedLine {
  /** Which of the form's lines, for what is wrong in it. */
  readonly at: number
  readonly fittingId: string
  readonly quantity: number
  /** Number of a catalog item, maker and model, or own words; empty for what is usually fitted. */
  readonly equipment: string
  /** In minor units; null: that of the catalog. */
  readonly price: number | null
  readonly suppliedBy: 'shop' | 'customer'
}

/** A counter job as typed: on record by id, or new with what its own form would take. */
export interface TypedJob {
  readonly vehicleId: string | null
  readonly customerId: string | null
  readonly customer: Values | null
  readonly vehicle: Values | null
  readonly lines: readonly TypedLine[]
  readonly job: { readonly bayId: string | null, readonly promisedOn: string | null, readonly note: string }
  /** What is odd in it has been looked at. */
  readonly isMeant: boolean
}

/** Checked values, with all that is wrong at once. Throws FieldProblems. */
export function readJob(body: Body, viewer: Viewer): TypedJob {
  const problems: FieldProblem[] = []
  const { vehicleId, customerId } = readFields(ON_RECORD, body, viewer, problems) as Pick<TypedJob, 'vehicleId' | 'customerId'>
  const isKnown = typeof vehicleId === 'string'
  problems.push(...saidTwice(body, isKnown, typeof customerId === 'string'))
  const customer = isKnown || customerId ? null : readNew('customer', OF_CUSTOMER, body, viewer, problems)
  const vehicle = isKnown ? null : readNew('vehicle', OF_VEHICLE, body, viewer, problems)
  const lines = readLines(body, viewer, problems)
  const job = readFields(JOB, body, viewer, problems) as TypedJob['job']
  const { isMeant } = readFields(MEANT, body, viewer, problems) as Pick<TypedJob, 'isMeant'>
  if (problems.length > 0) throw new FieldProblems(problems)
  return { vehicleId, customerId, customer, vehicle, lines, job, isMeant }
}

const isTyped = (body: Body, name: string): boolean => String(body[name] ?? '').trim() !== ''

/** Somebody chosen and another typed: the form cannot know who is meant. */
function saidTwice(body: Body, hasVehicle: boolean, hasCustomer: boolean): FieldProblem[] {
  const typed = (...names: string[]): boolean => names.some((name) => isTyped(body, name))
  return [
    ...(hasVehicle && typed('make', 'model') ? [{ field: 'vehicleId', message: 'A vehicle is chosen and another one typed. Clear make and model, or choose none on record.' }] : []),
    ...((hasCustomer || hasVehicle) && typed('customerName', 'phone')
      ? [{ field: 'customerName', message: 'A customer on record is chosen and another one typed. Clear name and phone, or choose none on record.' }] : []),
  ]
}

/** What a new customer or vehicle takes of the form, by the fields of its own kind. */
function readNew(kindName: string, names: Readonly<Record<string, string>>, body: Body, viewer: Viewer, problems: FieldProblem[]): Values {
  const { fields } = getKind(kindName)
  const remedy = kindName === 'customer' ? ' Type it, or choose a customer or a vehicle on record.' : ''
  return Object.fromEntries(Object.entries(names).flatMap(([name, inForm]) => {
    const checked = fields[name]?.input(viewer).safeParse(body[inForm] ?? fields[name]?.initial ?? '')
    if (checked?.success) return [[name, checked.data.value]]
    problems.push({ field: inForm, message: `${checked?.error.issues[0]?.message ?? 'This cannot be taken.'}${remedy}` })
    return []
  }))
}

function readLines(body: Body, viewer: Viewer, problems: FieldProblem[]): TypedLine[] {
  const lines = LINES.flatMap((at): TypedLine[] => {
    if (!isTyped(body, `fittingId${at}`) && !isTyped(body, `equipment${at}`)) return []
    const fields = Object.fromEntries(Object.entries(LINE).map(([name, field]) => [`${name}${at}`, field]))
    const values = readFields(fields, body, viewer, problems)
    const fittingId = values[`fittingId${at}`]
    if (typeof fittingId !== 'string') {
      if (!isTyped(body, `fittingId${at}`)) problems.push({ field: `fittingId${at}`, message: `Line ${at} says what is fitted, but not where: choose the fitting, or clear the line.` })
      return []
    }
    const [quantity, equipment, price, suppliedBy] = ['quantity', 'equipment', 'price', 'suppliedBy'].map((name) => values[`${name}${at}`])
    if (suppliedBy === 'customer' && Number(price ?? 0) > 0) problems.push({ field: `price${at}`, message: 'What the customer brings has no price: clear it, or say that the shop supplies it.' })
    return [{ at, fittingId, quantity: Number(quantity), equipment: String(equipment ?? ''), price: typeof price === 'number' ? price : null, suppliedBy: suppliedBy === 'customer' ? 'customer' : 'shop' }]
  })
  const isEmpty = LINES.every((at) => !isTyped(body, `fittingId${at}`) && !isTyped(body, `equipment${at}`))
  if (isEmpty) problems.push({ field: 'fittingId1', message: 'What is to be fitted? Choose at least one fitting of the shop’s list.' })
  return lines
}

function readFields(fields: Readonly<Record<string, Field>>, body: Body, viewer: Viewer, problems: FieldProblem[]): Record<string, unknown> {
  return Object.fromEntries(Object.entries(fields).map(([name, field]) => {
    const checked = field.input(viewer).safeParse(body[name] ?? field.initial ?? '')
    if (!checked.success) problems.push({ field: name, message: checked.error.issues[0]?.message ?? 'This cannot be taken.' })
    return [name, checked.success ? checked.data.value : null]
  }))
}

/** The API's lines as the form names them; what is wrong in them is told by `lines.0.fittingId` again. */
export function fromJson({ lines, ...body }: Body): Body {
  const list = Array.isArray(lines) ? (lines as Body[]) : []
  if (list.length > LINES.length) throw invalid('lines', `A counter job has at most ${LINES.length} lines. What is larger is a build: send it to /api/builds.`)
  const flat = list.flatMap((line, index) => Object.entries(line ?? {}).map(([name, value]) => [`${name}${index + 1}`, value]))
  return { ...body, ...Object.fromEntries(flat) as Body }
}

export function toJsonProblems(problems: readonly FieldProblem[]): FieldProblem[] {
  return problems.map(({ field, message }) => {
    const [, name, at] = /^([a-zA-Z]+)(\d)$/.exec(field) ?? []
    return { field: name === undefined ? field : `lines.${Number(at) - 1}.${name}`, message }
  })
}
