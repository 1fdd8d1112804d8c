import type { Reads } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

export type StoredIntake = Awaited<ReturnType<typeof loadIntake>>

/** How a build's vehicle came: intake, marks, fault codes, with build, vehicle and shop. Throws a 404. */
export async function loadIntake(reads: Reads, buildId: string) {
  const [build, shop] = await Promise.all([
    reads.build.findFirst({
      where: { id: buildId, removedAt: null },
      select: {
        id: true, number: true, title: true, stage: true,
        vehicle: { select: { id: true, version: true, make: true, model: true, year: true, body: true, vin: true, factoryOptions: true, customer: { select: { name: true } } } },
        intake: true,
        marks: { where: { removedAt: null }, orderBy: [{ number: 'asc' }] },
        faultCodes: { where: { removedAt: null }, orderBy: [{ readOn: 'asc' }, { id: 'asc' }] },
      },
    }),
    reads.shop.findFirst({ select: { name: true, address: true, phone: true, timeZone: true } }),
  ])
  if (!build) throw notFound('build')
  const walkedBy = build.intake?.walkedById ? await reads.person.findUnique({ where: { id: build.intake.walkedById }, select: { name: true } }) : null
  return { build, shop: shop ?? { name: '', address: '', phone: '', timeZone: 'UTC' }, walkedBy: walkedBy?.name ?? '' }
}
