import { createHash } from 'node:crypto'
import { z } from 'zod'
import type { ShopFacts } from '../calc/schedule/shopProblem.ts'

const printSchema = z.object({
  shop: z.string(), bays: z.string(), people: z.record(z.string(), z.string()),
  builds: z.record(z.string(), z.object({
    head: z.string(), progress: z.string(),
    work: z.record(z.string(), z.array(z.string())).describe('By operation: all that lasts of it, then what it waits for'),
  })),
})
type Print = z.infer<typeof printSchema>

const hashOf = (value: unknown): string => createHash('sha256').update(JSON.stringify(value)).digest('base64url').slice(0, 12)

/**
 * Alike as long as nothing a plan depends on has changed, whatever the time; part by part, so that it tells what has. How
 * unsure hours are is not in it: that moves chances, and no work.
 */
export function printOf({ people, bays, machines, finishers, builds, togetherThousandths, rule }: ShopFacts): string {
  const print: Print = {
    shop: hashOf([togetherThousandths, rule, machines.map(({ id, count, holdsWork }) => [id, count, holdsWork]), finishers.map((finisher) => finisher.rule)]), bays: hashOf(bays.map(({ id }) => id)),
    people: Object.fromEntries(people.map(({ id, skillIds, hoursRule }) => [id, hashOf([skillIds, hoursRule])])),
    builds: Object.fromEntries(builds.map(({ id, work, dueMs, weight, bayId, mayRollOutNow }) => [id, {
      head: hashOf([dueMs, weight]), progress: hashOf([bayId, mayRollOutNow, work.map(({ id: workId, remainingS, runningBy }) => [workId, remainingS, runningBy])]),
      work: Object.fromEntries(work.map(({ id: workId, name: _name, shortName: _short, remainingS: _remaining, remainingCasesS: _cases, runningBy: _running, runningS: _since, refusal: _refusal, after, ...lasting }) => [workId, [hashOf(lasting), ...after]])),
    }])),
  }
  return JSON.stringify(print)
}

/** What of the facts differs from those a print was made of. */
export interface FactsChanged {
  /** Things planned with: whose hours, which bays, which builds. */
  readonly changed: readonly string[]
  /** Builds in which only hours were logged, or work was begun or finished. */
  readonly goneOn: readonly string[]
}

const UNKNOWN: FactsChanged = { changed: ['what the plan was made from'], goneOn: [] }

/** In words; nothing in either list where all is as it was. `names` are those of builds that the plan knows. */
export function changedSince(print: string, facts: ShopFacts, names: ReadonlyMap<string, string>): FactsChanged {
  const was = read(print)
  const now = read(printOf(facts))
  if (was === null || now === null) return UNKNOWN
  const nameOf = (id: string): string => facts.builds.find((build) => build.id === id)?.name ?? names.get(id) ?? 'a build'
  const ids = [...new Set([...Object.keys(was.builds), ...Object.keys(now.builds)])]
  const people = [...new Set([...Object.keys(was.people), ...Object.keys(now.people)])].filter((id) => was.people[id] !== now.people[id])
  const of = (id: string): 'changed' | 'gone on' | null => {
    const [old, own] = [was.builds[id], now.builds[id]]
    if (own === undefined) return 'gone on'
    if (old === undefined || old.head !== own.head || Object.entries(own.work).some(([workId, one]) => isOther(old.work[workId], one))) return 'changed'
    return old.progress !== own.progress || Object.keys(old.work).length !== Object.keys(own.work).length ? 'gone on' : null
  }
  return {
    changed: [
      ...(was.shop === now.shop ? [] : ['the shop’s hours, holidays, closings, machines or outside finishers']), ...(was.bays === now.bays ? [] : ['the bays']),
      ...people.map((id) => `hours, absences or skills of ${facts.people.find((person) => person.id === id)?.name ?? 'somebody who is there no longer'}`),
      ...ids.filter((id) => of(id) === 'changed').map((id) => `work, dates or priority of ${nameOf(id)}`),
    ],
    goneOn: ids.filter((id) => of(id) === 'gone on').map(nameOf),
  }
}

/** What is finished is waited for no longer; anything else is another plan. */
function isOther(old: readonly string[] | undefined, [own, ...after]: readonly string[]): boolean {
  return old === undefined || old[0] !== own || after.some((id) => !old.slice(1).includes(id))
}

function read(print: string): Print | null {
  try {
    return printSchema.parse(JSON.parse(print))
  } catch (error) {
    // A plan that was kept before prints were told part by part.
    if (error instanceof SyntaxError || error instanceof z.ZodError) return null
    throw error
  }
}
