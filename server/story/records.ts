import { check, longText, text } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { checkStory } from './rules.ts'

export const MOMENTS = ['before', 'during', 'after'] as const

export const buildStory = defineKind({
  name: 'build story', plural: 'build stories', path: 'build-stories', model: 'buildStory', place: 'builds', isOfBuild: true, isSingle: true,
  fields: {
    title: text('Title', { isRequired: true, isListed: true, note: 'No name of the customer, no plate: anybody may read it.' }),
    opening: longText('Opening'),
    closing: longText('Closing'),
    showsPeople: check('First names of who worked on it', { note: 'Only with each person’s consent.' }),
    showsHours: check('Hours', { initial: true }),
    showsMaterials: check('Materials', { initial: true }),
  },
  seenBy: MANAGERS, changedBy: MANAGERS, title: (row) => String(row.title), check: checkStory,
  firstStep: { why: 'What the shop shows of a build.', example: 'A field office in a wagon, with pictures before, during and after.' },
})
