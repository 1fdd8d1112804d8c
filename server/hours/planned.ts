import type { Reads } from '../shared/database/database.ts'

/** Where the plan in force has an operation, as somebody sees it. */
export interface Planned {
  readonly startsMs: number
  readonly isMine: boolean
  /** As "By the plan at 08:30.", or "Planned for Ruben Istead Mon 30 Nov 08:45." */
  readonly words: string
}

/** What the plan in force says of each operation it holds, to a person; empty where none is. The plan stands on hours, so that it is brought in from outside. */
export type PlanFor = (reads: Reads, personId: string, today: string) => Promise<ReadonlyMap<string, Planned>>
