import { z } from 'zod'
import type { LearnedRatio } from '../calc/estimate/hourHistory.ts'
import type { Reads } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'
import { loadBuildHistory } from './buildData.ts'
import { ratioText } from './words.ts'

/** What is accepted: the kind, the department, and the ratio as it stood on the page. */
export const wantedRatio = z.looseObject({
  kind: z.string('Say which kind of operation.').min(1).max(100),
  departmentId: z.uuid('Say which department.'),
  ratio: z.coerce.number('Send the ratio you read.').int('Send the ratio in thousandths.').min(1).max(1_000_000).describe('As it was read, thousandths: nobody accepts a ratio unseen'),
})
export type WantedRatio = z.infer<typeof wantedRatio>

/** The ratio as it stands now. Refuses one that the build has no operation for, that stands on nothing, or that has moved since it was read. */
export async function currentRatio(reads: Reads, buildId: string, { kind, departmentId, ratio }: WantedRatio): Promise<LearnedRatio> {
  const { offered } = await loadBuildHistory(reads, buildId)
  const found = offered.find((each) => each.kind === kind && each.departmentId === departmentId)
  const learned = found?.learned ?? null
  if (!found || learned === null || learned.records === 0) {
    throw new Problem(409, 'Nothing to accept', 'The shop has no records of such operations, or the build has none that is open. Nothing was changed.')
  }
  if (learned.ratio !== ratio) {
    throw new Problem(409, 'The ratio has moved', `It stood at ${ratioText(ratio)} × when you read it and stands at ${ratioText(learned.ratio)} × now, from ${learned.records} records. Nothing was changed. Open the page again and decide on that.`)
  }
  return learned
}
