import type { LeftOut, ShopFacts, ShopPerson, ShopWork } from './shopProblem.ts'

/** Work that nobody in the shop can do, and what waits for it, with the reason in words. Source: common practice, no source. */
export function listLeftOut({ people, builds }: ShopFacts): LeftOut[] {
  const impossible = new Map(builds.flatMap(({ work, refusal }) => work.flatMap((one) => {
    const why = refusal === '' ? one.refusal ?? whyNot(one, people) : refusal
    return why === null ? [] : [[one.id, why] as const]
  })))
  return builds.flatMap((build) => leftOutOf(build, impossible))
}

function whyNot({ name, skill, personId, crew }: ShopWork, people: readonly ShopPerson[]): string | null {
  if (personId !== null) return people.some(({ id }) => id === personId) ? null : `${name} is named for somebody who is not there any more.`
  const able = people.filter(({ skillIds }) => skill === null || skillIds.includes(skill.id)).length
  if (able >= crew) return null
  const whom = skill === null ? 'people' : `people with the skill ${skill.name}`
  return able === 0 ? `${name}: no ${whom}.` : `${name} needs ${crew} ${whom}, and there ${able === 1 ? 'is 1' : `are ${able}`}.`
}

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
