import { ZONE_PLACES } from '../../web/shared/zonePlaces.ts'
import { TRIGGERS } from '../calc/removal/triggers.ts'
import type { Write } from '../shared/database/database.ts'
import { invalid } from '../shared/problems.ts'
import { checks, choice, longText, reference, text, time } from '../shared/records/field.ts'
import { defineKind, type Draft } from '../shared/records/kind.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'

export const standardFitting = defineKind({
  name: 'standard fitting', plural: 'standard fittings', path: 'standard-fittings', model: 'standardFitting', place: 'stock', isOfBuild: false,
  fields: {
    name: text('Name', { isRequired: true, note: 'As it is said at the counter: speaker in a front door.' }),
    place: choice('Where', ZONE_PLACES, { isListed: true, note: 'The zone that a counter job gets for it.' }),
    departmentId: reference('Department', 'department', { isRequired: true, isListed: true }),
    skillId: reference('Skill', 'skill'),
    setUp: time('Set-up', { isListed: true, largest: 40 * 3600, note: 'Once, however many: take out, run the wire. 0.5 h, 0:30 or 30 min.' }),
    run: time('Run', { isListed: true, largest: 40 * 3600, note: 'For each piece.' }),
    itemId: reference('Usually fitted', 'catalog item', { note: 'Taken where nothing else is named.' }),
    kitId: reference('Kit', 'kit', { note: 'Left empty: the kit of the catalog item.' }),
    cautions: checks('Cautions', TRIGGERS),
    note: longText('Note'),
  },
  seenBy: BENCH, changedBy: MANAGERS, title: (row) => String(row.name), orderBy: [{ name: 'asc' }],
  check: checkFitting,
  firstStep: { why: 'Counter jobs take their hours from the shop’s own list.', example: 'Speaker in a front door: set-up 0.5 h, run 0.75 h each.' },
})

async function checkFitting(write: Write, { values }: Draft): Promise<undefined> {
  if (Number(values.setUp) + Number(values.run) === 0) throw invalid('run', 'A fitting takes time: give its set-up, its run or both.')
  if (typeof values.skillId !== 'string') return undefined
  const skill = await write.skill.findUnique({ where: { id: values.skillId }, select: { departmentId: true, name: true } })
  if (skill && skill.departmentId !== values.departmentId) throw invalid('skillId', `${skill.name} belongs to another department. Choose a skill of this one.`)
  return undefined
}
