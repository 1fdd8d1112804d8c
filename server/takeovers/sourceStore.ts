import type { Reads } from '../shared/database/database.ts'

export type SourceHead = Awaited<ReturnType<typeof listSources>>[number]

interface Wanted {
  readonly buildId: string
  readonly vehicle: { readonly make: string, readonly model: string }
  readonly isSameModel: boolean
  readonly words: readonly string[]
  readonly most: number
}

/** Other builds with something to take over, newest first; each word stands somewhere in title, vehicle or made parts. */
export function listSources(reads: Reads, { buildId, vehicle, isSameModel, words, most }: Wanted) {
  const same = { vehicle: { make: vehicle.make, model: vehicle.model } }
  const holds = words.map((word) => {
    const contains = { contains: word }
    const number = /^(?:B-?)?(\d{1,9})$/i.exec(word)?.[1]
    return {
      OR: [
        { title: contains }, { vehicle: { make: contains } }, { vehicle: { model: contains } },
        { parts: { some: { removedAt: null, OR: [{ name: contains }, { family: contains }] } } }, ...(number === undefined ? [] : [{ number: Number(number) }]),
      ],
    }
  })
  return reads.build.findMany({
    where: { AND: [{ id: { not: buildId }, removedAt: null }, isSameModel ? same : { NOT: same }, { OR: [{ parts: { some: { removedAt: null } } }, { lines: { some: { removedAt: null } } }, { factoryParts: { some: { removedAt: null } } }] }, ...holds] },
    orderBy: [{ number: 'desc' }], take: most,
    select: {
      id: true, number: true, title: true, kind: true, stage: true, vehicle: { select: { make: true, model: true, year: true, body: true } },
      zones: { where: { removedAt: null, factoryParts: { some: { removedAt: null } } }, orderBy: [{ number: 'asc' }], select: { id: true, number: true, name: true } },
      parts: { where: { removedAt: null }, orderBy: [{ number: 'asc' }], select: { id: true, number: true, name: true, family: true, goesInto: { where: { removedAt: null }, select: { id: true } } } },
      _count: { select: { operations: { where: { removedAt: null } }, factoryParts: { where: { removedAt: null } }, lines: { where: { removedAt: null } } } },
    },
  })
}

export function findVehicle(reads: Reads, buildId: string) {
  return reads.build.findFirst({ where: { id: buildId }, select: { vehicle: { select: { make: true, model: true, year: true } } } })
}
