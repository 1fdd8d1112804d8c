import type { BuildTables, ZoneRow } from '../builds/tables.ts'

/** A kind of job that the demo's shop has done before. Days are counted from the first one in the vehicle. */
export interface JobRecipe {
  readonly title: string
  readonly kind: 'counter job' | 'everyday build'
  readonly reason: string
  /** Working days until it was delivered. */
  readonly days: number
  readonly zones: readonly ZoneRow[]
  readonly parts?: BuildTables['parts']
  readonly lines: BuildTables['lines']
  readonly factory: BuildTables['factory']
  readonly edges?: BuildTables['edges']
  readonly alterations?: BuildTables['alterations']
  readonly predecessors?: readonly string[]
}
