import type { FastifyRequest } from 'fastify'
import type { FirstStep } from '../../web/shared/empty.tsx'
import { withArticle } from '../../web/shared/text.ts'
import type { Role } from '../../web/shared/viewer.ts'
import type { Reads } from '../shared/database/database.ts'
import { delegate } from '../shared/database/delegate.ts'
import { getKind, type RecordKind } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { wasPlanned } from './firstDayStore.ts'

export const FIRST_DAY_COOKIE = 'putback-first-day'

/** Whether this browser has put the first steps away. */
export const areStepsAway = (request: FastifyRequest): boolean => request.cookies[FIRST_DAY_COOKIE] === 'no'

type Own = Partial<Pick<FirstStep, 'title' | 'why' | 'example' | 'href' | 'button'>>

/**
 * What a new shop enters, in the order in which one thing needs another. A step is done when the data
 * says so; there are none once everything is done, nor for those who may not enter it.
 */
export async function firstDaySteps(reads: Reads, role: Role): Promise<FirstStep[]> {
  if (!MANAGERS.includes(role)) return []
  const has = async (name: string, more = 0): Promise<boolean> =>
    (await delegate(reads, getKind(name).model).count({ where: { removedAt: null } })) > more
  const step = async (name: string, own: Own = {}, isDone?: boolean): Promise<FirstStep> =>
    ({ ...toStep(getKind(name)), ...own, isDone: isDone ?? (await has(name)) })
  const shop = await delegate(reads, 'shop').findFirst({ where: {} })
  const steps = [
    ...(getKind('shop').changedBy.includes(role) ? [await step('shop', { title: 'The shop', href: '/shop/shop/form', button: 'Set up the shop' }, (shop?.version ?? 1) > 1)] : []),
    await step('department', { title: 'Departments and skills', href: '/departments/usual', button: 'Enter departments' }),
    // Whoever opened the shop is a person already.
    await step('person', { button: 'Add a person' }, await has('person', 1)),
    await step('bay'),
    await step('catalog item', { title: 'Equipment', why: 'What is fitted again and again. A list from a spreadsheet can be imported; every row is shown first.', href: '/imports?kind=catalog', button: 'Import equipment' }),
    await step('material', { title: 'Materials', href: '/imports?kind=materials', button: 'Import materials' }),
    await step('standard fitting'),
    await step('customer', { title: 'The first customer' }),
    await step('vehicle', { title: 'The first vehicle' }),
    await step('build', { title: 'The first build or counter job', button: 'Begin a build' }),
    { title: 'The first plan', why: 'Who does what on which day, and when each build ends. It is proposed first, and changes nothing that is recorded.', example: 'Once a build has its operations with hours and skills.', href: '/schedule', button: 'To the schedule', isDone: await wasPlanned(reads) },
  ]
  return steps.every(({ isDone }) => isDone) ? [] : steps
}

function toStep(kind: RecordKind): FirstStep {
  const title = kind.plural.charAt(0).toUpperCase() + kind.plural.slice(1)
  return { title, ...kind.firstStep, href: `/${kind.path}/new`, button: `Add ${withArticle(kind.name)}` }
}
