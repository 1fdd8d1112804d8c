import type { Role } from '../../web/shared/viewer.ts'
import { getKind } from '../shared/records/kind.ts'

/** The address of a new record of a build's, or nothing where this role may not add one. A zone says which build it is of. */
export function addHref(role: Role, kindName: string, buildId: string, given: Readonly<Record<string, string>> = {}): string | undefined {
  const kind = getKind(kindName)
  if (!kind.changedBy.includes(role)) return undefined
  return `/${kind.path}/new?${new URLSearchParams(given.zoneId ? given : { build: buildId, ...given }).toString()}`
}
