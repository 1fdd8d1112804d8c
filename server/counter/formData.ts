import { randomUUID } from 'node:crypto'
import type { CounterJobData } from '../../web/counter/counterJob.tsx'
import type { Option } from '../../web/shared/form.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import type { Reads } from '../shared/database/database.ts'
import { isId } from '../shared/records/field.ts'
import { label } from '../shared/records/kind.ts'
import type { Body } from '../shared/records/submission.ts'
import { LINES } from './forms.ts'
import { listOffered, MOST_OFFERED, type Offered } from './store.ts'

interface State {
  /** Whose job it is, where the form was opened from a customer or a vehicle. */
  readonly customerId?: string | undefined
  readonly vehicleId?: string | undefined
  readonly typed?: Body
  readonly problems?: readonly FieldProblem[]
  /** Nothing is wrong, something is odd. */
  readonly isAsked?: boolean
}

/** The form of a counter job, fresh or as it was typed. */
export async function jobForm(reads: Reads, viewer: Viewer, { customerId, vehicleId, typed, problems = [], isAsked = false }: State): Promise<CounterJobData> {
  const chosen = [vehicleId, typed?.vehicleId, typed?.customerId].filter(isId)
  const offered = await listOffered(reads, customerId ?? null, chosen)
  const only = customerId && offered.vehicles.length === 1 ? offered.vehicles[0]?.id : undefined
  const fresh: Body = {
    vehicleId: vehicleId ?? only ?? '', customerId: vehicleId ?? only ? '' : (customerId ?? ''), energy: 'fuel', promisedOn: viewer.today,
    bayId: freeBay(offered), ...Object.fromEntries(LINES.map((at) => [`quantity${at}`, '1'])),
  }
  const values = typed ?? fresh
  return {
    action: '/counter-jobs', key: typeof typed?._key === 'string' ? typed._key : randomUUID(), problems, isAsked: isAsked || typed?.isMeant === 'true', currency: viewer.currency,
    value: (name) => String(values[name] ?? ''),
    vehicles: offered.vehicles.map(({ id, number, make, model, year, customer }) => ({
      value: id, label: `${customer.name}: ${[make, model, year].filter(Boolean).join(' ')}, ${label('V', number)}`,
    })).toSorted(byLabel),
    customers: offered.customers.map(({ id, number, name }) => ({ value: id, label: `${name}, ${label('C', number)}` })).toSorted(byLabel),
    fittings: offered.fittings.map(({ id, name, setUp, run }) => ({ value: id, label: `${name}: ${hoursOf(setUp, run)}` })),
    items: offered.items.map(({ number, maker, model }) => `${label('K', number)} ${maker} ${model}`),
    bays: offered.bays.map(({ id, name }) => ({ value: id, label: standsIn(offered, id) === '' ? name : `${name}: ${standsIn(offered, id)}` })),
    isCut: offered.vehicles.length >= MOST_OFFERED || offered.customers.length >= MOST_OFFERED,
    lines: LINES,
  }
}

const byLabel = (a: Option, b: Option): number => a.label.localeCompare(b.label, 'en')

/** @example hoursOf(1800, 2700) // '0.5 h + 0.75 h each' */
function hoursOf(setUp: number, run: number): string {
  const written = (seconds: number): string => `${writeHours(seconds, 2).replace(/0$/, '')} h`
  return [setUp === 0 ? '' : written(setUp), run === 0 ? '' : `${written(run)} each`].filter((part) => part !== '').join(' + ')
}

const standsIn = ({ standing }: Offered, bay: string): string =>
  standing.filter(({ bayId }) => bayId === bay).map(({ number }) => label('B', number)).join(', ')

const freeBay = (offered: Offered): string => offered.bays.find(({ id }) => standsIn(offered, id) === '')?.id ?? ''
