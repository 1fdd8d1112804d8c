import { formatMoney } from '../calc/money.ts'
import { totalsWith } from '../quotes/paperView.ts'
import type { StoredRevision } from '../quotes/revisionStore.ts'
import type { Actor } from '../shared/audit.ts'
import { isDuplicate, type Database } from '../shared/database/database.ts'
import { answerOnce, type Asked } from '../shared/once.ts'
import { FieldProblems, invalid, Problem } from '../shared/problems.ts'
import { problemsIn, type Sent } from './body.ts'
import { giveConsent, type Way } from './giving.ts'
import type { PaperAsked } from './paperData.ts'

/** What goes back to the page where a consent was not taken. */
export interface NotTaken {
  readonly status: number
  readonly again: Pick<PaperAsked, 'sent' | 'problems' | 'refused'>
}

/**
 * Takes a consent down once, or says why not. With other options than those whose total was before the reader, the new
 * total is shown first.
 */
export async function takeConsent(database: Database, revision: StoredRevision, sent: Sent, how: Way & { readonly asked: Asked, readonly actor: Actor }): Promise<NotTaken | null> {
  try {
    refuseOtherTotal(revision, sent)
    await writeOnce()
    return null
  } catch (error) {
    if (error instanceof FieldProblems) return { status: 422, again: { sent, problems: problemsIn(error.fields, sent) } }
    if (error instanceof Problem && [409, 422].includes(error.status)) return { status: 409, again: { sent, refused: { title: error.title, text: error.detail } } }
    throw error
  }

  async function writeOnce(): Promise<void> {
    const work = () => answerOnce(database, how.asked, async (write) => {
      await giveConsent(write, revision.id, sent.given, how, how.actor)
      return { status: 303 }
    })
    try {
      await work()
    } catch (error) {
      // Another process was first: looked at again, it says who.
      if (!isDuplicate(error)) throw error
      await work()
    }
  }
}

function refuseOtherTotal({ content }: StoredRevision, { given, seen }: Sent): void {
  if (given.decision !== 'accepted' || seen === null) return
  const { totalMinor } = totalsWith(content, given.chosen)
  if (totalMinor !== seen) throw invalid('option', `With these options the total is ${formatMoney(totalMinor, content.currency)}. Look at it below, and agree again.`)
}
