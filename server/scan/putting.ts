import { moveBetween, whereaboutsOf } from '../calc/removal/custody.ts'
import { movePart, listBins, listMoved } from '../custody/moveStore.ts'
import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { forbidden, invalid, notFound, Problem } from '../shared/problems.ts'
import { getKind, label } from '../shared/records/kind.ts'
import { createRecord } from '../shared/records/table.ts'
import { BENCH } from '../shared/roles.ts'
import type { Role } from '../../web/shared/viewer.ts'

interface Asked {
  readonly buildId: string
  readonly part: number
  readonly bin: number
  readonly role: Role
}

/** Puts a part into a bin, wherever it was; one that is still in the vehicle comes out with it. Returns what was done, in words. */
export async function putIntoBin(write: Write, actor: Actor, { buildId, part: number, bin: binNumber, role }: Asked): Promise<string> {
  const [part] = await listMoved(write, buildId, [number])
  const bin = (await listBins(write, buildId)).find((one) => one.number === binNumber)
  if (!part) throw notFound('factory part')
  if (!bin) throw notFound('bin')
  const words = `${label('F', number)} ${part.name} is in ${label('A', bin.number)}`
  const from = whereaboutsOf(part)
  if (from === 'in the vehicle') {
    if (!BENCH.includes(role)) throw forbidden(`A ${role} does not take parts out. A technician records that it came out.`)
    await createRecord(write, getKind('removal'), buildId, { values: { factoryPartId: part.id, kind: 'came out', binId: bin.id, condition: '', note: '' }, entered: {} }, actor)
    return words
  }
  if (part.binId === bin.id && from === 'stored') throw new Problem(409, 'Not moved', `${words} already.`)
  await movePart(write, actor, part.id, { kind: moveBetween(from, 'stored'), binId: bin.id })
  return words
}

/** The number that came with a press, as "F-053" or 53. Throws where it is none. */
export function readPressed(text: string, prefix: 'A' | 'F'): number {
  const digits = new RegExp(`^(?:${prefix}-?)?0*(\\d{1,6})$`, 'i').exec(text.trim())?.[1]
  if (digits === undefined) throw invalid(prefix === 'A' ? 'bin' : 'part', `Write the number as ${prefix === 'A' ? 'A-003' : 'F-053'}.`)
  return Number(digits)
}
