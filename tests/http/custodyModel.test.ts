import t from 'tap'
import fc from 'fast-check'
import { randomUUID } from 'node:crypto'
import { aDoor } from '../support/aDoor.ts'
import { openShop, type Answer } from '../support/shop.ts'

let minutes = 0
const shop = await openShop(t, { clock: () => new Date(Date.UTC(2031, 2, 3, 9, minutes)) })
const door = await aDoor(shop)
const second = await shop.as('manager').api.create('/api/bins', { buildId: door.build.id, place: 'rack D' })
const { api } = shop.as('technician')
const bins = [door.bin.id, second.id]

type Where = 'vehicle' | 'stored' | 'customer' | 'missing' | 'disposed'

/** Where the part is, as somebody with a pencil would keep it. */
interface Pencil {
  id: string
  number: number
  where: Where
  bin: number | null
  place: string
  moves: number
  /** The newest removal, and how it was before, as long as nothing else has happened. */
  undo: { removalId: string; before: Pick<Pencil, 'where' | 'bin' | 'place'> } | null
}

interface Real { check(pencil: Pencil, answers: readonly Answer[], wanted: number): Promise<void> }

const STATES: Readonly<Record<Where, string>> = { vehicle: 'fitted', stored: 'out and stored', customer: 'out with the customer', missing: 'missing', disposed: 'disposed with consent' }
const TELLS: Readonly<Record<string, Where>> = {
  'stored': 'stored', 'brought back': 'stored', 'found again': 'stored', 'handed to the customer': 'customer', 'missing': 'missing', 'disposed with consent': 'disposed', 'back in the vehicle': 'vehicle',
}
// Written by hand: what may follow on what.
const MAY: Readonly<Record<Where, readonly string[]>> = {
  vehicle: [], stored: ['stored', 'handed to the customer', 'disposed with consent', 'missing'], customer: ['brought back', 'disposed with consent', 'missing'], missing: ['found again'], disposed: ['found again'],
}

const real: Real = {
  check: async (pencil, answers, wanted) => {
    for (const answer of answers) if (answer.statusCode !== wanted) throw new Error(`wanted ${wanted}, got ${answer.statusCode}: ${answer.body}`)
    const part = await shop.database.reads.factoryPart.findUniqueOrThrow({ where: { id: pencil.id }, include: { moves: { orderBy: { at: 'desc' }, include: { bin: true } } } })
    const is = [part.state, part.binId === null ? null : bins.indexOf(part.binId), part.place, part.moves.length]
    const should = [STATES[pencil.where], pencil.bin, pencil.place, pencil.moves]
    if (JSON.stringify(is) !== JSON.stringify(should)) throw new Error(`the part is ${JSON.stringify(is)}, and should be ${JSON.stringify(should)}`)
    const [newest] = part.moves
    if (!newest) return
    if (TELLS[newest.kind] !== pencil.where || newest.binId !== part.binId || newest.place !== part.place) throw new Error(`the newest move tells ${newest.kind} ${newest.place}`)
    const instants = part.moves.map(({ at }) => at.getTime())
    if (new Set(instants).size !== instants.length) throw new Error('two moves of a part stand at one instant')
    const audited = await shop.database.reads.auditEntry.count({ where: { recordId: pencil.id, recordKind: 'factory part', changes: { contains: '"Move"' } } })
    if (audited !== part.moves.length) throw new Error(`${part.moves.length} moves, ${audited} in the history`)
  },
}

/** The same request as often as somebody presses, under one key. */
async function press(times: number, url: string, json: unknown): Promise<Answer[]> {
  minutes += 1
  const headers = { 'idempotency-key': randomUUID() }
  const answers: Answer[] = []
  for (let time = 0; time < times; time += 1) answers.push(await api.post(url, json, headers))
  return answers
}

const removal = (pencil: Pencil, kind: string, binId: string | null, times: number): Promise<Answer[]> =>
  press(times, '/api/removals', { buildId: door.build.id, factoryPartId: pencil.id, kind, ...(binId ? { binId } : {}) })

class ComesOut implements fc.AsyncCommand<Pencil, Real> {
  readonly bin: number | null
  readonly times: number
  constructor(bin: number | null, times: number) {
    this.bin = bin
    this.times = times
  }
  check = (): boolean => true
  async run(pencil: Pencil, { check }: Real): Promise<void> {
    const answers = await removal(pencil, 'came out', this.bin === null ? null : bins[this.bin]!, this.times)
    if (pencil.where !== 'vehicle') return check(pencil, answers, 422)
    const { where, bin, place } = pencil
    Object.assign(pencil, { where: 'stored', bin: this.bin, place: '', moves: pencil.moves + 1, undo: { removalId: answers[0]!.json<{ id: string }>().id, before: { where, bin, place } } })
    return check(pencil, answers, 201)
  }
  toString = (): string => `comes out into ${this.bin ?? 'no bin'} × ${this.times}`
}

