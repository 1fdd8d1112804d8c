import type { Reads, Write } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

const STANDING = { removedAt: null } as const
const PHOTO = { id: true, hash: true, width: true, height: true, caption: true, moment: true, subjectKind: true, removedAt: true } as const

const TOLD = {
  id: true, number: true, title: true, kind: true, deliveredOn: true,
  vehicle: { select: { make: true, model: true, year: true, body: true } },
  photos: { where: STANDING, orderBy: { createdAt: 'asc' }, select: PHOTO },
  parts: { where: STANDING, orderBy: { number: 'asc' }, select: { id: true, number: true, name: true, family: true, quantity: true, finishes: { where: STANDING, select: { kind: true, material: true, color: true } } } },
  operations: { where: { visitId: null }, select: { id: true, partId: true, removedAt: true, department: { select: { name: true } } } },
  needs: { where: { ...STANDING, partId: { not: null } }, select: { partId: true, material: { select: { name: true } } } },
  uses: { where: STANDING, select: { parentId: true, partId: true } },
  entries: { select: { id: true, operationId: true, personId: true, kind: true, seconds: true, correctsId: true, createdAt: true } },
  story: {
    select: {
      id: true, version: true, removedAt: true, entered: true, title: true, opening: true, closing: true, showsPeople: true, showsHours: true, showsMaterials: true,
      pictures: { orderBy: { position: 'asc' }, select: { photoId: true, moment: true, words: true } }, parts: { orderBy: { position: 'asc' }, select: { partId: true, words: true } },
    },
  },
} as const

export type StoredStory = Awaited<ReturnType<typeof loadStory>>

/** A build as its story is told of it. Throws a 404. */
export async function loadStory(client: Reads | Write, buildId: string) {
  const build = await client.build.findFirst({ where: { id: buildId, removedAt: null }, select: TOLD })
  if (!build) throw notFound('build')
  const shop = await client.shop.findFirst({ select: { name: true } })
  const people = await client.person.findMany({ where: { id: { in: build.entries.map(({ personId }) => personId) } }, select: { id: true, name: true } })
  return { build, shopName: shop?.name ?? '', people: new Map(people.map(({ id, name }) => [id, name])) }
}

/** The build of a story, for its link. */
export async function findStory(reads: Reads, id: string): Promise<{ id: string, buildId: string, title: string } | null> {
  return reads.buildStory.findFirst({ where: { id, removedAt: null }, select: { id: true, buildId: true, title: true } })
}

export async function listStories(reads: Reads, buildId: string): Promise<{ id: string, title: string }[]> {
  return reads.buildStory.findMany({ where: { buildId, removedAt: null }, select: { id: true, title: true } })
}

export interface Chosen {
  readonly pictures: readonly { readonly photoId: string, readonly moment: string, readonly words: string }[]
  readonly parts: readonly { readonly partId: string, readonly words: string }[]
}

/** Puts the chosen pictures and parts in the place of those before. */
export async function storeChosen(write: Write, storyId: string, { pictures, parts }: Chosen): Promise<void> {
  // Whoever chose from an older page is told.
  await write.buildStory.update({ where: { id: storyId }, data: { version: { increment: 1 } } })
  await write.storyPicture.deleteMany({ where: { storyId } })
  await write.storyPart.deleteMany({ where: { storyId } })
  await write.storyPicture.createMany({ data: pictures.map((picture, index) => ({ storyId, ...picture, position: index + 1 })) })
  // What is said of a picture here is true of it everywhere, where nobody said it before.
  for (const { photoId, moment } of pictures) await write.photo.updateMany({ where: { id: photoId, moment: '' }, data: { moment } })
  await write.storyPart.createMany({ data: parts.map((part, index) => ({ storyId, ...part, position: index + 1 })) })
}
