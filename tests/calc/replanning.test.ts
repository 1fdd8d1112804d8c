import t from 'tap'
import fc from 'fast-check'
import { HAPPENINGS, openWeek } from '../support/replannedWeek.ts'

t.test('whatever happens in a week, the plan made anew can be worked, what goes on stays, and nobody’s today changes unsaid', async () => {
  fc.assert(fc.property(fc.commands([...HAPPENINGS], { maxCommands: 8 }), (commands) => {
    fc.modelRun(() => ({ model: {}, real: openWeek() }), commands)
  }), { seed: 6, numRuns: 15 })
})
