import type { StoryData, ToldPart } from '../../web/story/storyData.ts'
import { writeHours } from '../../web/shared/amount.ts'
import { kindInWords } from '../../web/shared/buildKinds.ts'
import { capital } from '../../web/shared/text.ts'
import { findPrivate } from '../calc/privacy.ts'
import { chainEntries, type TimeKind } from '../calc/hours/timeEntries.ts'
import { inOrderWritten } from '../hours/store.ts'
import { MOMENTS } from './records.ts'
import type { StoredStory } from './store.ts'

type Stored = StoredStory['build']
type Work = ReturnType<typeof workOf>

/** The hours of work and rework on the build, by its operations; waiting is nobody's. */
function workOf({ operations, entries }: Stored): { operationId: string, personId: string, seconds: number }[] {
  const own = new Set(operations.map(({ id }) => id))
  const written = inOrderWritten(entries).map(({ id, operationId, personId, kind, seconds, correctsId }) => ({ id, operationId, personId, kind: kind as TimeKind, seconds, correctsId, partId: null, departmentId: null }))
  return chainEntries(written).flatMap(({ effective: { operationId, personId, kind, seconds } }) =>
    (operationId !== null && own.has(operationId) && kind !== 'waiting' && seconds > 0 ? [{ operationId, personId, seconds }] : []))
}

/** The story as anybody reads it. Words that tell something private, written before it was, are left out. */
export function tellStory({ build, shopName, people }: StoredStory, hidden: readonly string[], addressOf: (photo: { id: string, hash: string }, size: 'small' | 'large') => string): StoryData | null {
  const { story } = build
  if (!story || story.removedAt) return null
  const safe = (text: string): string => (findPrivate(text, hidden) === null ? text : '')
  const photos = new Map(build.photos.map((photo) => [photo.id, photo]))
  const work = workOf(build)
  const total = sum(work)
  return {
    shopName, title: safe(story.title) || 'A build', opening: safe(story.opening), closing: safe(story.closing),
    vehicle: [build.vehicle.make, build.vehicle.model].join(' '), kind: kindInWords(build.kind),
    moments: MOMENTS.map((moment) => ({
      moment, pictures: story.pictures.flatMap(({ photoId, words, moment: own }) => {
        const photo = photos.get(photoId)
        if (!photo || own !== moment) return []
        const { width, height } = photo
        return [{ src: addressOf(photo, 'small'), large: addressOf(photo, 'large'), words: safe(words), says: safe(words) || `${capital(moment)}: picture of the build`, width, height }]
      }),
    })).filter(({ pictures }) => pictures.length > 0),
    parts: story.parts.flatMap(({ partId, words }) => toPart(build, partId, safe(words), work, people)),
    hours: story.showsHours && total > 0 ? { total: `${writeHours(total)} h`, by: byDepartment(build, work) } : null,
    people: story.showsPeople ? firstNames(work, people) : [],
  }
}

const firstNames = (work: Work, people: StoredStory['people']): string[] => [...new Set(work.map(({ personId }) => (people.get(personId) ?? '').split(' ')[0] ?? ''))].filter((name) => name !== '').toSorted()
const sum = (work: readonly { seconds: number }[]): number => work.reduce((all, { seconds }) => all + seconds, 0)

function byDepartment({ operations }: Stored, work: Work): { name: string, hours: string }[] {
  const nameOf = new Map(operations.map(({ id, department }) => [id, department.name]))
  const names = [...new Set(work.map(({ operationId }) => nameOf.get(operationId) ?? ''))].toSorted()
  return names.map((name) => ({ name, hours: `${writeHours(sum(work.filter(({ operationId }) => nameOf.get(operationId) === name)))} h` }))
}

function toPart(build: Stored, partId: string, words: string, work: Work, people: StoredStory['people']): ToldPart[] {
  const { showsHours = false, showsMaterials = false, showsPeople = false } = build.story ?? {}
  const part = build.parts.find(({ id }) => id === partId)
  if (!part) return []
  const inside = withParts(build, partId)
  const own = new Set(build.operations.filter((operation) => operation.partId !== null && inside.has(operation.partId)).map(({ id }) => id))
  const ownWork = work.filter(({ operationId }) => own.has(operationId))
  const seconds = sum(ownWork)
  const materials = [...new Set(build.needs.filter((need) => need.partId !== null && inside.has(need.partId)).map(({ material }) => material.name))].toSorted()
  const finishes = part.finishes.map(({ kind, material, color }) => [color, material, kind].filter((word) => word !== '').join(' '))
  return [{
    name: part.quantity > 1 ? `${part.quantity} × ${part.name}` : part.name, family: part.family, words, people: showsPeople ? firstNames(ownWork, people) : [], hours: showsHours && seconds > 0 ? `${writeHours(seconds)} h` : '',
    materials: showsMaterials ? [...materials, ...finishes].join(', ') : '',
  }]
}

/** A part with all that goes into it. */
function withParts({ uses }: Stored, partId: string): ReadonlySet<string> {
  const found = new Set([partId])
  for (const id of found) for (const { parentId, partId: inner } of uses) if (parentId === id) found.add(inner)
  return found
}
