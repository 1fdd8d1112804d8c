import { longText, text } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
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
  begin: (row) => ({ href: row ? `/counter-jobs/new?customer=${row.id}` : '/counter-jobs/new', name: 'Counter job', roles: MANAGERS }),
  firstStep: { why: 'A vehicle belongs to somebody.', example: 'Harrow Lane Bakery, ask for Imre.' },
})
