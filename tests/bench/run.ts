import Fastify from 'fastify'
import { billOfMaterials } from '../../server/calc/parts/billOfMaterials.ts'
import { toInputs } from '../../server/builds/inputs.ts'
import { loadBuild } from '../../server/builds/store.ts'
import { loadVehicleState } from '../../server/restoration/store.ts'
import { findEverywhere } from '../../server/search/results.ts'
import { openSession, SESSION_COOKIE } from '../../server/shared/session.ts'
import { benchBigShop } from './bigShop.ts'
import { benchEstimatesLog } from './estimatesLog.ts'
import { benchPublishedProjects } from './publishedProjects.ts'
import { manyTimes } from './manyTimes.ts'
import { median, timesInTurn } from './measure.ts'
import { serveDemo, type ServedDemo } from '../support/servedDemo.ts'

// npm run bench: ratios within one run; single times depend on the machine and mean little.
const demo = await serveDemo()
await benchLedger(demo)
await benchBill(demo)
await benchSearch(demo)
benchEstimatesLog()
benchBigShop()
benchPublishedProjects(process.argv.includes('--full'))
await demo.close()
process.exit(0)

async function benchLedger({ app, database }: ServedDemo): Promise<void> {
  const { id } = await database.reads.build.findFirstOrThrow({ where: { kind: 'show build' }, select: { id: true } })
  const { id: personId } = await database.reads.person.findFirstOrThrow({ where: { role: 'manager' }, select: { id: true } })
  const secret = await database.write((write) => openSession(write, personId, new Date()))
  const cookie = `${SESSION_COOKIE(false)}=${secret}`
  const bare = Fastify()
  bare.get('/ledger/:id', async (request, reply) => {
    const { id: asked } = request.params as { id: string }
    const rows = [await loadBuild(database.reads, asked), await loadVehicleState(database.reads, asked)]
    return reply.type('text/html').send(rows.map((row) => JSON.stringify(row)).join('\n'))
  })
  const [page = [], plain = []] = await timesInTurn(30, [
    async () => {
      const answer = await app.inject({ url: `/builds/${id}`, headers: { cookie } })
      if (answer.statusCode !== 200) throw new Error(`the ledger answered ${answer.statusCode}`)
    },
    async () => {
      const answer = await bare.inject({ url: `/ledger/${id}` })
      if (answer.statusCode !== 200) throw new Error(`the bare handler answered ${answer.statusCode}`)
    },
  ])
  const sizeAs = async (encoding: string): Promise<number> =>
    Math.round((await app.inject({ url: `/builds/${id}`, headers: { cookie, 'accept-encoding': encoding } })).rawPayload.byteLength / 1000)
  const [size, brotli, gzip] = [await sizeAs('identity'), await sizeAs('br'), await sizeAs('gzip')]
  console.log(`ledger of the show build against a bare handler with the same queries: ${(median(page) / median(plain)).toFixed(2)} × (medians ${median(page).toFixed(1)} and ${median(plain).toFixed(1)} ms, 30 runs in turn); page ${size} kB, on the wire ${brotli} kB with Brotli or ${gzip} kB with gzip`)
  await bare.close()
}

async function benchBill({ database }: ServedDemo): Promise<void> {
  const { id } = await database.reads.build.findFirstOrThrow({ where: { kind: 'show build' }, select: { id: true } })
  const input = toInputs(await loadBuild(database.reads, id)).bill
  const sizes = [1, 10, 100]
  const times = await timesInTurn(7, sizes.map((factor) => {
    const grown = manyTimes(input, factor)
    return async () => void billOfMaterials(grown)
  }))
  const [base = 1] = times.map(median)
  for (const [index, factor] of sizes.entries()) {
    const own = median(times[index] ?? [])
    console.log(`bill of materials, show build × ${factor}: ${(own / base).toFixed(1)} × the time of × 1 (${own.toFixed(1)} ms, ${input.parts.length * factor} parts)`)
  }
}

// Finding nothing reads every table that is looked through: the rest is what fits.
async function benchSearch({ database: { reads } }: ServedDemo): Promise<void> {
  const search = (find: string) => async () => void await findEverywhere(reads, 'manager', { find, kindPath: undefined, page: 1 })
  const [word = [], rare = [], number = []] = await timesInTurn(15, [search('door'), search('no such thing'), search('F-021')])
  const base = median(rare)
  console.log(`search over the demo shop: ${(median(word) / base).toFixed(2)} × for a common word, ${(median(number) / base).toFixed(2)} × for a number, of what finding nothing takes (${base.toFixed(1)} ms)`)
}
