/**
 * What is taken over of each table, column by column. Never taken over: hours, states, remaining, dates, serial numbers,
 * batches, samples and approvals, bins, conditions, removals, alterations, photos, consent, who measured and who is named.
 */
export const COPIED = {
  zone: ['name', 'place', 'note'],
  mountingPlace: ['name', 'checks', 'depth', 'windowDrop', 'seatTravel', 'lidHinges', 'grille', 'length', 'width', 'largestSpacer', 'clearance', 'note'],
  equipmentLine: ['itemId', 'name', 'quantity', 'suppliedBy', 'cost', 'price', 'taxCodeId', 'mounting', 'takeOut', 'putBack', 'cautions', 'note', 'kitId', 'spacer'],
  fabricatedPart: ['name', 'family', 'quantity', 'drawing', 'mass', 'removable', 'takeOut', 'putBack', 'cautions', 'note'],
  partUse: ['quantity'],
  factoryPart: ['name', 'partNumber', 'takeOut', 'putBack', 'cautions', 'connectors', 'replaceCost', 'leadDays', 'note'],
  fastener: ['kind', 'size', 'drive', 'count', 'torque', 'torqueSource', 'isSingleUse', 'isSafety', 'breakShare', 'materialId', 'price', 'leadDays', 'note'],
  orderEdge: ['graph', 'kind', 'way', 'note'],
  operation: ['number', 'kind', 'work', 'departmentId', 'skillId', 'setUp', 'run', 'runBest', 'runWorst', 'learningModel', 'learningRate', 'reworkAllowance', 'crew', 'wait', 'place', 'rollOut', 'isInOnePiece', 'machineId', 'finisherId', 'note'],
  operationPredecessor: [],
  materialNeed: ['materialId', 'form', 'quantity', 'note', 'kitPartId', 'isAdjusted'],
  finish: ['kind', 'material', 'color', 'code', 'grain', 'thread', 'supplier', 'note'],
} as const satisfies Readonly<Record<string, readonly string[]>>

export type Table = keyof typeof COPIED

/** Each table after those it points to. */
export const TABLES = Object.keys(COPIED) as readonly Table[]

/** The references of a table to records that are taken over too; those marked may stay empty. */
export const REFERENCES: Readonly<Record<Table, Readonly<Record<string, 'needed' | 'optional'>>>> = {
  zone: {},
  mountingPlace: { zoneId: 'needed' },
  equipmentLine: { zoneId: 'needed', placeId: 'optional' },
  fabricatedPart: { zoneId: 'needed' },
  partUse: { parentId: 'needed', partId: 'needed' },
  factoryPart: { zoneId: 'needed' },
  fastener: { factoryPartId: 'needed' },
  orderEdge: { beforeId: 'needed', afterId: 'needed' },
  operation: { partId: 'needed', lineId: 'needed', factoryPartId: 'needed' },
  operationPredecessor: { earlierId: 'needed', laterId: 'needed' },
  materialNeed: { partId: 'needed', lineId: 'needed', factoryPartId: 'needed' },
  finish: { partId: 'needed' },
}

/** Numbered anew within the build, from the first number on; the numbers of operations stand within their part and stay. */
export const FIRST_NUMBER: Readonly<Partial<Record<Table, number>>> = {
  zone: 1, mountingPlace: 1, equipmentLine: 1, fabricatedPart: 101, factoryPart: 11, finish: 1,
}

/** Tables whose rows say where they were taken from. */
export const SAYS_ORIGIN: readonly Table[] = ['equipmentLine', 'fabricatedPart', 'factoryPart', 'orderEdge', 'operation', 'materialNeed', 'finish']

/** The record kinds with a line of history of their own; the smaller rows' would say no more than they do. */
export const KIND_OF: Readonly<Partial<Record<Table, string>>> = {
  zone: 'zone', mountingPlace: 'mounting place', equipmentLine: 'equipment line', fabricatedPart: 'made part', factoryPart: 'factory part',
  operation: 'operation', finish: 'finish',
}
