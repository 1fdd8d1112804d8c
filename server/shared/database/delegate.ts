import type { Reads, Write } from './database.ts'

export const MODELS = [
  'shop', 'taxCode', 'department', 'skill', 'bay', 'person', 'customer', 'vehicle', 'build', 'zone', 'openPoint',
  'bin', 'equipmentItem', 'equipmentLine', 'fabricatedPart', 'partUse', 'operation', 'operationPredecessor',
  'material', 'materialNeed', 'factoryPart', 'fastener', 'removal', 'orderEdge', 'alteration',
  'standardFitting', 'kit', 'kitPart', 'mountingPlace', 'finish', 'intake', 'conditionMark', 'faultCode', 'serviceVisit', 'makerClaim', 'serialSwap',
  'stockTake', 'restorationSheet', 'finalCheck', 'delivery', 'buildStory',
  'replacementPart', 'hourCorrection', 'quote', 'quoteOption', 'quoteLine', 'depositStep', 'changeOrder',
  'machine', 'outsideFinisher', 'closing', 'absence',
] as const
export type Model = (typeof MODELS)[number]

/** A stored record: what all of them share, and its own fields by name. */
export interface Row {
  readonly id: string
  readonly version: number
  readonly removedAt: Date | null
  readonly entered: string
  readonly [field: string]: unknown
}

type Where = Readonly<Record<string, unknown>>

/** The part of a model's queries that all records share. */
export interface Delegate {
  findMany(query: { where?: Where; include?: Where; orderBy?: unknown; take?: number; cursor?: { id: string }; skip?: number }): Promise<Row[]>
  findFirst(query: { where: Where; orderBy?: unknown }): Promise<Row | null>
  count(query: { where: Where }): Promise<number>
  create(query: { data: Readonly<Record<string, unknown>> }): Promise<Row>
  createMany(query: { data: readonly Readonly<Record<string, unknown>>[] }): Promise<{ count: number }>
  updateMany(query: { where: Where; data: Readonly<Record<string, unknown>> }): Promise<{ count: number }>
}

// The generated client types every model by itself; this is the one place that sees them alike.
export function delegate(client: Reads | Write, model: Model): Delegate {
  return client[model] as unknown as Delegate
}
