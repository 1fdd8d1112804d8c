import t from 'tap'
import fc from 'fast-check'
import { HAPPENINGS, openWeek } from '../support/replannedWeek.ts'

t.test('three hundred weeks in which anything happens: each plan can be worked, and nobody’s today changes unsaid', async () => {
  fc.assert(fc.property(fc.commands([...HAPPENINGS], { maxCommands: 12 }), (commands) => {
    fc.modelRun(() => ({ model: {}, real: openWeek() }), commands)
  }), { seed: 61, numRuns: 300 })
})
