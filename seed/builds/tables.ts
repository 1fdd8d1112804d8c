import type { Columns } from '../rows.ts'
import type { RecipeName } from './recipes.ts'

/** A thing of the build in a table: a factory part by its word, a line as E7, a made part as P410. */
export type ThingKey = string

export interface ZoneRow {
  readonly key: string
  readonly name: string
  readonly place: string
  readonly note?: string
}

/** How far the operations of a thing have come. */
export interface Progress {
  /** So many of its operations are finished. */
  readonly done?: number
  /** What the next one is. */
  readonly now?: 'running' | 'waiting'
  /** Working day of its first hours, from today: -20. */
  readonly from?: number
}

export interface PartRow extends Progress {
  readonly n: number
  readonly name: string
  readonly family: string
  /** How many are fitted straight to the vehicle; 1 unless it goes into an assembly. */
  readonly fit?: number
  /** Assemblies it goes into, with how many. */
  readonly into?: readonly (readonly [n: number, quantity: number])[]
  readonly recipe: RecipeName
  /** The recipe's times by so much. */
  readonly size?: number
  /** 'ply18 0.62 m², glue 60 g': for one piece. */
  readonly needs?: string
  readonly mass?: string
  readonly drawing?: string
  readonly removable?: string
  readonly take?: string
  readonly back?: string
  readonly cautions?: string
  readonly isFitted?: boolean
  readonly note?: string
}

export interface PartGroup {
  readonly zone: string
  readonly from: number
  readonly parts: readonly PartRow[]
}

/** Where equipment is mounted, and the room measured there. */
export interface PlaceRow {
  readonly key: string
  readonly zone: string
  readonly typed: Columns
}

export interface LineRow extends Progress {
  readonly n: number
  readonly zone: string
  /** Of the catalog; empty for what only this build has. */
  readonly item?: string
  readonly name?: string
  readonly quantity?: number
  readonly isCustomers?: boolean
  readonly work?: RecipeName
  readonly size?: number
  readonly mounting?: string
  /** Working days from today: when it came, or is to come. */
  readonly received?: number
  readonly expected?: number
  readonly serials?: string
  readonly isFitted?: boolean
  readonly take?: string
  readonly back?: string
  readonly cautions?: string
  readonly needs?: string
  /** A kit, and what of it this line takes differently: 'wire25 3 m'. */
  readonly kit?: string
  readonly adjusted?: string
  readonly at?: string
  readonly spacer?: string
  readonly note?: string
}

/** Word, name, time out, fasteners ('6 clipA, 2 s48'), what is out before it ('~' loosened), and the rest. */
export type FactoryRow = readonly [key: string, name: string, take: string, fasteners: string, after: string, more?: FactoryMore]

export interface FactoryMore extends Progress {
  readonly state?: string
  readonly bin?: number | null
  readonly back?: string
  readonly place?: string
  readonly number?: string
  readonly cautions?: string
  readonly connectors?: string
  readonly condition?: string
  readonly cost?: string
  readonly lead?: number
  readonly note?: string
  readonly needs?: string
  /** Its operations: taking out and putting back a whole zone stands on the zone's largest part. */
  readonly work?: RecipeName
  readonly size?: number
}

export interface FactoryGroup {
  readonly zone: string
  /** State and bin of those that say nothing else. */
  readonly state: string
  readonly bin?: number
  /** Who took them out, and on which working day from today. */
  readonly by: string
  readonly day: number
  /** The working day on which those that are fitted again went back. */
  readonly backDay?: number
  readonly parts: readonly FactoryRow[]
}

export interface EdgeRow {
  readonly graph: 'as built' | 'going back' | 'as found'
  /** 'seat belt': each before each of `after`. */
  readonly before: string
  readonly after: string
  readonly kind?: 'loosened'
  readonly way?: string
  readonly note?: string
}

export interface AlterationRow {
  readonly zone: string
  readonly part?: ThingKey
  readonly typed: Columns
  /** Working day from today on which the customer agreed. */
  readonly consentDay?: number
  /** Parts its reversal takes beside the first. */
  readonly further?: readonly Columns[]
}

export interface PointRow {
  readonly zone: string
  readonly text: string
  readonly person?: string
  readonly stopsWork?: boolean
  /** Working day from today. */
  readonly closedDay?: number
}

/** Who approves the samples of a build, and those that are not approved yet. */
export interface SampleRows {
  readonly by: string
  /** Working day from today. */
  readonly day: number
  readonly open: Readonly<Record<ThingKey, { readonly state: 'no sample yet' | 'sample shown' | 'refused'; readonly why?: string }>>
}

export interface RemarkRow {
  readonly at: string
  readonly kind: 'rework' | 'waiting'
  readonly minutes: number
  readonly why: string
}

export interface BuildTables {
  readonly number: number
  readonly vehicle: string
  readonly bay?: number
  readonly typed: Columns
  /** Working days from today. */
  readonly dates: { readonly consentOn?: number; readonly deadline?: number; readonly promisedOn?: number; readonly deliveredOn?: number }
  /** Working days from today on which it was entered and taken from stage to stage. */
  readonly stages: readonly (readonly [stage: string, workday: number])[]
  /** Where the torques of this vehicle stand. */
  readonly manual: string
  readonly zones: readonly ZoneRow[]
  readonly bins: readonly string[]
  readonly places?: readonly PlaceRow[]
  readonly parts: readonly PartGroup[]
  readonly lines: readonly LineRow[]
  readonly factory: readonly FactoryGroup[]
  readonly edges: readonly EdgeRow[]
  readonly alterations: readonly AlterationRow[]
  readonly points: readonly PointRow[]
  /** 'P411:20 > P410:10'. */
  readonly predecessors: readonly string[]
  readonly remarks: readonly RemarkRow[]
  readonly samples?: SampleRows
}
