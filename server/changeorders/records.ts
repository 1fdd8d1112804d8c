import type { Row } from '../shared/database/delegate.ts'
import { longText, text, whole } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { checkChangeOrder, holdsChangeOrder } from './rules.ts'

/** A change to what was accepted: its draft. What is frozen of it stands beside the revisions of the quote. */
export const changeOrder = defineKind({
  name: 'change order', plural: 'change orders', path: 'change-orders', model: 'changeOrder', place: 'builds', isOfBuild: true,
  number: { prefix: '', within: 'build' },
  fields: {
    title: text('Title', { isRequired: true, isListed: true, note: 'What changes, in a few words.' }),
    reason: longText('Reason', { note: 'What has changed, and why. The customer reads it.' }),
    daysLater: whole('Days later', 0, 730, { isListed: true, note: 'How much later the vehicle will be ready; empty if nobody knows, 0 if not at all.' }),
    validDays: whole('Good for, in days', 1, 365, { initial: 14, isRequired: true, note: 'From the day it is frozen, that last day included.' }),
  },
  seenBy: MANAGERS, changedBy: MANAGERS, title: (row: Row) => String(row.title), orderBy: [{ number: 'asc' }],
  begin: (row) => (row ? { href: `/builds/${String(row.buildId)}/change-orders/${row.id}`, name: 'Lines and freezing', roles: MANAGERS } : { href: '/builds', name: 'To the builds', roles: MANAGERS }),
  check: checkChangeOrder, holds: holdsChangeOrder,
  firstStep: { why: 'What comes on top of what was accepted, or is left out of it, with a consent of its own.', example: 'A second amplifier, 3 days later, 412.00.' },
})
