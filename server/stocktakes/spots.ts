import type { Reads, Write } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { findBin, findBuild, getBin, type ExpectedPart } from './store.ts'

/** A bin, or a place in words, where parts of a build should lie. */
export interface Spot {
  readonly key: string
  readonly binId: string | null
  readonly place: string
  readonly build: { readonly id: string, readonly number: number, readonly title: string }
  readonly name: string
}

/** One word for a spot, whether bin or place. */
export const spotKey = ({ binId, place, buildId }: { readonly binId: string | null, readonly place: string, readonly buildId: string }): string => binId ?? `${buildId} ${place}`

/** Where a part should be, by the records. */
export function spotOf(part: ExpectedPart): Spot {
  const { binId, bin, place, build } = part
  return { key: spotKey(part), binId, place: binId === null ? place : '', build, name: bin ? `${label('A', bin.number)} ${bin.place}` : place || 'Out, and no place recorded' }
}

export async function spotOfBin(client: Reads | Write, binId: string): Promise<Spot> {
  const { id, number, place, build } = await getBin(client, binId)
  return { key: id, binId: id, place: '', build, name: `${label('A', number)} ${place}` }
}

/** A place in words, as it stands at the parts of a build. Throws a 404. */
export async function spotOfPlace(client: Reads | Write, buildNumber: number, place: string): Promise<Spot> {
  const build = await findBuild(client, buildNumber)
  if (!build) throw notFound('build')
  return { key: spotKey({ binId: null, place, buildId: build.id }), binId: null, place, build, name: place || 'Out, and no place recorded' }
}

/** The bin that was typed or scanned, as "B-0231 A-3" or the address its code holds; null where nothing fits. */
export async function findSpot(reads: Reads, typed: string): Promise<string | null> {
  const read = /B-?0*(\d{1,6})\D+A-?0*(\d{1,6})\s*$/i.exec(typed.trim())
  if (!read) return null
  return (await findBin(reads, Number(read[1]), Number(read[2])))?.id ?? null
}

export const spotHref = (take: number, { binId, place, build }: Spot): string =>
  binId ? `/stock-takes/${take}/bins/${binId}` : `/stock-takes/${take}/places?${new URLSearchParams({ build: String(build.number), place }).toString()}`
