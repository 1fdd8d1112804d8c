import { findPrivate } from '../calc/privacy.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { invalid, Problem } from '../shared/problems.ts'
import type { Draft, Values } from '../shared/records/kind.ts'
import { listPrivate } from './privateStore.ts'

export async function checkStory(client: Reads | Write, { before, values }: Draft): Promise<Values> {
  const buildId = String(before?.buildId ?? values.buildId)
  if (!before && await client.buildStory.count({ where: { buildId } }) > 0) throw new Problem(409, 'There is a story already', 'A build has one story. Change that.')
  const hidden = await listPrivate(client, buildId, values.showsPeople === true)
  for (const field of ['title', 'opening', 'closing']) refusePrivate(field, String(values[field] ?? ''), hidden)
  return {}
}

/** Refuses words of a story that tell what is nobody else's business. */
export function refusePrivate(field: string, text: string, hidden: readonly string[]): void {
  const found = findPrivate(text, hidden)
  if (found !== null) throw invalid(field, `“${found}” is private: no name, plate, VIN, address or serial number stands in a story. Say it in other words.`)
}
