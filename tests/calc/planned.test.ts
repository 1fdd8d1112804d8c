import t from 'tap'
import { loadOf } from '../../server/calc/schedule/load.ts'
import { toOpenTime, type OpenTime } from '../../server/calc/schedule/openTime.ts'
import { linksByTaking, type TakingWork } from '../../server/calc/schedule/planLinks.ts'
import { chainOf, slackOf, type PlannedStep } from '../../server/calc/schedule/slack.ts'

const ALWAYS_OPEN: OpenTime = { before: (ms) => ms, lastWith: (ms) => ms }
const HOUR = 3_600_000
/** Two days of eight hours, open from the hour 8 to 16 and from 32 to 40. */
const TWO_DAYS = toOpenTime([{ fromMs: 8 * HOUR, toMs: 16 * HOUR }, { fromMs: 32 * HOUR, toMs: 40 * HOUR }])
const step = (id: string, from: number, to: number, after: PlannedStep['after'] = []): PlannedStep => ({ id, startMs: from * HOUR, endMs: to * HOUR, after })

t.test('slack, latest start and latest end are those of a published network, and so is its critical chain', async (t) => {
  // W. Taylor, Introduction to Management Science, chapter 8, solution of problem 1: activity, time, earliest start and finish, latest start and finish, slack.
  const PUBLISHED = [
    ['1-2', 7, 0, 7, 2, 9, 2], ['1-3', 10, 0, 10, 0, 10, 0], ['2-4', 6, 7, 13, 9, 15, 2], ['3-4', 5, 10, 15, 10, 15, 0],
    ['3-5', 4, 10, 14, 14, 18, 4], ['4-5', 3, 15, 18, 15, 18, 0], ['5-6', 2, 18, 20, 18, 20, 0],
  ] as const
  const steps = PUBLISHED.map(([id, , startMs, endMs]): PlannedStep => ({
    id, startMs, endMs, after: PUBLISHED.filter(([other]) => other[2] === id[0]).map(([other]) => ({ id: other, waitMs: 0 })),
  }))
  const slacks = slackOf(steps, new Map([['5-6', 20]]), ALWAYS_OPEN)
  t.same(PUBLISHED.map(([id]) => slacks.get(id)), PUBLISHED.map(([, , , , latestStartMs, latestEndMs, slackMs]) => ({ latestStartMs, latestEndMs, slackMs })))
  t.same([...chainOf(slacks)].sort(), ['1-3', '3-4', '4-5', '5-6'], 'the published 1-3-4-5-6')
})

t.test('a night between two operations is no slack; curing over it leaves some, because it goes on without anybody', async (t) => {
  const dayToDay = [step('cut', 8, 16), step('sand', 32, 36, [{ id: 'cut', waitMs: 0 }])]
  const end = new Map([['sand', 36 * HOUR]])
  t.equal(slackOf(dayToDay, end, TWO_DAYS).get('cut')!.slackMs, 0)
  // Glued at noon, cured twelve hours later at midnight, sanded from eight on: the glue can be on four hours later, at 16:00, and 20:00 is shut.
  const cured = [step('glue', 8, 12), step('sand', 32, 36, [{ id: 'glue', waitMs: 12 * HOUR }])]
  const glue = slackOf(cured, end, TWO_DAYS).get('glue')!
  t.equal(glue.slackMs, 4 * HOUR)
  t.equal(glue.latestEndMs, 20 * HOUR)
  t.equal(slackOf(cured, new Map([['sand', 34 * HOUR]]), TWO_DAYS).get('sand')!.slackMs, -2 * HOUR, 'too late for its date')
  t.notOk(slackOf([...cured, step('other', 8, 9)], end, TWO_DAYS).has('other'), 'nothing waits for it')
})

t.test('what has begun before what it waits for binds nobody', async (t) => {
  const steps = [step('wire', 10, 14), step('fit', 8, 12, [{ id: 'wire', waitMs: 0 }])]
  t.same([...slackOf(steps, new Map([['fit', 12 * HOUR], ['wire', 14 * HOUR]]), TWO_DAYS)].map(([id, { slackMs }]) => [id, slackMs]).sort(), [['fit', 0], ['wire', 0]])
})

t.test('in a plan one waits for another by person, machine and bay', async (t) => {
  const work = (id: string, buildId: string, [from, to]: readonly [number, number], more: Partial<TakingWork> = {}): TakingWork =>
    ({ id, buildId, startMs: from, endMs: to, personIds: [], bayId: null, machineId: null, ...more })
  const links = linksByTaking([
    work('late', 'B', [20, 24], { personIds: ['ann'], bayId: 'one' }), work('first', 'A', [0, 4], { personIds: ['ann', 'bo'], bayId: 'one' }),
    work('second', 'A', [6, 8], { personIds: ['bo'], bayId: 'one' }), work('mill', 'A', [8, 9], { personIds: ['bo'], machineId: 'mill' }), work('none', 'A', [9, 9], { personIds: ['bo'] }),
  ], [{ buildId: 'B', bayId: 'one', fromMs: 18, toMs: 30 }, { buildId: 'A', bayId: 'one', fromMs: 0, toMs: 10 }])
  t.same(links.map(({ before, after, by }) => `${before} ${by} ${after}`).sort(), [
    'first bay late', 'first person late', 'first person second', 'second bay late', 'second person mill',
  ])
})

t.test('a week’s load is what is planned against who is there; two skills count twice, in the shop once', async (t) => {
  // Worked by hand, common practice, no source: Ann (wood, finish) 40 h, Bo (wood) 32 h; two of them 5 h on one job, Ann 20 h on another.
  const week = { fromMs: 0, toMs: 168 * HOUR }
  const hours = (...pairs: (readonly [number, number])[]) => pairs.map(([from, to]) => ({ fromMs: from * HOUR, toMs: to * HOUR }))
  const people = [{ id: 'ann', departmentIds: ['wood', 'finish'], hours: hours([0, 40], [168, 170]) }, { id: 'bo', departmentIds: ['wood'], hours: hours([0, 32]) }]
  const work = [
    { buildId: 'A', departmentId: 'wood', people: 2, hours: hours([0, 5]) },
    { buildId: 'B', departmentId: 'finish', people: 1, hours: hours([5, 25], [167, 171]) },
  ]
  const inHours = (department: string | null) => loadOf([week], work, people, department).map(({ plannedS, thereS }) => [plannedS / 3600, thereS / 3600])
  t.same(inHours('wood'), [[10, 72]])
  t.same(inHours('finish'), [[21, 40]], 'of the last stretch one hour lies in the week')
  t.same(inHours(null), [[31, 72]])
})
