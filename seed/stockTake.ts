import type { Database } from '../server/shared/database/database.ts'
import { label } from '../server/shared/records/kind.ts'
import { get, type World } from './world.ts'

const DAYS_AGO = 290
const MINUTE_MS = 60_000

/** The stock-take of last year: all bins of what was delivered by then, one part found in another bin, one found nowhere. */
export async function addStockTake(database: Database, { days, people, rows }: World): Promise<void> {
  const date = days.on(-DAYS_AGO)
  const begun = days.at(date, '07:40')
  const parts = await listStored(database, begun)
  const [manager, counter, other] = ['c.oake', 's.penhale', 'r.istead'].map((name) => get(people, name).id)
  const id = rows.newId(begun)
  const astray = parts.find(({ state, binId }) => state === 'out and stored' && binId !== null)
  await database.write(async (write) => {
    await write.stockTake.create({ data: { id, number: 1, createdAt: begun, startedOn: date, closedOn: date, note: 'All of the store, rack by rack.' } })
    for (const [index, part] of parts.entries()) {
      const at = new Date(begun.getTime() + (20 + index * 2) * MINUTE_MS)
      const finding = part.state === 'missing' ? 'not found' : part === astray ? 'elsewhere' : 'here'
      await write.stockTakeSighting.create({
        data: { id: rows.newId(at), createdAt: at, stockTakeId: id, factoryPartId: part.id, binId: part.binId, place: part.place, finding, personId: String(index % 3 === 2 ? other : counter) },
      })
    }
    const closing = days.at(date, '15:20')
    const move = { buildId: '', at: closing, createdAt: closing, personId: String(manager), stockTakeId: id }
    for (const part of parts) {
      if (part.state === 'missing') await write.custodyMove.create({ data: { ...move, id: rows.newId(closing), buildId: part.buildId, factoryPartId: part.id, kind: 'missing', fromWords: whereWas(part) } })
      if (part === astray) await write.custodyMove.create({ data: { ...move, id: rows.newId(closing), buildId: part.buildId, factoryPartId: part.id, kind: 'stored', binId: part.binId, fromWords: 'the shelf above' } })
    }
    for (const [action, at] of [['created', begun], ['closed', closing]] as const) {
      await write.auditEntry.create({ data: { id: rows.newId(at), at, personId: String(manager), personName: get(people, 'c.oake').name, action, recordKind: 'stock-take', recordId: id, changes: '[]', requestId: 'demo' } })
    }
  })
}

function whereWas({ moves: [move] }: Awaited<ReturnType<typeof listStored>>[number]): string {
  return move?.bin ? `bin ${label('A', move.bin.number)}, ${move.bin.place}` : 'out, no place recorded'
}

/** What lay in the store on that day and has not moved since. */
function listStored({ reads }: Database, day: Date) {
  return reads.factoryPart.findMany({
    where: { state: { in: ['out and stored', 'missing'] }, moves: { some: { kind: 'stored', at: { lt: day } }, none: { OR: [{ at: { gte: day } }, { kind: { not: 'stored' } }] } } },
    orderBy: [{ build: { number: 'asc' } }, { number: 'asc' }], select: { id: true, buildId: true, state: true, binId: true, place: true, moves: { take: 1, select: { bin: { select: { number: true, place: true } } } } },
  })
}
