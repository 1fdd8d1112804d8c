import t from 'tap'
import { openSession, SESSION_COOKIE } from '../../server/shared/session.ts'
import { label } from '../../server/shared/records/kind.ts'
import type { Role } from '../../web/shared/viewer.ts'
import { demoSignIns, listDemoPages } from '../support/demoPages.ts'
import { addsUp, openersOn, readPrinted, unexplainedOn, workingsOn, type OpenedSum } from '../support/figuresOn.ts'
import { walk } from '../support/links.ts'
import { serveDemo, type ServedDemo } from '../support/servedDemo.ts'
import type { Answer, Visitor } from '../support/shop.ts'

// Of a page with more figures than this every tenth is opened: one answer computes the whole build.
const MOST_OPENED = 130

const demo = await serveDemo()
t.teardown(() => demo.close())
const visitors = await signInAll(demo)
const get = (role: Role | 'nobody', url: string): Promise<Answer> => visitors[role].get(url)

t.test('the look at figures sees one that neither opens nor was entered, and a sum that does not add up', (t) => {
  const cell = (inner: string, more = ''): string => `<table><thead><tr><th>A</th></tr></thead><tbody><tr><td class="figure${more}">${inner}</td></tr></tbody></table>`
  t.equal(unexplainedOn(cell('3.2')).length, 1)
  t.equal(unexplainedOn('<div><span>3.2 h to take out</span></div>').length, 1)
  t.equal(unexplainedOn('<div><b>1,200.00 USD</b></div>').length, 1)
  t.same(unexplainedOn(cell('3.2', ' recorded')), [])
  t.same(unexplainedOn(cell('<a href="?how=z4e">3.2</a>')), [])
  t.same(unexplainedOn(cell('3').replace('A</th>', 'A<sup class="note-no">1</sup></th>')), [])
  const sum: OpenedSum = { inputs: [{ label: 'a', source: 'b', amount: '1:10 h' }, { label: 'a', source: 'b', amount: '0:20 h' }], result: '1:30 h, rounded 1.5 h', formula: 'sum', source: 'c', saysRounded: false }
  t.equal(addsUp(sum), null)
  t.match(addsUp({ ...sum, result: '1:31 h, rounded 1.5 h' }), /is not 1:31 h/)
  t.same(readPrinted('1,234.50 USD'), { value: 1_234_500_000, unit: 'USD' })
  t.end()
})

t.test('every figure on every page opens how it comes about, has a note on paper, or says that somebody entered it', async (t) => {
  const pages = await listDemoPages(demo.database)
  for (const { name, path, role } of pages) {
    const { statusCode, body } = await get(role, path)
    if (statusCode === 200) t.same([...new Set(unexplainedOn(body))], [], name)
  }
  const builds = await demo.database.reads.build.findMany({ where: { OR: [{ kind: 'show build' }, { holding: 'leased' }, { kind: 'counter job' }] }, select: { id: true }, take: 4 })
  const seen = await walk(visitors.manager, builds.flatMap(({ id }) => [`/builds/${id}`, `/builds/${id}/restoration?scope=all`]))
  t.ok(seen.length > 60, `${seen.length} pages were looked at`)
  for (const { url, status, body, type } of seen) {
    if (status === 200 && type.startsWith('text/html')) t.same([...new Set(unexplainedOn(body))], [], url)
  }
})

