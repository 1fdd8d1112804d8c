import { z } from 'zod'
import { ScannedBinPage, ScannedPartPage } from '../../web/scan/scan.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { originOf } from '../shared/origin.ts'
import { sendPage } from '../shared/pages.ts'
import { notFound } from '../shared/problems.ts'
import { qrSvg } from '../shared/qrSymbol.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { label } from '../shared/records/kind.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { putIntoBin, readPressed } from './putting.ts'
import { scanAddress, scannedBin, scannedPart } from './scanData.ts'
import { getScannedBuild, loadAround, readThing, type Thing } from './store.ts'

const name = z.string().max(20)
const thingParams = z.object({ build: name, thing: name })
const savedQuery = z.object({ part: z.string().regex(/^\d{1,6}$/).optional().catch(undefined), bin: z.string().regex(/^\d{1,6}$/).optional().catch(undefined) })
const pressed = z.looseObject({ part: name.default(''), bin: name.default('') })

const wordOf = ({ kind, number }: Thing): string => label(kind === 'bin' ? 'A' : 'F', number)

/** What a scanned label opens, and what is pressed there. Who is not signed in signs in first and comes straight back. */
export function registerScan(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const config = { roles: EVERYBODY }

  app.get('/scan/:build', { config, schema: { hide: true, params: z.object({ build: name }) } }, async (request, reply) =>
    reply.redirect(`/builds/${(await getScannedBuild(reads, request.params.build)).id}`, 303))

  app.get('/scan/:build/:thing', { config, schema: { hide: true, params: thingParams, querystring: savedQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const build = await getScannedBuild(reads, request.params.build)
    const { kind, number } = readThing(request.params.thing)
    const { part, bin } = request.query
    const saved = part && bin ? `${label('F', Number(part))} is in ${label('A', Number(bin))}` : null
    return kind === 'bin'
      ? sendPage(reply, ScannedBinPage({ viewer, data: await scannedBin(reads, viewer, { build, number, saved }) }))
      : sendPage(reply, ScannedPartPage({ viewer, data: await scannedPart(reads, viewer, { build, number, saved }) }))
  })

  app.get('/scan/:build/:thing/code.svg', { config, schema: { hide: true, params: thingParams } }, async (request, reply) => {
    const build = await getScannedBuild(reads, request.params.build)
    const thing = readThing(request.params.thing)
    const { parts, bins } = await loadAround(reads, build.id)
    if (!(thing.kind === 'bin' ? bins : parts).some(({ number }) => number === thing.number)) throw notFound('label')
    return reply.type('image/svg+xml').header('cache-control', 'no-store').send(qrSvg(`${originOf(request, shell)}${scanAddress(build, wordOf(thing))}`))
  })

  app.post('/scan/:build/:thing/moves', { config, schema: { hide: true, params: thingParams, body: pressed } }, async (request, reply) => {
    const { role } = viewerOn(request)
    const build = await getScannedBuild(reads, request.params.build)
    const thing = readThing(request.params.thing)
    const [part, bin] = thing.kind === 'bin' ? [readPressed(request.body.part, 'F'), thing.number] : [thing.number, readPressed(request.body.bin, 'A')]
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      await putIntoBin(write, actorOf(request, shell), { buildId: build.id, part, bin, role })
      return { status: 303, location: `${scanAddress(build, wordOf(thing))}?part=${part}&bin=${bin}` }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })
}
