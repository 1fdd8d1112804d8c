import { peopleOf } from './shopActivities.ts'
import type { LeftOut, ShopFacts, ShopPerson, ShopWork } from './shopProblem.ts'
import { MOST_TEAMS } from './teams.ts'

/** Work that nobody in the shop can do, and what waits for it, with the reason in words. Source: common practice, no source. */
export function listLeftOut({ people, builds }: ShopFacts): LeftOut[] {
  const impossible = new Map(builds.flatMap(({ work, refusal }) => work.flatMap((one) => {
    const why = refusal === '' ? one.refusal ?? whyNot(one, people) : refusal
    return why === null ? [] : [[one.id, why] as const]
  })))
  return builds.flatMap((build) => leftOutOf(build, impossible))
}

function whyNot(work: ShopWork, people: readonly ShopPerson[]): string | null {
  const { name, skill, personId, crew } = work
  if (personId !== null && !people.some(({ id }) => id === personId)) return `${name} is named for somebody who is not there any more.`
  const { who, units } = peopleOf(work).at(-1)!
  const able = people.filter(who).length
  const whom = skill === null ? 'people' : `people with the skill ${skill.name}`
  if (able >= units) return waysToChoose(able, units) > MOST_TEAMS ? `${name} needs ${crew} ${whom}, who can be chosen in more than ${MOST_TEAMS} ways. Name one of them, or a skill that fewer have.` : null
  if (personId !== null && crew > 1) return `${name} needs ${units} ${whom} besides the person named, and there ${able === 0 ? 'is nobody' : able === 1 ? 'is 1' : `are ${able}`}.`
  return able === 0 ? `${name}: no ${whom}.` : `${name} needs ${crew} ${whom}, and there ${able === 1 ? 'is 1' : `are ${able}`}.`
}

const waysToChoose = (from: number, count: number): number => (count === 0 ? 1 : waysToChoose(from - 1, count - 1) * from / count)

function leftOutOf({ id: buildId, work }: ShopFacts['builds'][number], impossible: ReadonlyMap<string, string>): LeftOut[] {
  const why = new Map(work.flatMap(({ id }) => (impossible.has(id) ? [[id, impossible.get(id)!] as const] : [])))
  const names = new Map(work.map(({ id, name }) => [id, name]))
  for (let grown = -1; grown !== why.size;) {
    grown = why.size
    for (const { id, after, name } of work) {
      const earlier = after.find((one) => why.has(one))
      if (earlier !== undefined && !why.has(id)) why.set(id, `${name} waits for ${names.get(earlier) ?? 'it'}.`)
    }
  }
  return [...why].map(([workId, words]) => ({ buildId, workId, why: words }))
}
