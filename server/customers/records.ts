import type { Reads, Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { longText, text } from '../shared/records/field.ts'
import { defineKind, label } from '../shared/records/kind.ts'
import { COUNTER, EVERYBODY, MANAGERS } from '../shared/roles.ts'

export const customer = defineKind({
  name: 'customer', plural: 'customers', path: 'customers', model: 'customer', place: 'customers', isOfBuild: false,
  number: { prefix: 'C', within: 'shop' },
  fields: {
    name: text('Name', { isRequired: true }),
    contact: text('Who to ask for', { seenBy: COUNTER }),
    phone: text('Phone', { isListed: true, seenBy: COUNTER }),
    email: text('Email', { seenBy: COUNTER }),
    address: longText('Address', { seenBy: COUNTER }),
    note: longText('Note', { seenBy: COUNTER }),
  },
  seenBy: EVERYBODY, changedBy: MANAGERS, title: (row) => String(row.name), orderBy: [{ name: 'asc' }],
  holds: async (reads, row) => {
    const vehicles = await reads.vehicle.count({ where: { customerId: row.id, removedAt: null } })
    return vehicles > 0 ? `${vehicles} vehicles belong to this customer. Remove or move them first.` : null
  },
  warns: warnOfNamesakes,
  begin: (row) => ({ href: row ? `/counter-jobs/new?customer=${row.id}` : '/counter-jobs/new', name: 'Counter job', roles: MANAGERS }),
  firstStep: { why: 'A vehicle belongs to somebody.', example: 'Harrow Lane Bakery, ask for Imre.' },
})

async function warnOfNamesakes(reads: Reads | Write, { id, name }: Row): Promise<string | null> {
  const plain = (text: unknown): string => String(text).trim().replaceAll(/\s+/g, ' ').toLowerCase()
  const others = await reads.customer.findMany({ where: { removedAt: null, id: { not: id } }, orderBy: { number: 'asc' }, select: { number: true, name: true } })
  const same = others.filter((other) => plain(other.name) === plain(name))
  return same.length === 0 ? null : `${same.map(({ number }) => label('C', number)).join(', ')} has the same name. If it is the same customer, move the vehicles to one of them and remove the other.`
}
