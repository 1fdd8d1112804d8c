import type { NamedLink } from '../../web/builds/ledgerData.ts'
import type { Role } from '../../web/shared/viewer.ts'
import { BENCH, COUNTER, MANAGERS } from '../shared/roles.ts'
import { getKind } from '../shared/records/kind.ts'

const LISTED_KINDS = [
  'zone', 'open point', 'equipment line', 'made part', 'use in an assembly', 'operation', 'material need', 'factory part', 'fastener', 'bin', 'order of removal', 'service visit',
] as const

// Nothing is made in a counter job; what it does not show stands under the record of the build.
const OF_COUNTER_JOBS = ['Bill of materials', 'Estimate', 'By the plan', 'Quote', 'Can we take it', 'Change orders', 'Account', 'Order of removal', 'Teardown', 'Fit', 'Final check', 'Delivery', 'Open points', 'Equipment', 'Operations', 'Material needs', 'Factory parts', 'Alterations', 'Service visits', 'Record of the build', 'Where the factory parts are']

/** Everything that is drawn from a build, and the lists of its records. */
export function sheetsOf(buildId: string, role: Role, kindOfBuild = ''): NamedLink[] {
  const all = allSheets(buildId, role)
  return kindOfBuild === 'counter job' ? all.filter(({ name }) => OF_COUNTER_JOBS.includes(name)) : all
}

function allSheets(buildId: string, role: Role): NamedLink[] {
  const kinds = LISTED_KINDS.map(getKind).filter((kind) => kind.seenBy.includes(role))
  return [
    { name: 'Intake', href: `/builds/${buildId}/intake` },
    { name: 'Bill of materials', href: `/builds/${buildId}/materials` },
    { name: 'Estimate', href: `/builds/${buildId}/estimate` },
    { name: 'What it may take', href: `/builds/${buildId}/spread` },
    { name: 'By the plan', href: `/builds/${buildId}/schedule` },
    ...(MANAGERS.includes(role) ? [{ name: 'Quote', href: `/builds/${buildId}/quote` }, { name: 'Can we take it', href: `/builds/${buildId}/can-we` }, { name: 'Change orders', href: `/builds/${buildId}/change-orders` }, { name: 'Account', href: `/builds/${buildId}/account` }] : []),
    { name: 'Finishes', href: `/builds/${buildId}/finishes` },
    ...(BENCH.includes(role) ? [{ name: 'Templates', href: `/builds/${buildId}/templates` }] : []),
    { name: 'Order of removal', href: `/builds/${buildId}/removal` },
    { name: 'Where the factory parts are', href: `/builds/${buildId}/custody` },
    ...(BENCH.includes(role) ? [{ name: 'Teardown', href: `/builds/${buildId}/teardown` }] : []),
    { name: 'Fit', href: `/builds/${buildId}/fit` },
    { name: 'Alterations', href: `/builds/${buildId}/alterations` },
    { name: 'Restoration', href: `/builds/${buildId}/restoration` },
    { name: 'Frozen sheets', href: `/builds/${buildId}/restorations` },
    ...(COUNTER.includes(role) ? [{ name: 'Links', href: `/builds/${buildId}/links` }] : []),
    { name: 'Final check', href: `/builds/${buildId}/final-check` },
    { name: 'Delivery', href: `/builds/${buildId}/delivery` },
    ...(MANAGERS.includes(role) ? [{ name: 'Story', href: `/builds/${buildId}/story` }] : []),
    { name: 'As-built record', href: `/builds/${buildId}/as-built` },
    ...kinds.map(({ plural, path }) => ({ name: plural.charAt(0).toUpperCase() + plural.slice(1), href: `/${path}?build=${buildId}` })),
    { name: 'Record of the build', href: `/builds/${buildId}/record` },
  ]
}
