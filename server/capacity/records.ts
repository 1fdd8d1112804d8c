import { writeDay } from '../../web/shared/day.ts'
import { invalid } from '../shared/problems.ts'
import { check, checks, clock, date, longText, reference, text, whole } from '../shared/records/field.ts'
import { defineKind, type Draft } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { checkHours, WEEKDAY_WORDS, WEEKDAYS } from '../shared/weekdays.ts'

const OF_SHOP = { place: 'settings', isOfBuild: false, seenBy: MANAGERS, changedBy: MANAGERS } as const

export const machine = defineKind({
  name: 'machine', plural: 'machines', path: 'machines', model: 'machine', ...OF_SHOP,
  fields: {
    name: text('Name', { isRequired: true }),
    count: whole('How many', 1, 99, { isRequired: true, initial: 1, isListed: true }),
    holdsWork: check('Work stays on it', { isListed: true, note: 'Through the night and while people are away, as a part clamped in a mill: nobody else has it until the operation is done.' }),
  },
  title: (row) => String(row.name), orderBy: [{ name: 'asc' }],
  holds: async (reads, row) => {
    const operations = await reads.operation.count({ where: { machineId: row.id, removedAt: null, state: { not: 'done' } } })
    return operations > 0 ? `${operations === 1 ? '1 open operation needs' : `${operations} open operations need`} it. Take it off first.` : null
  },
  firstStep: { why: 'What only one operation can have at a time is planned like a person.', example: 'Mill; 3D printer, 2 of them.' },
})

export const outsideFinisher = defineKind({
  name: 'outside finisher', plural: 'outside finishers', path: 'outside-finishers', model: 'outsideFinisher', ...OF_SHOP,
  fields: {
    name: text('Name', { isRequired: true }),
    does: text('Does', { isListed: true, note: 'Anodizing, powder coat, plating, paint, machining.' }),
    leadDays: whole('Working days it takes', 0, 250, { isRequired: true, isListed: true, note: 'From arrival until it is done, counted in their working days.' }),
    shipDays: whole('Working days each way', 0, 60, { isRequired: true, initial: 0, isListed: true, note: 'Shipping there, and as much back.' }),
    workdays: checks('Their working days', WEEKDAYS, { words: WEEKDAY_WORDS, isRequired: true, initial: '1,2,3,4,5' }),
    sendsOn: checks('A batch leaves on', WEEKDAYS, { words: WEEKDAY_WORDS, note: 'What is ready by then goes together. None chosen: every working day of theirs.' }),
    note: longText('Note'),
  },
  title: (row) => String(row.name), orderBy: [{ name: 'asc' }],
  check: async (_write, { values }) => {
    const stray = String(values.sendsOn ?? '').split(',').find((day) => day !== '' && !String(values.workdays).split(',').includes(day))
    if (stray !== undefined) throw invalid('sendsOn', `${WEEKDAY_WORDS[stray]} is no working day of theirs. Choose among those, or none.`)
    return undefined
  },
  holds: async (reads, row) => {
    const operations = await reads.operation.count({ where: { finisherId: row.id, removedAt: null, state: { not: 'done' } } })
    return operations > 0 ? `${operations === 1 ? '1 open operation goes' : `${operations} open operations go`} to it. Take it off first.` : null
  },
  firstStep: { why: 'What goes out comes back in days or weeks, and everything after it waits.', example: 'An anodizer: nine working days, one each way, a batch on Tuesdays.' },
})

const toLastDay = { note: 'Left empty: that one day.' }

export const closing = defineKind({
  name: 'closing', plural: 'closings', path: 'closings', model: 'closing', ...OF_SHOP,
  fields: {
    name: text('What for', { isRequired: true, note: 'Stocktaking, summer break, the lift is inspected.' }),
    fromOn: date('From', { isRequired: true, isListed: true }),
    toOn: date('To, that day included', { isListed: true, ...toLastDay }),
    bayId: reference('Only this bay', 'bay', { isListed: true, note: 'Left empty, all three: the whole shop is closed.' }),
    machineId: reference('Only this machine', 'machine', { isListed: true }),
    finisherId: reference('Only this outside finisher', 'outside finisher', { isListed: true }),
  },
  title: (row) => `${String(row.name)}, ${writeDay(String(row.fromOn))}`, orderBy: [{ fromOn: 'desc' }, { id: 'asc' }],
  check: async (_write, draft) => {
    if (['bayId', 'machineId', 'finisherId'].filter((name) => typeof draft.values[name] === 'string').length > 1) {
      throw invalid('machineId', 'A closing is of one bay, one machine or one outside finisher, or of the whole shop. Enter one for each.')
    }
    return lastDayOf(draft)
  },
  firstStep: { why: 'Nothing is planned while the shop, a bay, a machine or a finisher is closed.', example: 'Summer break, two weeks; bay 2, the lift is inspected.' },
})

export const absence = defineKind({
  name: 'absence', plural: 'absences', path: 'absences', model: 'absence', ...OF_SHOP,
  fields: {
    personId: reference('Who', 'person', { isRequired: true, isListed: true, note: 'Why somebody is away is not asked and not kept.' }),
    fromOn: date('From', { isRequired: true, isListed: true }),
    toOn: date('To, that day included', { isListed: true, ...toLastDay }),
    fromAt: clock('Only from', { note: 'As 13:00. Left empty: the whole of each day.' }),
    toAt: clock('Only until'),
  },
  title: ({ fromOn, toOn }) => `Away ${writeDay(String(fromOn))}${toOn === fromOn ? '' : ` to ${writeDay(String(toOn))}`}`, orderBy: [{ fromOn: 'desc' }, { id: 'asc' }],
  check: async (_write, draft) => {
    checkHours(draft.values, { from: 'fromAt', to: 'toAt' })
    return lastDayOf(draft)
  },
  firstStep: { why: 'Nobody is planned for while away.', example: 'Tuesday, the whole day; every day of next week until noon.' },
})

function lastDayOf({ values }: Draft): { readonly toOn: string } {
  const toOn = String(values.toOn ?? values.fromOn)
  if (toOn < String(values.fromOn)) throw invalid('toOn', 'The last day is not before the first.')
  return { toOn }
}
