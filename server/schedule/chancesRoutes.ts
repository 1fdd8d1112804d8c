import { z } from 'zod'
import { ChancesPage, type ChancesData } from '../../web/schedule/chances.tsx'
import { addDays, isCalendarDate } from '../calc/calendar.ts'
import { shopOf, viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { instantOf } from '../shared/shopTime.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { chancesWorkings } from './chancesWorkings.ts'
import { STEPS_KEPT, type PlanContent } from './planContent.ts'
import { loadPlanInForce } from './planStore.ts'
import { dayWords } from './proposals.ts'

/** Chances of the plan in force, and of any day that is asked for. */
export function registerChances(app: App, { database: { reads } }: Shell): void {
  app.get('/schedule/chances', { config: { roles: MANAGERS }, schema: { hide: true, querystring: z.object({ on: z.string().trim().max(20).default(''), how }) } }, async (request, reply) => {
    const [inForce, { timeZone }] = [await loadPlanInForce(reads), await shopOf(reads)]
    if (request.query.how !== undefined && inForce !== null) {
      const trail = [{ name: 'Schedule', href: '/schedule' }, { name: 'Chances', href: '/schedule/chances' }]
      return sendWorking(reply, viewerOn(request), { workings: chancesWorkings(inForce.content, timeZone), how: request.query.how, place: 'schedule', trail })
    }
    return sendPage(reply, ChancesPage({ viewer: viewerOn(request), data: toChances(inForce?.content ?? null, request.query.on, timeZone) }))
  })
}

function toChances(content: PlanContent | null, on: string, timeZone: string): ChancesData {
  const isDay = isCalendarDate(on)
  const until = isDay ? instantOf(timeZone, addDays(on, 1), '00:00').toISOString() : ''
  const names = new Map(content?.work.map(({ operationId, name }) => [operationId, name]))
  return {
    on, problem: on === '' || isDay ? '' : 'Say the day, as 2031-03-04.',
    builds: (content?.builds ?? []).flatMap(({ buildId, name, chances, steps = [], drivers = [] }, place) => (chances === null || steps.length === 0 ? [] : [{
      place, name, href: `/builds/${buildId}/schedule`, dates: [chances.even, chances.in80, chances.in90].map((instant) => dayWords(instant, timeZone)), chance: isDay ? chanceWords(steps, until) : '',
      drivers: drivers.map(({ operationId, share }) => ({ what: names.get(operationId) ?? 'work of another build', share: `${Math.round(share / 10)} %`, href: `/schedule/late?operation=${operationId}` })),
    }])),
  }
}

/** Between the steps that are kept: 5 in 100 each. */
function chanceWords(steps: readonly string[], until: string): string {
  const share = 100 / (STEPS_KEPT + 1)
  const reached = steps.filter((step) => step <= until).length
  return reached === 0 ? `less than ${share} in 100` : reached === STEPS_KEPT ? `${STEPS_KEPT * share} in 100 or more` : `${reached * share} to ${(reached + 1) * share} in 100`
}
