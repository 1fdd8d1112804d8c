import type { Reads, Write } from '../shared/database/database.ts'

/** What no story of a build may tell: whose it is, where they live, what identifies vehicle and equipment, and who worked unless they agreed. */
export async function listPrivate(client: Reads | Write, buildId: string, showsPeople: boolean): Promise<string[]> {
  const build = await client.build.findUniqueOrThrow({
    where: { id: buildId },
    select: {
      consentBy: true, delivery: { select: { receivedBy: true } }, intake: { select: { signedName: true } },
      lines: { select: { serialNumbers: true } }, swaps: { select: { oldSerial: true, newSerial: true } },
      vehicle: { select: { vin: true, plate: true, customer: { select: { name: true, contact: true, phone: true, email: true, address: true } } } },
    },
  })
  const { vin, plate, customer } = build.vehicle
  const people = await client.person.findMany({ select: { name: true } })
  return [
    vin, plate, customer.name, customer.contact, customer.phone, customer.email, customer.address, ...customer.address.split('\n'),
    build.consentBy, build.delivery?.receivedBy ?? '', build.intake?.signedName ?? '',
    ...build.lines.flatMap(({ serialNumbers }) => serialNumbers.split(/[\n,;]/)), ...build.swaps.flatMap(({ oldSerial, newSerial }) => [oldSerial, newSerial]),
    ...(showsPeople ? [] : people.map(({ name }) => name)),
  ].map((value) => value.trim()).filter((value) => value !== '' && !/^none on (?:it|them)$/i.test(value))
}
