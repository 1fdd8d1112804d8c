import type { Write } from '../shared/database/database.ts'

export const findIntake = (write: Write, buildId: string) => write.intake.findUnique({ where: { buildId } })

/** A vehicle by its id, or the one of a build. */
export async function findVehicle(write: Write, id: string | null, buildId = ''): Promise<{ version: number, factoryOptions: string, body: string }> {
  return write.vehicle.findFirstOrThrow({
    where: id === null ? { builds: { some: { id: buildId } } } : { id }, select: { version: true, factoryOptions: true, body: true },
  })
}

export async function storeFactoryOptions(write: Write, id: string, factoryOptions: string): Promise<void> {
  await write.vehicle.update({ where: { id }, data: { factoryOptions, version: { increment: 1 } } })
}

export async function storeSignature(write: Write, id: string, signed: { signedName: string, signature: string, signedAt: Date }): Promise<void> {
  await write.intake.update({ where: { id }, data: { ...signed, version: { increment: 1 } } })
}