class GoesBack implements fc.AsyncCommand<Pencil, Real> {
  readonly times: number
  constructor(times: number) {
    this.times = times
  }
  check = ({ where }: Readonly<Pencil>): boolean => where !== 'vehicle'
  async run(pencil: Pencil, { check }: Real): Promise<void> {
    const answers = await removal(pencil, 'went back', null, this.times)
    const { where, bin, place } = pencil
    Object.assign(pencil, { where: 'vehicle', bin: null, place: '', moves: pencil.moves + 1, undo: { removalId: answers[0]!.json<{ id: string }>().id, before: { where, bin, place } } })
    return check(pencil, answers, 201)
  }
  toString = (): string => `goes back × ${this.times}`
}

class IsTakenBack implements fc.AsyncCommand<Pencil, Real> {
  readonly times: number
  constructor(times: number) {
    this.times = times
  }
  check = ({ undo }: Readonly<Pencil>): boolean => undo !== null
  async run(pencil: Pencil, { check }: Real): Promise<void> {
    const { removalId, before } = pencil.undo!
    const answers = await press(this.times, `/api/removals/${removalId}/removal`, undefined)
    Object.assign(pencil, { ...before, moves: pencil.moves + 1, undo: null })
    return check(pencil, answers, 200)
  }
  toString = (): string => `removal taken back × ${this.times}`
}

interface Asked { readonly likely: number | null; readonly kind: string; readonly bin: number | null; readonly place: string; readonly name: string; readonly times: number }

class Moves implements fc.AsyncCommand<Pencil, Real> {
  readonly asked: Asked
  constructor(asked: Asked) {
    this.asked = asked
  }
  check = (): boolean => true
  async run(pencil: Pencil, { check }: Real): Promise<void> {
    const { kind, bin, place, name, times } = this.asked.likely === null ? this.asked : this.likely(pencil)
    const answers = await press(times, `/api/builds/${door.build.id}/moves`, { kind, parts: [pencil.number], bin: bin === null ? null : bin + 1, place, toWhom: name, signedName: name })
    if (!isFine(pencil, { kind, bin, place, name })) return check(pencil, answers, 422)
    const where = TELLS[kind]!
    Object.assign(pencil, { where, bin: where === 'stored' ? bin : null, place: where === 'stored' || where === 'customer' ? place : '', moves: pencil.moves + 1, undo: null })
    return check(pencil, answers, 201)
  }
  /** Half of them ask for something that may be, whatever that is now. */
  private likely({ where, bin: lies }: Pencil): Asked {
    const may = MAY[where]
    const kind = may[(this.asked.likely ?? 0) % Math.max(may.length, 1)] ?? this.asked.kind
    return { ...this.asked, kind, bin: lies === 0 ? 1 : 0, place: '', name: this.asked.name || 'Imre Vance' }
  }

  toString = (): string => JSON.stringify(this.asked)
}

function isFine(pencil: Pencil, { kind, bin, place, name }: Pick<Asked, 'kind' | 'bin' | 'place' | 'name'>): boolean {
  if (!MAY[pencil.where].includes(kind)) return false
  if (TELLS[kind] === 'stored') return (bin === null) !== (place === '') && !(kind === 'stored' && pencil.bin === bin && (bin !== null || pencil.place === place))
  return kind === 'missing' || name !== ''
}

const times = fc.constantFrom(1, 1, 1, 2, 3)
const bin = fc.constantFrom(null, 0, 1)
const kind = fc.constantFrom('stored', 'handed to the customer', 'brought back', 'disposed with consent', 'missing', 'found again')
const commands = fc.commands([
  fc.tuple(bin, times).map(([into, often]) => new ComesOut(into, often)),
  times.map((often) => new GoesBack(often)),
  times.map((often) => new IsTakenBack(often)),
  ...[1, 2, 3, 4].map((index) => fc.record({ likely: index % 2 === 0 ? fc.constant(null) : fc.nat(11), kind, bin, place: fc.constantFrom('', '', '', 'on the wall'), name: fc.constantFrom('', 'Imre Vance', 'Odile', 'Gideon'), times }).map((asked) => new Moves(asked))),
], { maxCommands: 40, size: 'max' })

t.test('whatever happens to a part, it is where its newest move tells, no move is lost and none is made twice', { timeout: 150_000 }, async (t) => {
  await fc.assert(fc.asyncProperty(commands, async (happening) => {
    const part = await shop.as('manager').api.create('/api/factory-parts', { buildId: door.build.id, zoneId: door.zone.id, name: 'Part of the model' })
    const pencil: Pencil = { id: part.id, number: Number(part.number), where: 'vehicle', bin: null, place: '', moves: 0, undo: null }
    await fc.asyncModelRun(() => ({ model: pencil, real }), happening)
  }), { seed: 20_310_303, numRuns: 25 })
  const kinds = await shop.database.reads.custodyMove.groupBy({ by: ['kind'], _count: true })
  t.equal(kinds.length, 7, `every kind of move has happened: ${kinds.map(({ kind, _count }) => `${_count} ${kind}`).join(', ')}`)
})
