import t, { type Test } from 'tap'
import ICAL from 'ical.js'
import { writeCalendar } from '../../server/calendars/calendarText.ts'
import { listEvents, type CalendarOf } from '../../server/calendars/events.ts'
import { loadShopFacts } from '../../server/schedule/facts.ts'
import { printOf } from '../../server/schedule/prints.ts'
import type { PlanContent } from '../../server/schedule/planContent.ts'
import { keepPlan } from '../../server/schedule/planStore.ts'
import { withoutSecret } from '../../server/shared/links/address.ts'
import { hashOfSecret } from '../../server/shared/session.ts'
import { aBuild } from '../support/aBuild.ts'
import { rowsOf } from '../support/rows.ts'
import { openShop, type Answer } from '../support/shop.ts'

const TAKEN = new Date('2027-03-01T08:00:00Z')

type Stretch = readonly [fromAt: string, toAt: string]
const toHours = (hours: readonly Stretch[]) => hours.map(([fromAt, toAt]) => ({ fromAt, toAt }))

/** A plan of one build: an operation by Ida in bay 2, one away at a finisher, a vehicle that stands there. */
function aPlan(hours: readonly Stretch[], more: { readonly name?: string, readonly shortName?: string, readonly endsAt?: string, readonly dueAt?: string } = {}): PlanContent {
  const [startsAt, endsAt] = [hours[0]![0], hours.at(-1)![1]]
  return {
    fromAt: TAKEN.toISOString(), people: [{ id: 'ida', name: 'Ida Carreg' }, { id: 'bo', name: 'Bo Kestle' }], bays: [{ id: 'bay2', name: 'Bay 2' }],
    builds: [{ buildId: 'b', name: 'B-0147 Pickup of Imre Vance', endsAt: more.endsAt ?? endsAt, dueAt: more.dueAt ?? null, chances: null }],
    work: [
      { operationId: 'sew', buildId: 'b', name: more.name ?? 'P-510 Record bin, operation 20 sew', shortName: more.shortName ?? 'P-510 Record bin, sew', startsAt, endsAt, hours: toHours(hours), personIds: ['ida', 'bo'], bayId: 'bay2', machineId: null, after: [], dueBackAt: null },
      { operationId: 'anodize', buildId: 'b', name: 'P-511 Grille, anodize', shortName: 'P-511 Grille, anodize', startsAt, endsAt: startsAt, hours: [{ fromAt: startsAt, toAt: new Date(Date.parse(startsAt) + 900_000).toISOString() }], personIds: ['packer'], bayId: null, machineId: null, after: [], dueBackAt: endsAt },
    ],
    visits: [{ buildId: 'b', bayId: 'bay2', fromAt: startsAt, toAt: endsAt }], leftOut: [], delay: 0, leastDelay: 0, tries: 1,
  }
}

const IDA: CalendarOf = { kind: 'person', id: 'ida' }
const BAY: CalendarOf = { kind: 'bay', id: 'bay2' }
const BUILD: CalendarOf = { kind: 'build', id: 'b' }

const draw = (content: PlanContent, of: CalendarOf, timeZone = 'UTC', more: { readonly takenAt?: Date, readonly isStale?: boolean, readonly name?: string } = {}): string =>
  writeCalendar({ name: 'Ida', takenAt: TAKEN, isStale: false, events: listEvents(content, of, timeZone), ...more })

/** What a parser that this project did not write reads (ical.js). */
function read(text: string) {
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[])
  return { calendar, events: calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one)) }
}
const instants = (events: readonly ICAL.Event[]): string[][] => events.map(({ startDate, endDate }) => [startDate, endDate].map((time) => time.toJSDate().toISOString()))

