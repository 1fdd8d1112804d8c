import { BUILD_KIND_WORDS } from '../../web/shared/buildKinds.ts'
import { ZONE_PLACES } from '../../web/shared/zonePlaces.ts'
import { refuseUnchecked } from '../checks/gate.ts'
import { refuseConsentByHand } from './consentRule.ts'
import { eraseAtDelivery } from '../secrets/store.ts'
import { check, choice, date, longText, money, reference, text } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
import { EVERYBODY, MANAGERS } from '../shared/roles.ts'

export const BUILD_KINDS = ['counter job', 'everyday build', 'show build'] as const
export const STAGES = ['intake', 'scope', 'quote', 'order', 'teardown', 'fabricate', 'wire and check', 'deliver', 'delivered'] as const

export const PRIORITIES = ['urgent', 'usual', 'can wait'] as const

export const build = defineKind({
  name: 'build', plural: 'builds', path: 'builds', model: 'build', place: 'builds', isOfBuild: false,
  number: { prefix: 'B', within: 'shop' },
  fields: {
    title: text('Title', { isRequired: true, note: 'What the shop calls it.' }),
    kind: choice('Kind', BUILD_KINDS, { isListed: true, initial: 'everyday build', words: BUILD_KIND_WORDS }),
    stage: choice('Stage', STAGES, { isListed: true, initial: 'intake' }),
    vehicleId: reference('Vehicle', 'vehicle', { isRequired: true, isListed: true }),
    bayId: reference('Bay', 'bay'),
    holding: choice('The vehicle is', ['owned', 'leased'], { initial: 'owned', note: 'A leased vehicle must go back to stock.' }),
    reason: longText('Reason'),
    wishes: longText('Wishes'),
    budget: money('Budget'),
    consent: money('Consent given to', { note: 'What the customer has agreed to, in writing. Local law says what a consent needs.' }),
    consentBy: text('Consent by', { seenBy: MANAGERS }),
    consentOn: date('Consent on', { seenBy: MANAGERS }),
    deadline: date('Deadline'),
    promisedOn: date('Promised', { isListed: true }),
    priority: choice('In the schedule', PRIORITIES, { initial: 'usual', changedBy: MANAGERS, note: 'A day late of an urgent build weighs as much as two of a usual one and four of one that can wait.' }),
    deliveredOn: date('Delivered'),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: MANAGERS, title: (row) => String(row.title), orderBy: [{ number: 'desc' }],
  hasOwnPage: true, hasOwnList: true, hasPhotos: true,
  check: async (client, { id, before, values }) => {
    if (values.stage === 'delivered' && before?.stage !== 'delivered') await refuseUnchecked(client, id)
    await refuseConsentByHand(client, id, before, values)
    return undefined
  },
  after: async (write, row, { actor }) => {
    if (row.stage === 'delivered') await eraseAtDelivery(write, row.id, actor)
  },
  firstStep: { why: 'Everything that goes in, is made and comes out belongs to a build.', example: 'Two-way front and a false floor for the hatchback.' },
})

export const zone = defineKind({
  name: 'zone', plural: 'zones', path: 'zones', model: 'zone', place: 'builds', isOfBuild: true,
  number: { prefix: '', within: 'build' },
  fields: {
    name: text('Name', { isRequired: true }),
    place: choice('Where', ZONE_PLACES, { isListed: true, note: 'Its place on the plan, and the cautions that always go with it.' }),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: MANAGERS, title: (row) => String(row.name), orderBy: [{ number: 'asc' }],
  holds: async (reads, row) => {
    const where = { zoneId: row.id, removedAt: null }
    const counts = await Promise.all([
      reads.equipmentLine.count({ where }), reads.fabricatedPart.count({ where }), reads.factoryPart.count({ where }), reads.alteration.count({ where }),
    ])
    return counts.some((count) => count > 0) ? 'Something is recorded in this zone. Move or remove that first.' : null
  },
  firstStep: { why: 'A build is read zone by zone.', example: 'Front doors; rear wall; load floor.' },
})

export const openPoint = defineKind({
  name: 'open point', plural: 'open points', path: 'open-points', model: 'openPoint', place: 'builds', isOfBuild: true,
  number: { prefix: '', within: 'zoneId' },
  fields: {
    zoneId: reference('Zone', 'zone', { isRequired: true, isListed: true, isFixed: true }),
    text: text('What is open', { isRequired: true }),
    personId: reference('Who', 'person', { isListed: true }),
    stopsWork: check('Stops work', { isListed: true }),
    closedOn: date('Closed', { isListed: true }),
  },
  seenBy: EVERYBODY, changedBy: EVERYBODY, title: (row) => String(row.text), orderBy: [{ zoneId: 'asc' }, { number: 'asc' }],
  firstStep: { why: 'What somebody still has to find out or decide.', example: 'Left pillar: far side not yet looked at before drilling.' },
})
