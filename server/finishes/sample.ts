import { randomUUID } from 'node:crypto'
import type { SampleData } from '../../web/finishes/sample.tsx'
import type { HistoryEntry } from '../../web/shared/history.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import type { Row } from '../shared/database/delegate.ts'
import type { Body } from '../shared/records/submission.ts'
import { COUNTER } from '../shared/roles.ts'
import { DECISIONS } from './acts.ts'

interface Again {
  readonly typed: Body
  readonly problems: readonly FieldProblem[]
}

/** Where the sample stands and what this viewer can do about it. */
export function toSample(row: Row, history: readonly HistoryEntry[], viewer: Viewer, again?: Again): SampleData {
  const state = String(row.sampleState)
  const isApproved = state === 'approved'
  return {
    state: stateInWords(row), isApproved, takenBack: takenBack(state, history),
    scheduleHref: `/builds/${String(row.buildId)}/finishes`,
    shown: isApproved || state === 'sample shown' ? undefined : { action: `/finishes/${row.id}/samples`, idempotencyKey: randomUUID() },
    form: COUNTER.includes(viewer.role) ? {
      action: `/finishes/${row.id}/approvals`, key: text(again?.typed._key) || randomUUID(),
      typed: { decision: text(again?.typed.decision) || 'approved', by: text(again?.typed.by), on: again ? text(again.typed.on) : viewer.today, why: text(again?.typed.why) },
      decisions: [...DECISIONS], problems: again?.problems ?? [],
    } : undefined,
  }
}

const text = (raw: unknown): string => (typeof raw === 'string' ? raw : '')

function stateInWords({ sampleState, approvedBy, approvedOn, refusal }: Row): string {
  const when = typeof approvedOn === 'string' ? `, ${writeDay(approvedOn)}` : ''
  if (sampleState === 'approved') return `Approved by ${String(approvedBy)}${when}.`
  if (sampleState === 'refused') return `Refused by ${String(approvedBy)}${when}: ${String(refusal)}`
  return sampleState === 'sample shown' ? 'The sample was shown; the customer has not decided yet.' : 'No sample has been shown yet.'
}

// Told until a new sample is shown.
function takenBack(state: string, history: readonly HistoryEntry[]): string {
  const last = history.find(({ action }) => action.startsWith('approval taken back'))
  return state === 'no sample yet' && last ? `The a${last.action.slice(1)}, ${last.who}, ${last.when}.` : ''
}
