import { giveConsent } from '../server/consents/giving.ts'
import { depositStep, quote, quoteLine, quoteOption } from '../server/quotes/records.ts'
import { drawQuote, freezeQuote } from '../server/quotes/freezing.ts'
import { getRevision } from '../server/quotes/revisionStore.ts'
import { loadQuote, termsOfShop } from '../server/quotes/store.ts'
import type { Actor } from '../server/shared/audit.ts'
import type { Database, Write } from '../server/shared/database/database.ts'
import { getKind } from '../server/shared/records/kind.ts'
import { changeRecord, createRecord, getRecord } from '../server/shared/records/table.ts'
import { get, type World } from './world.ts'

type Scene = Pick<World, 'people' | 'days' | 'settings'>
type Values = Readonly<Record<string, unknown>>

/** The van waits for an answer to its second revision; what was agreed on the pickup and the hatchback was agreed on paper, to the cent. */
export async function addQuotes(database: Database, world: Scene): Promise<void> {
  await quoteVan(database, world)
  await agreeOnPaper(database, world, { number: 231, typedName: 'Isolde Wick', reserve: 'Project lead, storage of the factory parts, photographs' })
  await agreeOnPaper(database, world, { number: 240, typedName: 'Marit Kellaway', reserve: 'Storage of the factory parts, photographs' })
}

function managerAt({ people, days }: Scene, date: string, clock: string): Actor {
  const { id, name } = get(people, 'c.oake')
  return { personId: id, personName: name, requestId: 'demo', now: days.at(date, clock) }
}

async function begin(write: Write, buildId: string, more: Values, actor: Actor): Promise<void> {
  const { shop } = await loadQuote(write, buildId)
  await createRecord(write, quote, buildId, { values: { ...termsOfShop(shop), ...more }, entered: {} }, actor)
}

const STEPS = [['On signing', 300], ['When the equipment is ordered', 400], ['At delivery', 300]] as const

async function addSteps(write: Write, buildId: string, actor: Actor): Promise<void> {
  for (const [due, share] of STEPS) await createRecord(write, depositStep, buildId, { values: { due, share }, entered: {} }, actor)
}

async function quoteVan(database: Database, world: Scene): Promise<void> {
  const { days, settings } = world
  const van = await database.reads.build.findFirstOrThrow({ where: { number: 243 }, select: { id: true, lines: { where: { number: 7 }, select: { id: true } } } })
  const first = managerAt(world, days.on(-2), '11:20')
  const collecting = await database.write(async (write) => {
    await begin(write, van.id, { replacedParts: 'wanted back', note: 'We can begin as soon as the traction battery is isolated by a qualified person.' }, first)
    await addSteps(write, van.id, first)
    const add = async (values: Values): Promise<string> => (await createRecord(write, quoteOption, van.id, { values: { insteadOf: '', note: '', ...values }, entered: {} }, first)).id
    const light = await add({ name: 'Reading light in the roof', note: 'four strips, dimmed from the side door' })
    const felt = await add({ name: 'Columns covered in wool felt', insteadOf: 'columns', note: 'gray, as the seats' })
    const ash = await add({ name: 'Columns veneered in ash', insteadOf: 'columns', note: 'oiled; adds 2 working days' })
    const strip = getKind('equipment line')
    for (const { id } of van.lines) await changeRecord(write, strip, id, (await getRecord(write, strip, id)).version, { values: { optionId: light }, entered: {} }, first)
    const line = async (text: string, price: number, optionId: string | null, taxCodeId = settings.goodsTaxId): Promise<string> =>
      (await createRecord(write, quoteLine, van.id, { values: { text, price, quantity: 1000, optionId, taxCodeId }, entered: {} }, first)).id
    await line('Wool felt, cut and glued', 18_000, felt)
    await line('Ash veneer, pressed and oiled', 42_000, ash)
    const id = await line('Collecting the van and bringing it back', 12_000, null, settings.laborTaxId)
    await freezeQuote(write, van.id, undefined, first)
    return id
  })
  const second = managerAt(world, days.on(-1), '15:35')
  await database.write(async (write) => {
    const { version } = await getRecord(write, quoteLine, collecting)
    await changeRecord(write, quoteLine, collecting, version, { values: { price: 9_000 }, entered: {} }, second)
    await createRecord(write, quoteLine, van.id, { values: { text: 'Less, for a public library', price: -15_000, quantity: 1000, optionId: null, taxCodeId: settings.goodsTaxId }, entered: {} }, second)
    await freezeQuote(write, van.id, undefined, second)
  })
}

interface Agreed {
  readonly number: number
  readonly typedName: string
  /** What is charged beside the estimate, so that the paper comes to what was agreed. */
  readonly reserve: string
}

async function agreeOnPaper(database: Database, world: Scene, { number, typedName, reserve }: Agreed): Promise<void> {
  const { id, consent, consentOn } = await database.reads.build.findFirstOrThrow({ where: { number }, select: { id: true, consent: true, consentOn: true } })
  const drawn = managerAt(world, consentOn ?? world.days.on(-30), '10:05')
  await database.write(async (write) => {
    await begin(write, id, { suppliesShare: 0, suppliesMost: null, replacedParts: 'wanted back' }, drawn)
    await addSteps(write, id, drawn)
    const { draft } = await drawQuote(write, id, drawn)
    const price = (consent ?? 0) - draft.content.totals.netMinor
    await createRecord(write, quoteLine, id, { values: { text: reserve, price, quantity: 1000, optionId: null, taxCodeId: world.settings.laborTaxId }, entered: {} }, drawn)
    const { contentHash, id: revisionId } = await getRevision(write, await freezeQuote(write, id, undefined, drawn))
    const given = { decision: 'accepted', typedName, hasRead: true, contentHash, chosen: [], note: 'Signed on paper.' }
    await giveConsent(write, revisionId, given, { way: 'in the shop', linkId: null }, { ...drawn, now: world.days.at(consentOn ?? world.days.on(-30), '16:40') })
  })
}
