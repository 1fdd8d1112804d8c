import { randomUUID } from 'node:crypto'
import type { StoryForm } from '../../web/story/storyData.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { label } from '../shared/records/kind.ts'
import type { Body } from '../shared/records/submission.ts'
import { findPrivate } from '../calc/privacy.ts'
import { MOMENTS } from './records.ts'
import type { StoredStory } from './store.ts'

interface Again {
  readonly saved?: boolean
  readonly typed?: Body
  readonly problems?: readonly FieldProblem[]
}

const textIn = (body: Body, name: string): string => (typeof body[name] === 'string' ? body[name] : '')
const listIn = (body: Body, name: string): string[] => [body[name] ?? []].flat().map(String)

/** What a form of the page chose: its pictures and parts with their words. */
export function chosenIn(body: Body) {
  return {
    pictures: listIn(body, 'picture').map((photoId) => ({ photoId, moment: MOMENTS.find((one) => one === textIn(body, `moment.${photoId}`)) ?? 'after', words: textIn(body, `words.${photoId}`).trim() })),
    parts: listIn(body, 'part').map((partId) => ({ partId, words: textIn(body, `words.${partId}`).trim() })),
  }
}

/** The form of a story: as stored, as it would begin, or as it was typed. */
export function storyForm({ build }: StoredStory, hidden: readonly string[], { saved = false, typed, problems = [] }: Again): StoryForm {
  const { story } = build
  const page = `/builds/${build.id}`
  const chosen = typed ? chosenIn(typed) : story
  const text = (name: 'title' | 'opening' | 'closing', initial = ''): string => (typed ? textIn(typed, name) : story ? story[name] : initial)
  const shows = (name: 'showsPeople' | 'showsHours' | 'showsMaterials', initial: boolean): boolean => (typed ? textIn(typed, name) === 'true' : story ? story[name] : initial)
  const open = (words: string): string => (findPrivate(words, hidden) === null ? words : '')
  return {
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href: page }, { name: 'Story' }], number: label('B', build.number), buildTitle: build.title,
    action: `${page}/story`, key: randomUUID(), version: story?.version ?? 0, saved, problems,
    values: { title: text('title', open(build.title)), opening: text('opening'), closing: text('closing') },
    shows: { showsPeople: shows('showsPeople', false), showsHours: shows('showsHours', true), showsMaterials: shows('showsMaterials', true) },
    photos: build.photos.map(({ id, caption, moment }) => {
      const own = chosen?.pictures.find(({ photoId }) => photoId === id)
      return { id, caption, isChosen: own !== undefined, moment: own?.moment ?? (moment === '' ? 'during' : moment), words: own?.words ?? (typed ? textIn(typed, `words.${id}`) : open(caption)) }
    }),
    parts: build.parts.map(({ id, number, name }) => {
      const own = chosen?.parts.find(({ partId }) => partId === id)
      return { id, name: `${label('P', number)} ${name}`, isChosen: own !== undefined, words: own?.words ?? (typed ? textIn(typed, `words.${id}`) : '') }
    }),
    links: story === null ? [] : [{ name: 'Look at it', href: `${page}/story/preview` }, { name: 'Card to print', href: `${page}/story/card` }, { name: 'Share by link', href: `${page}/links` }],
  }
}