t.test('an operation stands in the calendar at the instants of the plan, through both changes of clock in four zones', async (t) => {
  // Offsets of the IANA time zone data: 08:00 in the shop on the workday before and the one after each change of 2027.
  const ZONES: readonly (readonly [zone: string, mornings: readonly string[]])[] = [
    ['America/St_Johns', ['2027-03-12T11:30:00.000Z', '2027-03-15T10:30:00.000Z', '2027-11-05T10:30:00.000Z', '2027-11-08T11:30:00.000Z']],
    ['Europe/Lisbon', ['2027-03-26T08:00:00.000Z', '2027-03-29T07:00:00.000Z', '2027-10-29T07:00:00.000Z', '2027-11-01T08:00:00.000Z']],
    // Half an hour, and the morning is still the evening before in UTC.
    ['Australia/Lord_Howe', ['2027-04-01T21:00:00.000Z', '2027-04-04T21:30:00.000Z', '2027-09-30T21:30:00.000Z', '2027-10-03T21:00:00.000Z']],
    ['Asia/Kathmandu', ['2027-03-26T02:15:00.000Z', '2027-03-29T02:15:00.000Z', '2027-10-29T02:15:00.000Z', '2027-11-01T02:15:00.000Z']],
  ]
  const later = (instant: string, hours: number): string => new Date(Date.parse(instant) + hours * 3_600_000).toISOString()
  for (const [zone, mornings] of ZONES) {
    const hours = mornings.flatMap((at): Stretch[] => [[at, later(at, 4)], [later(at, 4.5), later(at, 8)]])
    const { events } = read(draw(aPlan(hours), IDA, zone))
    t.same(instants(events), mornings.map((at) => [at, later(at, 8)]), `${zone}: one entry a day, from the first hour to the last`)
    const clock = new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit' })
    t.same(events.map(({ startDate }) => clock.format(startDate.toJSDate())), ['08:00', '08:00', '08:00', '08:00'], `${zone}: eight in the morning there`)
  }
  const [day] = read(draw(aPlan([['2027-10-03T21:00:00Z', '2027-10-04T05:00:00Z']], { dueAt: '2027-10-05T06:00:00Z' }), BUILD, 'Australia/Lord_Howe')).events.filter(({ summary }) => summary.includes('last work'))
  t.ok(day!.startDate.isDate, 'a whole day')
  t.same([day!.startDate.toString(), day!.endDate.toString()], ['2027-10-04', '2027-10-05'], 'the shop’s own day; the end is the day after (RFC 5545, 3.6.1)')
})

t.test('what moves in a new plan is moved and not doubled, and every entry of it is newer', async (t) => {
  const first = aPlan([['2027-03-01T08:00:00Z', '2027-03-01T16:00:00Z'], ['2027-03-02T08:00:00Z', '2027-03-02T10:00:00Z']], { dueAt: '2027-03-09T16:00:00Z' })
  const moved = aPlan([['2027-03-04T08:00:00Z', '2027-03-04T16:00:00Z'], ['2027-03-05T08:00:00Z', '2027-03-05T10:00:00Z']], { dueAt: '2027-03-09T16:00:00Z' })
  const all: string[] = []
  for (const of of [IDA, BAY, BUILD]) {
    const [before, after] = [read(draw(first, of)).events, read(draw(moved, of, 'UTC', { takenAt: new Date('2027-03-01T08:00:01Z') })).events]
    t.same(before.map(({ uid }) => uid), after.map(({ uid }) => uid), of.kind)
    t.ok(after.every(({ sequence }, place) => sequence > before[place]!.sequence), `${of.kind}: SEQUENCE rises`)
    all.push(...before.map(({ uid }) => uid))
  }
  t.equal(new Set(all).size, all.length, 'no two entries of the shop are taken for one')
  t.same([...new Set(all.map((uid) => /^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/.test(uid)))], [true], 'UUIDs, as RFC 7986 asks')
  t.equal(draw(first, BUILD), draw(first, BUILD), 'the same plan gives the same bytes')
})

t.test('lines are at most 75 octets, end with CRLF, and what people wrote comes back as they wrote it', async (t) => {
  const name = 'P-9 Türverkleidung, größer; „links\\rechts“ 🔧\nzweite Zeile: 𝄞 日本語のとても長い名前のパネル, ' + 'ä'.repeat(90)
  const text = draw(aPlan([['2027-03-01T08:00:00Z', '2027-03-01T16:00:00Z']], { name, shortName: `${name}\u0007` }), IDA, 'UTC', { name: 'Ida, der „Bay; 1\\2“\nAnfang:' + '日'.repeat(40) })
  t.notMatch(text.replaceAll('\r\n', ''), /[\r\n]/, 'no other line ends (RFC 5545, 3.1)')
  t.ok(text.endsWith('END:VCALENDAR\r\n'))
  const lines = text.split('\r\n')
  t.same(lines.filter((line) => Buffer.byteLength(line) > 75), [], 'RFC 5545, 3.1')
  t.ok(lines.filter((line) => line.startsWith(' ')).length > 10, 'it was long enough to fold')
  t.notMatch(text, /\ufffd|\u0007/)
  const { calendar, events } = read(text)
  t.equal(events[0]!.summary, `B-0147 ${name}`)
  t.equal(events[0]!.description, name)
  // The parser does not know NAME (RFC 7986, 5.1, a text) and gives it as it stands: escaped once.
  t.equal(calendar.getFirstPropertyValue('name'), 'Ida\\, der „Bay\\; 1\\\\2“\\nAnfang:' + '日'.repeat(40))
})

