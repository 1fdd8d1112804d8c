/** What of a build the way back to stock needs, and nothing else: removed records are left out. */
const STANDING = { where: { removedAt: null } } as const
const ZONE = { select: { name: true, place: true } } as const
const BY_NUMBER = { orderBy: { number: 'asc' } } as const

const FASTENERS = {
  ...STANDING, orderBy: { id: 'asc' },
  select: {
    id: true, kind: true, size: true, drive: true, count: true, torque: true, torqueSource: true, isSingleUse: true,
    isSafety: true, breakShare: true, price: true, leadDays: true,
  },
} as const

const FACTORY_PARTS = {
  ...STANDING, ...BY_NUMBER,
  select: {
    id: true, number: true, name: true, partNumber: true, zoneId: true, zone: ZONE, state: true, stays: true, place: true, takeOut: true, putBack: true,
    cautions: true, connectors: true, leadDays: true, replaceCost: true, note: true,
    bin: { select: { number: true, place: true } }, fasteners: FASTENERS,
  },
} as const

const LINES = {
  ...STANDING, ...BY_NUMBER,
  select: {
    id: true, number: true, name: true, quantity: true, zoneId: true, zone: ZONE, isFitted: true, takeOut: true, putBack: true,
    cautions: true, mounting: true,
  },
} as const

const MADE_PARTS = {
  ...STANDING, ...BY_NUMBER,
  select: {
    id: true, number: true, name: true, quantity: true, zoneId: true, zone: ZONE, isFitted: true, takeOut: true, putBack: true,
    cautions: true, removable: true,
  },
} as const

const ALTERATIONS = {
  ...STANDING, ...BY_NUMBER,
  select: {
    id: true, number: true, zoneId: true, zone: ZONE, factoryPartId: true, what: true, whereAt: true, kind: true, consentBy: true,
    isReversible: true, reversal: true, reverse: true, partToBuy: true, partCost: true, leadDays: true, outsideWork: true, outsideCost: true, outsideDays: true, reversedOn: true,
    furtherParts: { ...STANDING, orderBy: { id: 'asc' }, select: { name: true, count: true, cost: true, leadDays: true } },
  },
} as const

export const VEHICLE_STATE = {
  id: true, number: true, title: true, holding: true, deliveredOn: true,
  vehicle: {
    select: {
      make: true, model: true, year: true, body: true, energy: true, vin: true, airbagWait: true, airbagWaitSource: true,
      highVoltageWait: true, factoryOptions: true,
    },
  },
  zones: { ...STANDING, ...BY_NUMBER, select: { id: true, number: true, name: true, place: true } },
  factoryParts: FACTORY_PARTS,
  lines: LINES,
  parts: MADE_PARTS,
  alterations: ALTERATIONS,
  edges: { ...STANDING, orderBy: { id: 'asc' }, select: { graph: true, kind: true, beforeId: true, afterId: true, way: true } },
} as const
