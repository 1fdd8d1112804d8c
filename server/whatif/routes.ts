import { z } from 'zod'
import { WhatIfPage, type WhatIfData } from '../../web/whatif/whatIf.tsx'
import { writeAmount } from '../../web/shared/amount.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { loadBuild } from '../builds/store.ts'
import { loadQuote } from '../quotes/store.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { listThings, readAsked, whatIfQuery, type WhatIfBuild, type WhatIfTyped } from './asked.ts'
import { compare, whatIfWorkings, type Comparison } from './compared.ts'

const config = { roles: MANAGERS }
const figure = z.int().nullable()
const side = z.object({ hours: figure.describe('person-seconds with rework'), withoutRework: figure, price: figure.describe('minor units'), further: figure.describe('Further lines and supplies of the quote; null where there is none'), cost: figure.describe('As estimated'), margin: figure, marginShare: figure.describe('thousandths of the price'), markup: figure.describe('thousandths of the cost') })
const schema = z.object({ asItIs: side, whatIf: side, target: z.object({ margin: z.int(), price: z.int(), markup: z.int() }).nullable() })

/** What would move: another rate, something left out, a part made twice, a margin wanted. Nothing is written. */
export function registerWhatIf(app: App, { database: { reads } }: Shell): void {
  app.get('/builds/:id/what-if', { config, schema: { hide: true, params: idParams, querystring: whatIfQuery.extend({ how }) } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { how: key, ...typed } = request.query
    const build = await load(request.params.id)
    const { asked, problems } = readAsked(typed, build, viewer)
    const comparison = compare(build, asked)
    const data = toPage(build, typed, comparison, problems, viewer)
    if (key !== undefined) {
      const trail = [{ name: data.build, href: data.buildHref }, { name: 'What if', href: `${data.buildHref}/what-if?${data.address}` }]
      return sendWorking(reply, viewer, { workings: whatIfWorkings(comparison), how: key, place: 'builds', trail })
    }
    return sendPage(problems.length > 0 ? reply.status(422) : reply, WhatIfPage({ viewer, data }))
  })

  app.get('/api/builds/:id/what-if', {
    config, schema: { tags: ['figures'], summary: 'What hours, price and margin would come to; nothing is written', params: idParams, querystring: whatIfQuery, response: { 200: schema, ...problemAnswers } },
  }, async (request) => {
    const build = await load(request.params.id)
    const { asked, problems } = readAsked(request.query, build, viewerOn(request))
    if (problems.length > 0) throw new FieldProblems([...problems])
    return toAnswer(compare(build, asked))
  })

  async function load(id: string): Promise<WhatIfBuild> {
    return { quoted: await loadQuote(reads, id), stored: await loadBuild(reads, id) }
  }
}

function toAnswer({ rows, target }: Comparison): z.infer<typeof schema> {
  const of = (pick: 'asItIs' | 'whatIf'): z.infer<typeof side> => {
    const value = (key: string): number | null => rows.find((row) => row.key === key)?.[pick]?.result.value ?? null
    return { hours: value('h'), withoutRework: value('n'), price: value('p'), further: value('f'), cost: value('c'), margin: value('m'), marginShare: value('g'), markup: value('k') }
  }
  return { asItIs: of('asItIs'), whatIf: of('whatIf'), target: target && { margin: target.margin, price: target.price.result.value, markup: target.markup.result.value } }
}

function toPage({ stored, quoted }: WhatIfBuild, typed: WhatIfTyped, { rows, target }: Comparison, problems: readonly FieldProblem[], viewer: Viewer): WhatIfData {
  const { head, departments } = stored
  const things = listThings(stored)
  const options = (some: typeof things): WhatIfData['things'] => some.map(({ number, name }) => ({ value: number, label: `${number} ${name}` }))
  const address = new URLSearchParams([...(['department', 'price', 'cost', 'double', 'margin'] as const).flatMap((name): [string, string][] => (typed[name] === '' ? [] : [[name, typed[name]]])), ...(['drop', 'without'] as const).flatMap((name) => typed[name].map((number): [string, string] => [name, number]))])
  return {
    build: `${label('B', head.number)} ${head.title}`, buildHref: `/builds/${head.id}`, address: address.toString(), typed, problems,
    rows: rows.map(({ key, name, asItIs, whatIf }) => ({
      key, name, asItIs: asItIs ? writeAmount(asItIs.result, viewer) : '', whatIf: whatIf ? writeAmount(whatIf.result, viewer) : '',
      moves: asItIs && whatIf && whatIf.result.value !== asItIs.result.value ? writeAmount({ ...asItIs.result, value: whatIf.result.value - asItIs.result.value }, viewer) : '',
    })),
    target: target && { margin: writeAmount({ kind: 'share', value: target.margin }, viewer), price: writeAmount(target.price.result, viewer), markup: writeAmount(target.markup.result, viewer) },
    quoteOptions: quoted.build.quoteOptions.map(({ number, name, insteadOf }) => ({ value: String(number), label: `${number} ${name}${insteadOf.trim() === '' ? '' : ` (one of “${insteadOf.trim()}”)`}` })),
    departments: departments.map(({ id, name }) => ({ value: id, label: name })), things: options(things), parts: options(things.filter(({ isPart }) => isPart)),
  }
}
