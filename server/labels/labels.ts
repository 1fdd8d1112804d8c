import type { Label } from '../../web/labels/labels.tsx'
import { whereaboutsOf } from '../calc/removal/custody.ts'
import { notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import type { Labeled } from './store.ts'

export const CHOICES = ['bins', 'parts out', 'bags of parts out', 'one part', 'one bag', 'one bin'] as const
export type Choice = typeof CHOICES[number]

type Part = Labeled['factoryParts'][number]
type Bin = Labeled['bins'][number]

/** The labels for what was chosen. Throws a 404 where the build has no such part or bin. */
export function toLabels(build: Labeled, what: Choice, number: number | null): Label[] {
  const out = build.factoryParts.filter((part) => whereaboutsOf(part) === 'stored')
  const onePart = (): Part => found(build.factoryParts, number, 'factory part')
  if (what === 'bins') return build.bins.map((bin) => ofBin(build, bin))
  if (what === 'one bin') return [ofBin(build, found(build.bins, number, 'bin'))]
  if (what === 'parts out') return out.map((part) => ofPart(build, part))
  if (what === 'one part') return [ofPart(build, onePart())]
  if (what === 'one bag') return [ofBag(build, onePart())]
  return out.filter(({ fasteners }) => fasteners.length > 0).map((part) => ofBag(build, part))
}

function found<Thing extends { readonly number: number }>(things: readonly Thing[], number: number | null, what: string): Thing {
  const thing = things.find((one) => one.number === number)
  if (!thing) throw notFound(what)
  return thing
}

const ofBuild = ({ number, vehicle: { make, model, year } }: Labeled) => ({ build: label('B', number), vehicle: [make, model, year].filter(Boolean).join(' ') })

/** The short, lasting address of a thing, which its code holds. @example scanPath('B-0231', 'F-053') // '/scan/B-0231/F-053' */
export const scanPath = (build: string, thing: string): string => `/scan/${build}/${thing}`

function ofBin(build: Labeled, { number, place }: Bin): Label {
  const own = label('A', number)
  return { ...ofBuild(build), kind: 'Bin', number: own, name: place, zone: '', path: scanPath(label('B', build.number), own) }
}

function ofPart(build: Labeled, { number, name, zone }: Part): Label {
  const own = label('F', number)
  return { ...ofBuild(build), kind: 'Factory part', number: own, name, zone: `${zone.number} ${zone.name}`, path: scanPath(label('B', build.number), own) }
}

function ofBag(build: Labeled, part: Part): Label {
  const words = part.fasteners.map(({ kind, count, size }) => `${count} × ${[size, kind].filter((word) => word !== '').join(' ')}`)
  return { ...ofPart(build, part), kind: 'Fastener bag', name: `${part.name}: ${words.length === 0 ? 'fasteners' : words.join(', ')}` }
}
