import type { Reads, Write } from '../shared/database/database.ts'
import type { RecordKind } from '../shared/records/kind.ts'
import { kindsReferredTo } from '../shared/records/kind.ts'
import { loadLinks } from '../shared/records/links.ts'
import type { Body } from '../shared/records/submission.ts'
import { writtenFields } from '../shared/records/submission.ts'
import { listRecords } from '../shared/records/table.ts'
import type { Role } from '../../web/shared/viewer.ts'
import { registerOf, type Register } from './identity.ts'
import { loadNames, type Names } from './names.ts'

/** What the shop has that a file is held against. */
export interface Opened {
  readonly register: Register
  /** Of the fields that refer to other records. */
  readonly names: ReadonlyMap<string, Names>
  /** Without what is set when a record is created and never changed. */
  changeable(body: Body): Body
}

export async function openRecords(client: Reads | Write, kind: RecordKind, buildId: string | null, role: Role): Promise<Opened> {
  const scope = buildId ? { buildId } : {}
  const hasLinks = Object.values(kind.fields).some(({ entry }) => entry.as === 'references')
  const plain = await listRecords(client, kind, scope)
  const standing = hasLinks ? await Promise.all(plain.map((row) => loadLinks(client, kind, row))) : plain
  const removed = await listRecords(client, kind, { ...scope, isRemoved: true })
  const open = new Set(writtenFields(kind, role, false).map(([name]) => name))
  return {
    register: registerOf(kind, standing, removed),
    names: await loadAllNames(client, kind, buildId),
    changeable: (body) => Object.fromEntries(Object.entries(body).filter(([name]) => open.has(name))),
  }
}

/** The names behind each field that refers to other records. */
export async function loadAllNames(client: Reads | Write, kind: RecordKind, buildId: string | null): Promise<ReadonlyMap<string, Names>> {
  const names = new Map<string, Names>()
  for (const [name, field] of Object.entries(kind.fields)) {
    if (kindsReferredTo(field.entry).length > 0) names.set(name, await loadNames(client, field, buildId))
  }
  return names
}
