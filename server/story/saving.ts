import { audit, type Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { FieldProblems, invalid } from '../shared/problems.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { changeRecord, createRecord, getRecord, type Submitted } from '../shared/records/table.ts'
import { findPrivate } from '../calc/privacy.ts'
import { listPrivate } from './privateStore.ts'
import { buildStory } from './records.ts'
import { loadStory, storeChosen, type Chosen } from './store.ts'

const LONGEST_WORDS = 200

/** Saves a story with the pictures and parts that were chosen; words that tell something private are refused beside their picture. */
export async function saveStory(write: Write, buildId: string, submitted: Submitted, chosen: Chosen, version: number | null, actor: Actor): Promise<Row> {
  const { build } = await loadStory(write, buildId)
  refuseStrange(chosen, build)
  const hidden = await listPrivate(write, buildId, submitted.values.showsPeople === true)
  const problems = [...chosen.pictures.map(({ photoId, words }) => [photoId, words] as const), ...chosen.parts.map(({ partId, words }) => [partId, words] as const)]
    .flatMap(([id, words]): FieldProblem[] => problemIn(id, words, hidden))
  if (problems.length > 0) throw new FieldProblems(problems)
  const there = build.story
  const row = there === null ? await createRecord(write, buildStory, buildId, submitted, actor) : await changeRecord(write, buildStory, there.id, version ?? there.version, submitted, actor)
  if (there !== null && isSame(there, chosen)) return row
  await storeChosen(write, row.id, chosen)
  const told = `${chosen.pictures.length} pictures, ${chosen.parts.length} parts`
  await audit(write, actor, { action: 'chose', recordKind: buildStory.name, recordId: row.id, changes: [{ field: 'Shown', before: there === null ? null : `${there.pictures.length} pictures, ${there.parts.length} parts`, after: told }] })
  return getRecord(write, buildStory, row.id)
}

const isSame = (there: Chosen, chosen: Chosen): boolean => JSON.stringify(inOrder(there)) === JSON.stringify(inOrder(chosen))
const inOrder = ({ pictures, parts }: Chosen) => [pictures.map(({ photoId, moment, words }) => [photoId, moment, words]), parts.map(({ partId, words }) => [partId, words])]

function problemIn(id: string, words: string, hidden: readonly string[]): FieldProblem[] {
  const field = `words.${id}`
  if (words.length > LONGEST_WORDS) return [{ field, message: `Words to a picture or part are at most ${LONGEST_WORDS} characters long.` }]
  const found = findPrivate(words, hidden)
  return found === null ? [] : [{ field, message: `“${found}” is private and stands in no story. Say it in other words.` }]
}

function refuseStrange({ pictures, parts }: Chosen, build: { photos: readonly { id: string }[], parts: readonly { id: string }[] }): void {
  const photo = pictures.find(({ photoId }) => !build.photos.some(({ id }) => id === photoId))
  if (photo) throw invalid('pictures', 'There is no such photo of this build, or it was taken away. Choose from the list.')
  const part = parts.find(({ partId }) => !build.parts.some(({ id }) => id === partId))
  if (part) throw invalid('parts', 'There is no such made part in this build. Choose from the list.')
}
