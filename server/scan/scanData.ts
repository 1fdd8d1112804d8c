import { randomUUID } from 'node:crypto'
import type { PressChoice, ScannedBinData, ScannedPartData } from '../../web/scan/scan.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { whereaboutsOf } from '../calc/removal/custody.ts'
import { formatIn } from '../calc/figures.ts'
import { nextMoves } from '../custody/historyData.ts'
import { placeInWords } from '../custody/moveStore.ts'
import type { Reads } from '../shared/database/database.ts'
import { photosOf } from '../shared/photos/shown.ts'
import { notFound } from '../shared/problems.ts'
import { getKind, label } from '../shared/records/kind.ts'
import { getRecord } from '../shared/records/table.ts'
import { BENCH } from '../shared/roles.ts'
import { listFasteners, loadAround, type Around, type ScannedBuild, type ScannedPart } from './store.ts'

interface Asked {
  readonly build: ScannedBuild
  readonly number: number
  readonly saved: string | null
}

export const scanAddress = (build: { readonly number: number }, thing: string): string => `/scan/${label('B', build.number)}/${thing}`

const isNowhere = (part: ScannedPart): boolean => whereaboutsOf(part) === 'stored' && part.binId === null && part.place === ''
const isPressable = (part: ScannedPart, viewer: Viewer): boolean => whereaboutsOf(part) !== 'in the vehicle' || BENCH.includes(viewer.role)

export async function scannedBin(reads: Reads, viewer: Viewer, { build, number, saved }: Asked): Promise<ScannedBinData> {
  const { parts, bins, openTake } = await loadAround(reads, build.id)
  const bin = bins.find((one) => one.number === number)
  if (!bin) throw notFound('bin')
  const own = label('A', number)
  const isInIt = (part: ScannedPart): boolean => part.binId === bin.id && whereaboutsOf(part) === 'stored'
  const press = (part: ScannedPart): PressChoice => ({
    name: `${label('F', part.number)} ${part.name}`, more: placeInWords(part),
    post: { action: `${scanAddress(build, own)}/moves`, idempotencyKey: randomUUID(), values: [['part', String(part.number)]] },
  })
  const others = parts.filter((part) => !isInIt(part) && isPressable(part, viewer))
  return {
    build: buildOf(build), label: own, name: bin.place, note: bin.note, saved,
    holds: parts.filter(isInIt).map((part) => ({
      label: label('F', part.number), name: part.name, more: [part.zone.name, part.condition].filter((word) => word !== '').join(', '), href: scanAddress(build, label('F', part.number)),
    })),
    waiting: others.filter(isNowhere).map(press), others: others.filter((part) => !isNowhere(part)).map(press),
    count: openTake ? { href: `/stock-takes/${openTake.number}/bins/${bin.id}`, name: `Count it in stock-take ${openTake.number}` } : null,
    links: [
      { href: `/builds/${build.id}/custody`, name: 'Move several' }, { href: `/bins/${bin.id}`, name: 'The bin’s own page' },
    ],
  }
}

export async function scannedPart(reads: Reads, viewer: Viewer, { build, number, saved }: Asked): Promise<ScannedPartData> {
  const around = await loadAround(reads, build.id)
  const part = around.parts.find((one) => one.number === number)
  if (!part) throw notFound('factory part')
  const own = label('F', number)
  const kind = getKind('factory part')
  return {
    build: buildOf(build), label: own, name: part.name, saved, where: placeInWords(part), isOpen: isNowhere(part),
    facts: [{ label: 'Zone', text: part.zone.name }, { label: 'Condition', text: part.condition }, { label: 'Connectors', text: part.connectors }].filter(({ text }) => text !== ''),
    fasteners: (await listFasteners(reads, part.id)).map(fastenerInWords),
    bins: isPressable(part, viewer) ? binChoices(build, part, around) : [],
    next: nextMoves(build.id, part, viewer),
    photos: await photosOf(reads, kind, await getRecord(reads, kind, part.id), viewer, scanAddress(build, own)),
    links: [{ href: `/factory-parts/${part.id}/custody`, name: 'Where it has been' }, { href: `/factory-parts/${part.id}`, name: 'The part’s own page' }, { href: `/builds/${build.id}/removal?part=${part.id}`, name: 'What is in front of it' }],
  }
}

function binChoices(build: ScannedBuild, part: ScannedPart, { bins, parts }: Around): PressChoice[] {
  return bins.filter(({ id }) => id !== part.binId || whereaboutsOf(part) !== 'stored').map((bin) => {
    const count = parts.filter((other) => other.binId === bin.id && whereaboutsOf(other) === 'stored').length
    return {
      name: `${label('A', bin.number)} ${bin.place}`, more: count === 0 ? 'free' : `${count} in it`,
      post: { action: `${scanAddress(build, label('F', part.number))}/moves`, idempotencyKey: randomUUID(), values: [['bin', String(bin.number)]] },
    }
  })
}

const buildOf = (build: ScannedBuild): ScannedBinData['build'] => ({
  label: label('B', build.number), title: build.title, href: `/builds/${build.id}`, vehicle: [build.vehicle.make, build.vehicle.model, build.vehicle.year].filter(Boolean).join(' '),
})

type Fastener = Awaited<ReturnType<typeof listFasteners>>[number]

function fastenerInWords({ count, size, kind, drive, torque, torqueSource, isSingleUse, isSafety }: Fastener): string {
  const tight = torque === null ? 'torque: maker’s manual' : `${formatIn(torque, 'torque', 'N·m')}, ${torqueSource}`
  return [`${count} × ${[size, kind].filter((word) => word !== '').join(' ')}`, drive, ...(kind === 'clip' || kind === 'push pin' ? [] : [tight]), isSingleUse ? 'single-use' : '', isSafety ? 'belt, seat or airbag: by the maker’s manual only' : '']
    .filter((word) => word !== '').join(', ')
}
