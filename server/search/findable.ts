import type { Role } from '../../web/shared/viewer.ts'
import { getKind, type RecordKind } from '../shared/records/kind.ts'

/** One text of a record that is looked through. */
export interface FindableField {
  /** From the record, over what it refers to: ['vehicle', 'customer', 'name']. */
  readonly path: readonly string[]
  readonly label: string
  /** Only its end is compared, and only with so many signs or more: the last of a VIN. */
  readonly endsWith?: number
}

/** A kind of record that can be found, as far as a role may see it. */
export interface Findable {
  readonly kind: RecordKind
  readonly fields: readonly FindableField[]
}

const LEAST_OF_VIN = 6

// In the order in which they are shown.
const FINDABLE: Readonly<Record<string, readonly string[]>> = {
  'build': ['title', 'vehicle.make', 'vehicle.model', 'vehicle.customer.name'],
  'vehicle': ['make', 'model', 'vin', 'plate', 'customer.name'],
  'customer': ['name', 'contact', 'phone', 'email'],
  'made part': ['name', 'family', 'drawing'],
  'factory part': ['name', 'partNumber'],
  'equipment line': ['name', 'item.maker', 'item.model', 'serialNumbers'],
  'serial swap': ['oldSerial', 'newSerial'],
  'bin': ['place'],
  'alteration': ['what'],
  'service visit': ['complaint', 'found'],
  'open point': ['text'],
  'operation': ['work'],
  'catalog item': ['maker', 'model'],
  'material': ['name', 'supplier'],
  'person': ['name', 'signInName'],
}

const KIND_OF_RELATION: Readonly<Record<string, string>> = { vehicle: 'vehicle', customer: 'customer', item: 'catalog item' }

/** What a role can find. A field it may not see is not looked through, so that no match tells of it. */
export function listFindable(role: Role): Findable[] {
  return Object.entries(FINDABLE)
    .map(([name, paths]) => ({ kind: getKind(name), fields: paths.flatMap((path) => fieldsOf(getKind(name), path.split('.'), role)) }))
    .filter(({ kind, fields }) => kind.seenBy.includes(role) && fields.length > 0)
}

function fieldsOf(kind: RecordKind, path: readonly string[], role: Role): FindableField[] {
  const last = path.at(-1) ?? ''
  const relation = path.at(-2)
  const owner = relation === undefined ? kind : getKind(KIND_OF_RELATION[relation] ?? '')
  const field = owner.fields[last]
  if (!field) throw new Error(`${owner.name} has no field ${last} to look through`)
  if (!field.seenBy.includes(role) || !owner.seenBy.includes(role)) return []
  const label = relation === undefined ? field.label : `${owner.name}: ${field.label.toLowerCase()}`
  return [{ path, label, ...(last === 'vin' ? { endsWith: LEAST_OF_VIN } : {}) }]
}
