import { writeDay } from '../../web/shared/day.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { findClash } from '../calc/quotes/paperOptions.ts'
import { writeAccepted } from '../quotes/acceptedStore.ts'
import { totalsWith } from '../quotes/paperView.ts'
import { getRevision, listRevisions, standingAt, type StoredRevision } from '../quotes/revisionStore.ts'
import { shopOf } from '../shared/access.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { FieldProblems, Problem } from '../shared/problems.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { isLinkOpen, storeConsent } from './store.ts'

const LONGEST_NAME = 200
const LONGEST_NOTE = 1000

/** What was sent along with a yes or a no. */
export interface Given {
  readonly decision: string
  readonly typedName: string
  readonly hasRead: boolean
  /** The hash of what was before the customer's eyes. */
  readonly contentHash: string
  /** Numbers of the options said yes to. */
  readonly chosen: readonly number[]
  readonly note: string
}

export interface Way {
  readonly way: 'by link' | 'in the shop'
  readonly linkId: string | null
}

/**
 * Takes down the answer to a frozen paper: once, for good, and in the same write what the build says of its consent.
 * Throws FieldProblems beside the entries, and a 409 where the paper is no longer to be answered.
 */
export async function giveConsent(write: Write, revisionId: string, given: Given, { way, linkId }: Way, actor: Actor): Promise<StoredRevision> {
  const revision = await getRevision(write, revisionId)
  if (linkId !== null && !(await isLinkOpen(write, linkId, actor.now))) throw new Problem(409, 'This link is no longer good', 'It was withdrawn or has run out. Nothing was taken down. Ask the shop for a new one.')
  await refuseClosed(write, revision, actor.now)
  const { content, contentHash } = revision
  const { decision, typedName, note, chosen } = read(given, content, way)
  if (given.contentHash !== contentHash) throw new Problem(409, 'That is another revision', `What was before you is not ${content.number} as it was frozen. Nothing was taken down. Open it again and read it.`)
  const { netMinor, taxMinor } = decision === 'accepted' ? totalsWith(content, chosen) : { netMinor: 0, taxMinor: 0 }
  await storeConsent(write, {
    buildId: revision.buildId, revisionId, decision, typedName, contentHash, netMinor, taxMinor, way, linkId, note,
    chosen: content.options.filter(({ number }) => decision === 'accepted' && chosen.includes(number)).map(({ id }) => id), recordedById: way === 'in the shop' ? actor.personId : null,
  }, actor.now)
  await audit(write, actor, { action: `${decision} ${content.number}, ${way}, ${contentHash.slice(0, 12)}`, recordKind: 'build', recordId: revision.buildId })
  if (decision === 'accepted') await writeAccepted(write, revision.buildId, actor)
  return getRevision(write, revisionId)
}

function read(given: Given, { options }: StoredRevision['content'], way: Way['way']): { decision: 'accepted' | 'declined', typedName: string, note: string, chosen: number[] } {
  const problems: FieldProblem[] = []
  const [typedName, note] = [given.typedName.trim(), given.note.trim()]
  const isYes = given.decision === 'accepted'
  if (!isYes && given.decision !== 'declined') problems.push({ field: 'decision', message: 'Say yes or no: accepted or declined.' })
  if (typedName === '' || typedName.length > LONGEST_NAME) problems.push({ field: 'typedName', message: `The full name is needed, in 1 to ${LONGEST_NAME} characters: it counts as the signature.` })
  if (isYes && !given.hasRead) problems.push({ field: 'hasRead', message: way === 'by link' ? 'Tick that you have read it: nothing is agreed without that.' : 'Tick that the customer has read it: nothing is agreed without that.' })
  if (note.length > LONGEST_NOTE) problems.push({ field: 'note', message: `A note is at most ${LONGEST_NOTE} characters long.` })
  if (given.chosen.some((number) => !options.some((option) => option.number === number))) problems.push({ field: 'option', message: 'One of the options is not on this paper. Choose from those that are.' })
  const clash = findClash(options, given.chosen)
  if (clash) problems.push({ field: 'option', message: `“${clash[0].name}” and “${clash[1].name}” exclude each other: choose one of them, or none.` })
  if (problems.length > 0) throw new FieldProblems(problems)
  return { decision: isYes ? 'accepted' : 'declined', typedName, note, chosen: [...new Set(given.chosen)] }
}

/** Says why a paper can no longer be answered, and what to do. */
async function refuseClosed(write: Write, revision: StoredRevision, now: Date): Promise<void> {
  const { content, consent, buildId, withdrawnWhy, validUntil } = revision
  const { timeZone } = await shopOf(write as Reads)
  const standing = standingAt(revision, calendarDateIn(timeZone, now))
  const refused = (title: string, detail: string): Problem => new Problem(409, title, `${detail} Nothing was taken down.`)
  if (consent) throw refused('It has its answer already', `${content.number} was ${consent.decision} by ${consent.typedName} on ${writeDay(calendarDateIn(timeZone, consent.createdAt))} at ${clockTimeIn(timeZone, consent.createdAt)}.`)
  if (standing === 'withdrawn') throw refused('It was withdrawn', `The shop has withdrawn ${content.number}: ${withdrawnWhy}`)
  const all = await listRevisions(write, buildId)
  if (standing === 'superseded') {
    const newest = all.find(({ kind, changeOrderId, isReplaced }) => kind === revision.kind && changeOrderId === revision.changeOrderId && !isReplaced)
    throw refused('There is a newer one', `${content.number} was superseded by ${newest?.content.number ?? 'a newer one'}. Ask the shop for that.`)
  }
  if (standing === 'expired') throw refused('It is no longer good', `${content.number} was good until ${writeDay(validUntil)}. Ask the shop for a new one.`)
  const accepted = all.find((other) => other.kind === 'quote' && other.consent?.decision === 'accepted')
  if (revision.kind === 'quote' && accepted) throw refused('The quote is accepted', `${accepted.content.number} was accepted by ${accepted.consent?.typedName ?? ''}.`)
  if (revision.kind === 'change order' && !accepted) throw refused('The quote comes first', 'A change order changes an accepted quote, and none is accepted yet.')
}
