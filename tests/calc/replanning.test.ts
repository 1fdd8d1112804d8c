import t from 'tap'
import fc from 'fast-check'
import { checkSchedule } from '../../server/calc/schedule/checkSchedule.ts'
import { compile } from '../../server/calc/schedule/compiled.ts'
import { newPlacing } from '../../server/calc/schedule/placing.ts'
import { comparePlans, type ComparedPlan, type PlannedHere } from '../../server/calc/schedule/planDifference.ts'
import { toSchedule } from '../../server/calc/schedule/search.ts'
import { placeBoldly } from '../../server/calc/schedule/serial.ts'
import { toShopProblem } from '../../server/calc/schedule/shopProblem.ts'
import { HAPPENINGS, openWeek } from '../support/replannedWeek.ts'

t.test('whatever happens in a week, the plan made anew can be worked, what goes on stays, and nobody’s today changes unsaid', async () => {
  fc.assert(fc.property(fc.commands([...HAPPENINGS], { maxCommands: 8 }), (commands) => {
    fc.modelRun(() => ({ model: {}, real: openWeek() }), commands)
  }), { seed: 6, numRuns: 15 })
})

const at = (clock: string): string => `2031-03-${clock.length > 5 ? clock : `04T${clock}`}:00.000Z`
const work = (operationId: string, from: string, to: string, more: Partial<PlannedHere> = {}): PlannedHere =>
  ({ operationId, buildId: 'B', name: operationId, startsAt: at(from), endsAt: at(to), hours: from === to ? [] : [{ fromAt: at(from), toAt: at(to) }], personIds: ['Ann'], bayId: null, isRunning: false, ...more })
const plan = (fromAt: string, list: readonly PlannedHere[], leftOut: readonly string[] = []): ComparedPlan => ({ fromAt: at(fromAt), builds: [], work: list, leftOut: leftOut.map((operationId) => ({ operationId })) })
const DAY_ENDS = at('05T00:00')

t.test('two plans are told apart operation by operation, and by whose day it is', async (t) => {
  const before = plan('08:00', [work('kept', '08:00', '09:00'), work('to Bo', '09:00', '10:00'), work('an hour on', '10:00', '11:00'), work('longer', '13:00', '14:00'), work('tomorrow', '05T08:00', '05T09:00'), work('out', '15:00', '16:00'), work('away', '08:00', '08:00')])
  const after = plan('08:00', [
    work('kept', '08:00', '09:00'), work('to Bo', '09:00', '10:00', { personIds: ['Bo'] }), work('an hour on', '11:00', '12:00'), work('longer', '13:00', '15:00'), work('tomorrow', '05T10:00', '05T11:00'),
    work('new', '15:00', '16:00'), work('away', '08:15', '08:15'),
  ], ['out'])
  const { work: told, today } = comparePlans(before, after, DAY_ENDS)
  t.same(told.map(({ is, before: old, after: now }) => `${(now ?? old)!.operationId}: ${is}`), ['to Bo: moved', 'an hour on: moved', 'longer: longer', 'new: new', 'tomorrow: moved', 'out: left out'])
  t.same(today.map(({ personId, operationId }) => `${personId}: ${operationId}`).sort(), ['Ann: an hour on', 'Ann: new', 'Ann: out', 'Ann: to Bo', 'Bo: to Bo'], 'longer is no other day; tomorrow is not today')
})

t.test('a quarter hour later, as the clock goes on, is no other day; earlier, or more, is', async (t) => {
  const before = plan('08:00', [work('late', '08:00', '09:00'), work('next', '09:00', '10:00'), work('early', '10:00', '11:00'), work('more', '11:00', '12:00')])
  const after = plan('08:15', [work('late', '08:15', '09:15'), work('next', '09:15', '10:15'), work('early', '09:45', '10:45'), work('more', '11:30', '12:30')])
  t.same(comparePlans(before, after, DAY_ENDS).today.map(({ operationId }) => operationId), ['early', 'more'])
})

t.test('a vehicle that is finished at once takes the work at the bench between along, once', async (t) => {
  const { problem } = toShopProblem(openWeek().facts)
  const compiled = compile(problem)
  const placing = newPlacing(compiled)
  // The bench work of each build is asked for before what comes before it.
  const order = Int32Array.from([...problem.activities.keys()].sort((one, other) => Number(problem.activities[other]!.stay === null) - Number(problem.activities[one]!.stay === null)))
  t.ok(placeBoldly(compiled, order, placing))
  t.same(checkSchedule(problem, toSchedule(compiled, placing, { delay: 0, ends: 0 })).filter((fault) => !fault.includes('delay')), [])
})
