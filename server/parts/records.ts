import { counted } from '../../web/shared/text.ts'
import { findCycle } from '../calc/graph.ts'
import { TRIGGERS } from '../calc/removal/triggers.ts'
import type { Write } from '../shared/database/database.ts'
import { invalid } from '../shared/problems.ts'
import { check, checks, longText, quantity, reference, text, time, whole } from '../shared/records/field.ts'
import { defineKind, label, type Draft } from '../shared/records/kind.ts'
import { BENCH, EVERYBODY, MANAGERS } from '../shared/roles.ts'

export const part = defineKind({
  hasPhotos: true, name: 'made part', plural: 'made parts', path: 'parts', model: 'fabricatedPart', place: 'builds', isOfBuild: true,
  number: { prefix: 'P', within: 'build', first: 101 }, knownBy: ['name'],
  fields: {
    zoneId: reference('Zone', 'zone', { isRequired: true, isListed: true }),
    name: text('Name', { isRequired: true }),
    family: text('Part family', { isListed: true, note: 'Baffle, trim ring, pod, door panel, amplifier board, grille …' }),
    quantity: whole('Fitted straight to the vehicle', 0, 1_000, { isRequired: true, isListed: true, initial: 1, note: '0 where it only goes into assemblies: their uses count it.' }),
    optionId: reference('Option of the quote', 'quote option', { seenBy: MANAGERS, changedBy: MANAGERS, note: 'With all that goes into it. The customer says yes or no to it, with its own price.' }),
    drawing: text('Drawing'),
    mass: quantity('Mass each', 'mass', { largest: 1_000_000 }),
    isFitted: check('Fitted', { isListed: true, note: 'From then on it counts as standing in the vehicle.' }),
    removable: longText('How it comes off again', { note: 'By its own fasteners, without destroying anything.' }),
    takeOut: time('Time to take it out'),
    putBack: time('Time to put it back'),
    cautions: checks('Cautions', TRIGGERS),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: BENCH, title: (row) => String(row.name), orderBy: [{ number: 'asc' }],
  hasOwnPage: true,
  holds: async (reads, row) => {
    const entries = await reads.timeEntry.count({ where: { operation: { partId: row.id } } })
    return entries > 0 ? `${counted(entries, 'entry of hours stands', 'entries of hours stand')} on its operations. Set its quantity and its uses to what is needed instead.` : null
  },
  firstStep: { why: 'What the shop makes for this vehicle.', example: 'Pillar pod left: mold, laminate, sand, wrap.' },
})

export const partUse = defineKind({
  name: 'use in an assembly', plural: 'uses in assemblies', path: 'part-uses', model: 'partUse', place: 'builds', isOfBuild: true,
  fields: {
    parentId: reference('Assembly', 'made part', { heading: 'What goes into it', isRequired: true, isListed: true, isFixed: true }),
    partId: reference('Part', 'made part', { heading: 'Assemblies it goes into', isRequired: true, isListed: true, isFixed: true }),
    quantity: whole('How many in one assembly', 1, 1_000, { isRequired: true, isListed: true, initial: 1 }),
  },
  seenBy: EVERYBODY, changedBy: BENCH, title: (row) => `${String(row.quantity)} in one assembly`,
  titleBy: (nameIn, row) => `${String(row.quantity)} × ${nameIn('partId')} in ${nameIn('parentId')}`,
  check: refuseLoop,
  firstStep: { why: 'An assembly is made of parts.', example: 'Front cabinet takes 2 baffles.' },
})

async function refuseLoop(write: Write, { id, values }: Draft): Promise<undefined> {
  const parentId = String(values.parentId)
  const partId = String(values.partId)
  const child = await write.fabricatedPart.findUniqueOrThrow({ where: { id: partId }, select: { buildId: true } })
  const uses = await write.partUse.findMany({ where: { buildId: child.buildId, removedAt: null }, select: { id: true, parentId: true, partId: true } })
  const others = uses.filter((use) => use.id !== id)
  if (others.some((use) => use.parentId === parentId && use.partId === partId)) {
    throw invalid('partId', 'This part is in this assembly already. Change the quantity there.')
  }
  const edges = [...others, { parentId, partId }].map((use) => ({ before: use.parentId, after: use.partId }))
  const ring = findCycle([...new Set(edges.flatMap((edge) => [edge.before, edge.after]))], edges)
  if (ring) throw invalid('partId', `A part cannot go into itself: ${await inWords(write, ring)}.`)
  return undefined
}

async function inWords(write: Write, ids: readonly string[]): Promise<string> {
  const parts = await write.fabricatedPart.findMany({ where: { id: { in: [...ids] } }, select: { id: true, number: true } })
  return ids.map((id) => label('P', parts.find((part) => part.id === id)?.number ?? 0)).join(' → ')
}