t.test('all figures of ten pages open: the working names inputs, formula and source, comes to what was pressed, and its sums add up', async (t) => {
  const { id: leased } = await demo.database.reads.build.findFirstOrThrow({ where: { holding: 'leased', stage: 'delivered' }, select: { id: true } })
  const { id: counter } = await demo.database.reads.build.findFirstOrThrow({ where: { kind: 'counter job' }, select: { id: true } })
  const { id: part } = await demo.database.reads.fabricatedPart.findFirstOrThrow({ where: { buildId: leased, operations: { some: {} } }, select: { id: true } })
  const shown: readonly (readonly [Role, string])[] = [
    ['manager', '/builds'], ['manager', `/builds/${leased}`], ['manager', `/builds/${counter}`], ['manager', `/builds/${leased}/estimate`],
    ['manager', `/builds/${leased}/materials`], ['manager', `/parts/${part}`], ['manager', `/builds/${leased}/removal`], ['manager', `/builds/${leased}/restoration?scope=all`],
    ['manager', `/builds/${counter}/estimate`], ['manager', `/builds/${counter}/materials`], ['delivery', `/builds/${counter}`],
    ...(await listDemoPages(demo.database)).filter(({ name }) => ['comparison', 'template-preview', 'service-visit', 'spread', 'quote', 'what-if'].includes(name)).map(({ path }) => ['manager', path] as const),
    ['technician', '/now'], ['technician', '/hours'], ['technician', `/builds/${leased}`], ['delivery', `/builds/${leased}/estimate`],
  ]
  let opened = 0
  for (const [role, url] of shown) {
    const { body } = await get(role, url)
    const faults = workingsOn(body).flatMap((working) => faultsOf(working))
    const all = openersOn(body)
    const links = all.length > MOST_OPENED ? all.filter((_, index) => index % 10 === 0) : all
    for (const { href, text } of new Map(links.map((link) => [link.href, link])).values()) {
      const answer = await get(role, new URL(href, `http://shop${url}`).href.slice('http://shop'.length))
      const [working] = answer.statusCode === 200 ? workingsOn(answer.body) : []
      faults.push(...(working ? [...faultsOf(working), ...differs(text, working)] : [`answers ${answer.statusCode}`]).map((fault) => `${href}: ${fault}`))
    }
    t.same(faults, [], `${role}: ${url}, ${links.length} of ${all.length} figures`)
    opened += links.length
  }
  t.ok(opened > 150, `${opened} figures were opened`)
})

t.test('what a viewer may not see does not open, and what is not there is not found', async (t) => {
  const { id } = await demo.database.reads.build.findFirstOrThrow({ where: { kind: 'show build' }, select: { id: true } })
  const { number } = await demo.database.reads.equipmentLine.findFirstOrThrow({ where: { buildId: id }, select: { number: true } })
  const line = label('E', number)
  t.equal((await get('manager', `/builds/${id}?how=nothing`)).statusCode, 404)
  t.equal((await get('manager', `/builds/${id}/materials?how=${line}p`)).statusCode, 200)
  t.equal((await get('technician', `/builds/${id}/materials?how=${line}p`)).statusCode, 404, 'a price')
})

function faultsOf({ inputs, result, formula, source, ...rest }: OpenedSum): string[] {
  const unsaid = inputs.filter((input) => input.label === '' || input.source === '' || input.amount === '').map((input) => `an input without words: ${JSON.stringify(input)}`)
  const sum = addsUp({ inputs, result, formula, source, ...rest })
  return [...unsaid, ...(formula === '' ? ['no formula'] : []), ...(source === '' ? ['no source'] : []), ...(sum === null ? [] : [sum])]
}

/** The page may leave out the unit that stands at the head of the column, or say of what: "3 ×", "12 days". */
function differs(text: string, { result }: OpenedSum): string[] {
  const shown = result.split(', rounded ').at(-1)!
  return shown === text || shown.startsWith(`${text} `) || text.startsWith(`${shown} `) ? [] : [`shows ${text} and opens ${result}`]
}

async function signInAll({ app, database }: ServedDemo): Promise<Record<Role | 'nobody', Pick<Visitor, 'get'>>> {
  const names = await demoSignIns(database)
  const visitorFor = async (name: string): Promise<Pick<Visitor, 'get'>> => {
    const { id } = await database.reads.person.findFirstOrThrow({ where: { signInName: name }, select: { id: true } })
    const cookie = `${SESSION_COOKIE(false)}=${await database.write((write) => openSession(write, id, new Date()))}`
    return { get: (url) => app.inject({ url, headers: { cookie } }) }
  }
  return {
    nobody: { get: (url) => app.inject({ url }) }, owner: await visitorFor(names.owner), manager: await visitorFor(names.manager),
    technician: await visitorFor(names.technician), delivery: await visitorFor(names.delivery),
  }
}
