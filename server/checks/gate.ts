import { counted } from '../../web/shared/text.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { invalid } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { checkOf } from './checked.ts'

const MOST_NAMED = 6
const PAGE = 'Final check'

/** A vehicle leaves only when every point of its final check is settled and the check is signed. Throws with what is open. */
export async function refuseUnchecked(client: Reads | Write, buildId: string | null): Promise<void> {
  if (buildId === null) throw invalid('stage', 'A new build cannot be delivered already. Enter it at an earlier stage, then answer and sign its final check; a manager may let points pass and say why.')
  const { unsettled, signedAt, stored: { build } } = await checkOf(client, buildId)
  const help = { href: `/builds/${buildId}/final-check`, name: PAGE }
  const number = label('B', build.number)
  if (unsettled.length > 0) {
    const named = unsettled.slice(0, MOST_NAMED).map(({ title, words }) => `${title} (${inShort(words)})`)
    const more = unsettled.length > MOST_NAMED ? `; and ${unsettled.length - MOST_NAMED} more` : ''
    throw invalid('stage', `${number} cannot be delivered: ${counted(unsettled.length, 'point of its final check is', 'points of its final check are')} open: ${named.join('; ')}${more}.`, help)
  }
  if (signedAt === null) throw invalid('stage', `${number} cannot be delivered: every point of its final check is settled, and nobody has signed it yet.`, help)
}

const LONGEST = 120
const inShort = (words: string): string => (words.length > LONGEST ? `${words.slice(0, LONGEST)} …` : words)
