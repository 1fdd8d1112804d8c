import type { BuildTables, LineRow } from '../builds/tables.ts'
import { pick, type Random } from '../random.ts'
import type { ClosedJob } from './addHistory.ts'

const ALL_DONE = 99
const RECEIVED = -2
const CONSENT = -6
// Days between the promise and the delivery; above 0 it was late.
const LATE_BY = [0, 0, 0, 0, 1, 2, -1, -2] as const
const SMALLEST = 0.85
const LARGEST = 1.2

/** A recipe as the build it was, so many working days ago, every job a little larger or smaller. */
export function toTables({ recipe, day, number, vehicle, customer }: ClosedJob, random: Random): BuildTables {
  const sized = (size = 1): number => size * (SMALLEST + random() * (LARGEST - SMALLEST))
  const delivered = day + recipe.days
  return {
    number, vehicle,
    typed: { title: recipe.title, kind: recipe.kind, reason: recipe.reason, consentBy: consentOf(recipe.kind, customer) },
    dates: { consentOn: day + CONSENT, promisedOn: delivered - pick(random, LATE_BY), deliveredOn: delivered },
    stages: stagesOf(recipe.kind, day, delivered),
    manual: 'the vehicle maker’s manual, body chapter',
    zones: recipe.zones,
    bins: [`Store, shelf ${1 + (number % 12)}`],
    parts: (recipe.parts ?? []).map(({ zone, from, parts }) => ({
      zone, from: day + from, parts: parts.map((part) => ({ ...part, size: sized(part.size), done: ALL_DONE })),
    })),
    lines: recipe.lines.map((line) => ({
      ...line, size: sized(line.size), done: ALL_DONE, from: day + (line.from ?? 0), received: day + RECEIVED, serials: serialsOf(line, random),
    })),
    factory: recipe.factory.map((group) => ({
      ...group, day: day + group.day, ...(group.backDay === undefined ? {} : { backDay: day + group.backDay }),
      parts: group.parts.map(([key, name, take, fasteners, after, more = {}]) => [
        key, name, take, fasteners, after, { ...more, size: sized(more.size), done: ALL_DONE },
      ]),
    })),
    edges: recipe.edges ?? [], alterations: [], points: [], predecessors: recipe.predecessors ?? [], remarks: [],
  }
}

const consentOf = (kind: string, customer: string): string => (kind === 'counter job' ? `${customer}, at the counter` : `${customer}, signed estimate`)

function stagesOf(kind: string, day: number, delivered: number): BuildTables['stages'] {
  const before: BuildTables['stages'] = [['intake', day - 9], ['scope', day - 8], ['quote', day - 7], ['order', day + CONSENT]]
  if (kind === 'counter job') return [['intake', day + CONSENT], ['wire and check', day], ['delivered', delivered]]
  return [...before, ['teardown', day], ['fabricate', day + 1], ['wire and check', delivered - 2], ['deliver', delivered - 1], ['delivered', delivered]]
}

function serialsOf({ item, quantity = 1 }: LineRow, random: Random): string {
  if (!item) return 'none on it'
  return Array.from({ length: quantity }, () => `${item.toUpperCase()}-${Math.floor(10_000 + random() * 90_000)}`).join('\n')
}
