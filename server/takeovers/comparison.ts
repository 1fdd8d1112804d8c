import type { ComparedRow, ComparisonData, HoursBeside } from '../../web/takeovers/comparison.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { costingHours } from './hoursOf.ts'
import type { Row } from '../shared/database/delegate.ts'
import { label } from '../shared/records/kind.ts'
import { ownerOf } from './keys.ts'
import { differencesOf, pairUp, type Pair } from './pairs.ts'
import type { TemplateBuild } from './store.ts'
import type { Source } from './takeover.ts'
import type { Table } from './tables.ts'

/** Above this only one zone at a time shows its operations. */
const MOST_OPERATIONS = 80

interface Compared {
  readonly there: Source
  readonly here: Source
  readonly sources: readonly TemplateBuild[]
  readonly zoneId: string | null
  readonly isSaved: boolean
}

/** A build beside the one it was taken from, line by line. */
export function toComparison({ there, here, sources, zoneId, isSaved }: Compared, viewer: Viewer): ComparisonData {
  const hours = { there: costingHours(there.figures, there.build.number), here: costingHours(here.figures, here.build.number) }
  const pairs = (table: Table): Pair[] => pairUp(there.rows[table], here.rows[table])
  const draw = (table: Table, prefix: string, path: string, hoursOf?: (pair: Pair) => HoursBeside): ComparedRow[] =>
    pairs(table).map((pair) => ({ ...namesOf(pair, prefix, path), differences: differencesOf(table, pair, viewer), ...(hoursOf ? { hours: hoursOf(pair) } : {}) }))
  const address = (given: Readonly<Record<string, string>>): string => `/builds/${here.build.id}/comparison?${new URLSearchParams({ source: there.build.id, ...given }).toString()}`
  const partHours = (pair: Pair): HoursBeside => ({ there: hours.there.ofOwner(pair.there?.id), here: hours.here.ofOwner(pair.here?.id) })
  const operations = pairs('operation')
  const isSmall = operations.length <= MOST_OPERATIONS
  return {
    build: linkTo(here.build), source: linkTo(there.build),
    others: sources.filter(({ id }) => id !== there.build.id).map((other) => ({ name: linkTo(other).name, href: `/builds/${here.build.id}/comparison?source=${other.id}` })),
    isSaved, templatesHref: `/builds/${here.build.id}/templates`,
    totals: {
      there: { estimate: there.figures.costing.estimate.total.workings.labor, loggedS: there.figures.costing.labor.figures.loggedS },
      here: { estimate: here.figures.costing.estimate.total.workings.labor, loggedS: here.figures.costing.labor.figures.loggedS },
    },
    // A zone's operations stand alone: the page stays small.
    ...(zoneId !== null && !isSmall ? { parts: [], lines: [], factoryParts: [] } : {
      parts: draw('fabricatedPart', 'P', 'parts', partHours), lines: draw('equipmentLine', 'E', 'equipment-lines', partHours), factoryParts: draw('factoryPart', 'F', 'factory-parts', partHours),
    }),
    wholeHref: zoneId !== null && !isSmall ? address({}) : undefined,
    zones: isSmall ? [] : here.rows.zone.map(({ id, number, name }) => ({ name: `${String(number)} ${String(name)}`, href: `${address({ zone: id })}#operations`, isChosen: id === zoneId })),
    operations: operations.filter((pair) => isSmall || (zoneId !== null && isInZone(pair, zoneId, here))).map((pair) => ({
      ...operationNames(pair, there, here), differences: differencesOf('operation', pair, viewer),
      hours: { there: hours.there.ofOperation(pair.there?.id), here: hours.here.ofOperation(pair.here?.id) },
    })),
  }
}

const linkTo = ({ id, number, title }: TemplateBuild): { name: string, href: string } => ({ name: `${label('B', number)} ${title}`, href: `/builds/${id}` })

function namesOf({ there, here }: Pair, prefix: string, path: string): Pick<ComparedRow, 'there' | 'here'> {
  const name = (row: Row): string => `${label(prefix, Number(row.number))} ${String(row.name)}`
  // An equal name is not said twice.
  const short = here && there?.name === here.name ? label(prefix, Number(here.number)) : here ? name(here) : ''
  return { there: there ? { name: name(there) } : null, here: here ? { name: short, href: `/${path}/${here.id}` } : null }
}

function operationNames({ there, here }: Pair, from: Source, to: Source): Pick<ComparedRow, 'there' | 'here'> {
  const name = (row: Row, { rows }: Source): string => `${ownerName(row, rows)} ${String(row.number)} ${String(row.kind)}`
  return { there: there ? { name: name(there, from) } : null, here: here ? { name: name(here, to), href: `/operations/${here.id}` } : null }
}

function ownerName(operation: Row, rows: Source['rows']): string {
  const id = ownerOf(operation)
  const found = ([['P', rows.fabricatedPart], ['E', rows.equipmentLine], ['F', rows.factoryPart]] as const).flatMap(([prefix, all]) => all.filter((row) => row.id === id).map(({ number }) => label(prefix, Number(number))))
  return found[0] ?? ''
}

function isInZone({ here }: Pair, zoneId: string, { rows }: Source): boolean {
  if (!here) return false
  const id = ownerOf(here)
  return [...rows.fabricatedPart, ...rows.equipmentLine, ...rows.factoryPart].some((row) => row.id === id && row.zoneId === zoneId)
}