t.test('each calendar holds its own and says nothing of customers', async (t) => {
  const plan = aPlan([['2027-03-01T08:00:00Z', '2027-03-01T16:00:00Z']], { dueAt: '2027-03-09T16:00:00Z' })
  const of = (which: CalendarOf): string[] => read(draw(plan, which)).events.map(({ summary }) => summary)
  t.same(of(IDA), ['B-0147 P-510 Record bin, sew'])
  t.same(of(BAY), ['B-0147 in Bay 2'])
  t.same(of(BUILD), ['B-0147 P-510 Record bin, sew', 'B-0147 P-511 Grille, anodize', 'B-0147 P-511 Grille, anodize: away', 'B-0147 in Bay 2', 'B-0147: last work as planned', 'B-0147: due'])
  t.same(of({ kind: 'person', id: 'packer' }), ['B-0147 P-511 Grille, anodize'], 'who packs it is busy until it goes, not while it is away')
  t.same(of({ kind: 'person', id: 'nobody' }), [])
  t.equal(read(draw(plan, IDA)).events[0]!.location, 'Bay 2')
  const packed = { ...plan, work: plan.work.map((work) => (work.dueBackAt === null ? work : { ...work, leavesAt: '2027-03-02T17:00:00.000Z', dueBackAt: '2027-03-16T08:15:00.000Z' })) }
  const away = read(draw(packed, BUILD)).events.find(({ summary }) => summary.endsWith('away'))!
  t.same([away.startDate.toString(), away.endDate.toString()], ['2027-03-02', '2027-03-17'], 'from the day its batch leaves, not from when it is packed')
  t.match(away.description, /leaves on Tue 2 Mar 2027 .* back on Tue 16 Mar 2027/)
  for (const which of [IDA, BAY, BUILD]) t.notMatch(draw(plan, which), /Imre|Vance|Pickup|Kestle/)
  t.match(draw(plan, IDA), /STATUS:CONFIRMED/)
  t.match(draw(plan, IDA, 'UTC', { isStale: true }), /STATUS:TENTATIVE/)
  const empty = draw(plan, { kind: 'bay', id: 'other' })
  t.same(read(empty).calendar.getAllSubcomponents().map(({ name }) => name), ['vtimezone'], 'RFC 5545, 3.6: at least one component')
})

