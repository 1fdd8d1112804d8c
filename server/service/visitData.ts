import type { VisitPageData } from '../../web/service/visit.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { formatMoney } from '../calc/money.ts'
import { visitHours } from '../calc/hours/visitHours.ts'
import { nameOperation } from '../hours/operationName.ts'
import { loadOperationEntries } from '../hours/store.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { getKind, label } from '../shared/records/kind.ts'
import { recordData } from '../shared/records/pageData.ts'
import { MANAGERS } from '../shared/roles.ts'
import { listDepartments, loadVisitParts, type VisitParts } from './store.ts'

/** All that the page of a service visit shows to this viewer. */
export async function visitData(reads: Reads, row: Row, viewer: Viewer, saved: string | null): Promise<VisitPageData> {
  const kind = getKind('service visit')
  const [record, parts, departments] = await Promise.all([recordData(reads, kind, row, viewer, saved), loadVisitParts(reads, row.id), listDepartments(reads)])
  const entries = await loadOperationEntries(reads, parts.operations.map(({ id }) => id))
  const named = parts.operations.map((operation) => ({ ...operation, ...nameOperation(operation) }))
  const { hours, cost } = visitHours(
    named.map(({ id, item, operation, departmentId }) => ({ id, name: `${item}, ${operation}`, departmentId })), entries,
    departments.map(({ id, name, costRate }) => ({ id, name, costRateMinor: costRate })),
  )
  const { build } = parts
  return {
    trail: record.trail, number: record.number, title: record.title, saved: record.saved, history: record.history, isRemoved: record.isRemoved,
    facts: record.facts, photos: record.photos, changeHref: record.changeHref, removal: record.removal,
    deliveredOn: build.deliveredOn === null ? '' : writeDay(build.deliveredOn),
    billing: billingOf(String(row.paidBy)), hours, cost: MANAGERS.includes(viewer.role) ? cost : null,
    operations: named.map((each) => ({
      item: each.item, itemHref: each.itemHref, operation: each.operation, href: `/operations/${each.id}`, department: each.department.name, state: each.state,
    })),
    claims: await claimsOf(reads, parts, viewer),
    swaps: parts.swaps.map(({ id, line, oldSerial, newSerial, swappedOn, warrantyUntil, note }) => ({
      href: `/serial-swaps/${id}`, line: nameOfLine(line), lineHref: `/equipment-lines/${line.id}`, oldSerial, newSerial, on: writeDay(swappedOn),
      warrantyUntil: warrantyUntil === null ? '' : writeDay(warrantyUntil), oldUnit: note,
    })),
    add: addsOf(row, viewer), asBuiltHref: `/builds/${build.id}/as-built`,
  }
}

type Line = VisitParts['swaps'][number]['line']
const nameOfLine = ({ number, name }: Line): string => `${label('E', number)} ${name}`

function billingOf(paidBy: string): string {
  if (paidBy === 'customer') return 'The customer pays: bill these hours. They are still in no figure of the build.'
  return paidBy === 'shop warranty' ? 'Not billed: the shop stands for it.' : 'Not billed to the customer: the maker is asked to make good.'
}

async function claimsOf(reads: Reads, { claims }: VisitParts, viewer: Viewer): Promise<VisitPageData['claims']> {
  const { warns } = getKind('maker’s claim')
  return Promise.all(claims.map(async (claim) => ({
    href: `/maker-claims/${claim.id}`, line: nameOfLine(claim.line), reference: claim.reference, state: claim.state,
    on: writeDay(claim.claimedOn), answeredOn: claim.answeredOn === null ? '' : writeDay(claim.answeredOn),
    credited: claim.amount !== null && MANAGERS.includes(viewer.role) ? formatMoney(claim.amount, viewer.currency) : '',
    warning: (await warns?.(reads, claim as unknown as Row)) ?? '',
  })))
}

function addsOf(row: Row, { role }: Viewer): VisitPageData['add'] {
  const add = (kindName: string): string | null => {
    const kind = getKind(kindName)
    const mayAdd = kindName === 'operation' ? MANAGERS.includes(role) : kind.changedBy.includes(role)
    return mayAdd && !row.removedAt ? `/${kind.path}/new?${new URLSearchParams({ build: String(row.buildId), visitId: row.id }).toString()}` : null
  }
  return { operation: add('operation'), claim: add('maker’s claim'), swap: add('serial swap') }
}
