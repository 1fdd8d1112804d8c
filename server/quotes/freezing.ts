import { figuresOf, type BuildFigures } from '../builds/figures.ts'
import { loadBuild, type StoredBuild } from '../builds/store.ts'
import { shopOf } from '../shared/access.ts'
import type { Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { hashOfPaper } from './content.ts'
import { toDraft, whatHinders, type QuoteDraft } from './draft.ts'
import { listRevisions, nextRevision, storeRevision } from './revisionStore.ts'
import { loadQuote, type StoredQuote } from './store.ts'

export interface DrawnQuote {
  readonly stored: StoredQuote
  readonly recorded: StoredBuild
  readonly figures: BuildFigures
  readonly draft: QuoteDraft
}

/** The quote of a build as it would be frozen now. Throws a 404, and a 409 where the build's figures cannot be made. */
export async function drawQuote(client: Reads | Write, buildId: string, by: Pick<Actor, 'personName' | 'now'>): Promise<DrawnQuote> {
  const stored = await loadQuote(client, buildId)
  const recorded = await loadBuild(client as Reads, buildId)
  const figures = figuresOf(recorded)
  const { timeZone } = await shopOf(client as Reads)
  const revision = await nextRevision(client, buildId, 'quote')
  const [last] = await listRevisions(client, buildId, 'quote')
  const draft = toDraft(stored, figures, { today: calendarDateIn(timeZone, by.now), createdBy: by.personName, revision, replaces: last?.content.number ?? '' })
  return { stored, recorded, figures, draft }
}

/**
 * Freezes the quote of a build as its next revision. Throws a 409 where something hinders it, where a revision was
 * accepted, or where it is no longer what was looked at (`seen`, its fingerprint).
 */
export async function freezeQuote(write: Write, buildId: string, seen: string | undefined, actor: Actor): Promise<string> {
  const accepted = (await listRevisions(write, buildId, 'quote')).find(({ consent }) => consent?.decision === 'accepted')
  if (accepted) throw new Problem(409, 'The quote is accepted', `${accepted.content.number} was accepted by ${accepted.consent?.typedName ?? 'the customer'}. What changes from here on is a change order, with its own consent.`)
  const { draft: { content } } = await drawQuote(write, buildId, actor)
  const hindered = whatHinders(content)
  if (hindered.length > 0) throw new Problem(409, 'It cannot be frozen yet', hindered.join(' '))
  if (seen !== undefined && seen !== fingerprintOf(content)) throw new Problem(409, 'The quote has changed', 'Since you looked at it, something in the build or the quote was changed. Look at it again, then freeze it.')
  return storeRevision(write, { buildId, changeOrderId: null, content }, actor)
}

/** What ties a press to the draft that was looked at; whoever presses may be another than who looked. */
export const fingerprintOf = (content: QuoteDraft['content']): string => hashOfPaper(JSON.stringify({ ...content, createdBy: '' }))