let now = new Date('2031-03-03T09:00:00Z')
const shop = await openShop(t, { clock: () => now })
const { build, zone, department } = await aBuild(shop)
const [manager, technician] = [shop.as('manager'), shop.as('technician')]
const on = { buildId: build.id, partId: (await manager.api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Corner box', quantity: 1 })).id, departmentId: department.id }
const sanding = await manager.api.create('/api/operations', { ...on, number: 20, kind: 'sand', run: '3 h' })

async function takePlan(fromAt: string, toAt: string): Promise<void> {
  const facts = await loadShopFacts(shop.database.reads, now)
  const content: PlanContent = {
    ...aPlan([[fromAt, toAt]]), people: [{ id: technician.personId, name: 'Test technician' }],
    builds: [{ buildId: build.id, name: facts.builds[0]!.name, endsAt: toAt, dueAt: null, chances: null }], visits: [],
    work: [{ operationId: sanding.id, buildId: build.id, name: 'P-1 Corner box, sand', shortName: 'P-1 Corner box, sand', startsAt: fromAt, endsAt: toAt, hours: [{ fromAt, toAt }], personIds: [technician.personId], bayId: null, machineId: null, after: [], dueBackAt: null }],
  }
  await shop.database.write((write) => keepPlan(write, { madeAt: now, reason: '', print: printOf(facts), content }, { personId: manager.personId, personName: 'Test manager', requestId: 'r', now }))
}

async function handOut(by: typeof manager, subject: string, days = 30): Promise<{ path: string, id: string, token: string }> {
  const answer = await by.api.post('/api/calendars', { subject, note: 'Ida’s phone', days })
  if (answer.statusCode !== 201) throw new Error(answer.body)
  const { address, link } = answer.json<{ address: string, link: { id: string } }>()
  const path = new URL(address).pathname
  return { path, id: link.id, token: path.slice('/calendar/'.length, -'.ics'.length) }
}
const fetchAs = (url: string, headers: Record<string, string> = {}, method: 'GET' | 'HEAD' = 'GET'): Promise<Answer> => shop.app.inject({ url, headers, method })

t.test('a technician’s own days are fetched by their address, without sign-in, and only sent again when they differ', async (t) => {
  const { path, token } = await handOut(technician, `person:${technician.personId}`)
  t.match((await fetchAs(path)).body, /BEGIN:VCALENDAR/, 'before there is any plan')
  await takePlan('2031-03-04T08:00:00.000Z', '2031-03-04T11:00:00.000Z')
  const stored = await shop.database.reads.calendarLink.findFirstOrThrow({ where: { tokenHash: hashOfSecret(token) } })
  t.notOk(JSON.stringify(stored).includes(token), 'only the hash is kept')
  const before = JSON.stringify(await rowsOf(shop.database))
  const answer = await fetchAs(path, { cookie: manager.cookie })
  t.equal(answer.statusCode, 200)
  t.match(answer.headers, { 'content-type': 'text/calendar; charset=utf-8', 'cache-control': /private/, 'referrer-policy': 'no-referrer', 'x-robots-tag': /noindex/, 'etag': /^W\/"/ })
  const { events } = read(answer.body)
  t.same(instants(events), [['2031-03-04T08:00:00.000Z', '2031-03-04T11:00:00.000Z']])
  t.match(answer.body, /STATUS:CONFIRMED/)
  const etag = String(answer.headers.etag)
  const same = await fetchAs(path, { 'if-none-match': `"else", ${etag}` })
  t.equal(same.statusCode, 304)
  t.equal(same.body, '')
  t.equal(same.headers.etag, etag)
  const head = await fetchAs(path, {}, 'HEAD')
  t.equal(head.statusCode, 200)
  t.equal(head.headers.etag, etag)
  t.equal(head.body, '')
  t.equal(JSON.stringify(await rowsOf(shop.database)), before, 'looking changes nothing')

  await manager.api.create('/api/operations', { ...on, number: 30, kind: 'wrap', run: '1 h' })
  const stale = await fetchAs(path, { 'if-none-match': etag })
  t.equal(stale.statusCode, 200, 'things have changed since')
  t.match(stale.body, /STATUS:TENTATIVE/)
  t.same(read(stale.body).events.map(({ uid }) => uid), events.map(({ uid }) => uid))
  t.equal(withoutSecret(`${path}?x=1`), '/calendar/(secret)?x=1', 'no log has the address')
})

t.test('managers hand out any calendar, others their own days; what was typed comes back with what is wrong', async (t) => {
  const { path } = await handOut(manager, `build:${build.id}`)
  t.match((await fetchAs(path)).body, /SUMMARY:B-\d+ P-1 Corner box\\, sand/)
  for (const subject of [`build:${build.id}`, `person:${manager.personId}`]) t.equal((await technician.api.post('/api/calendars', { subject, note: 'x' })).statusCode, 422, subject)
  t.same((await technician.api.get('/api/calendars')).json<{ items: { subjectId: string }[] }>().items.map(({ subjectId }) => subjectId), [technician.personId])
  const made = await technician.post('/calendars', { subject: `person:${technician.personId}`, note: 'My phone', days: '' })
  t.equal(made.statusCode, 200)
  t.match(made.body, /\/calendar\/[\w-]{43}\.ics/, 'shown this once')
  t.notMatch(await technician.page('/calendars'), /\/calendar\/[\w-]{43}/)
  const wrong = await manager.post('/calendars', { subject: `build:${build.id}`, note: '', days: '4000' })
  t.equal(wrong.statusCode, 422)
  t.match(wrong.body, /For whom says who gets the link/)
  t.match(wrong.body, /value="4000"/)
  t.match(wrong.body, new RegExp(`value="build:${build.id}" selected`))
  const { id } = await handOut(manager, `build:${build.id}`)
  t.equal((await technician.api.post(`/api/calendars/${id}/revocations`)).statusCode, 403)
})

t.test('an address that is withdrawn, over, unknown or of somebody who left leads nowhere, all alike', async (t) => {
  const goneBody = (await fetchAs('/calendar/made-up.ics')).body
  const isGone = (t: Test, answer: Answer, why: string): void => {
    t.equal(answer.statusCode, 404, why)
    t.equal(answer.body, goneBody, `${why}: the same page`)
  }
  const withdrawn = await handOut(technician, `person:${technician.personId}`)
  t.equal((await manager.post(`/calendars/${withdrawn.id}/revocations`)).statusCode, 303)
  isGone(t, await fetchAs(withdrawn.path), 'withdrawn')
  const short = await handOut(technician, `person:${technician.personId}`, 1)
  now = new Date(now.getTime() + 24 * 3600_000)
  isGone(t, await fetchAs(short.path), 'over')
  for (const path of ['/calendar/', '/calendar/x', `/calendar/${'x'.repeat(300)}.ics`, short.path.slice(0, -8)]) isGone(t, await fetchAs(path), path)
  const kept = await handOut(manager, `person:${technician.personId}`)
  t.equal((await fetchAs(kept.path)).statusCode, 200)
  await shop.database.write((write) => write.person.update({ where: { id: technician.personId }, data: { isActive: false } }))
  isGone(t, await fetchAs(kept.path), 'the person has left')
})
