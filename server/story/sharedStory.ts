import { SharedStoryPage } from '../../web/story/story.tsx'
import { defineSharedPage } from '../shared/links/sharedPages.ts'
import type { Reads } from '../shared/database/database.ts'
import { MANAGERS } from '../shared/roles.ts'
import { listPrivate } from './privateStore.ts'
import { findStory, listStories, loadStory } from './store.ts'
import { tellStory } from './told.ts'

const LONGEST_DAYS = 3_653

/** The story of a build can be read by link; its pictures are served through that link alone. */
export function registerSharedStory(): void {
  defineSharedPage({
    subjectKind: 'build story', roles: MANAGERS, longestDays: LONGEST_DAYS,
    list: async (reads, buildId) => (await listStories(reads, buildId)).map(({ id, title }) => ({ id, name: `build story, ${title.slice(0, 80)}` })),
    draw: async ({ reads, subjectId, base }) => {
      const found = await findStory(reads, subjectId)
      if (!found) return null
      const hidden = await hiddenOf(reads, found.buildId)
      const data = tellStory(await loadStory(reads, found.buildId), hidden, ({ hash }, size) => `${base}/photos/${hash}${size === 'small' ? '?size=small' : ''}`)
      return data && SharedStoryPage({ data })
    },
    photoHashes: async ({ reads, subjectId }) => {
      const found = await findStory(reads, subjectId)
      if (!found) return []
      const { build } = await loadStory(reads, found.buildId)
      const chosen = new Set(build.story?.pictures.map(({ photoId }) => photoId))
      return build.photos.filter(({ id }) => chosen.has(id)).map(({ hash }) => hash)
    },
  })
}

/** What the story of a build must not tell now, by what it says of people. */
export async function hiddenOf(reads: Reads, buildId: string): Promise<string[]> {
  const { build } = await loadStory(reads, buildId)
  return listPrivate(reads, buildId, build.story?.showsPeople ?? false)
}
