import type { Reads } from '../shared/database/database.ts'
import { OPERATION_NAME } from './operationName.ts'

export async function buildOfOperation(reads: Reads, operationId: string): Promise<string | null> {
  const operation = await reads.operation.findFirst({ where: { id: operationId }, select: { buildId: true } })
  return operation?.buildId ?? null
}

/** The build that somebody logged hours on last. */
export async function lastBuildOf(reads: Reads, personId: string): Promise<string | null> {
  const entry = await reads.timeEntry.findFirst({ where: { personId }, orderBy: { startedAt: 'desc' }, select: { buildId: true } })
  return entry?.buildId ?? null
}

export function listBuilds(reads: Reads) {
  return reads.build.findMany({ where: { removedAt: null }, orderBy: { number: 'desc' }, select: { id: true, number: true, title: true } })
}

/** All operations of a build, done ones too: hours are often remembered late. */
export function listOperations(reads: Reads, buildId: string) {
  return reads.operation.findMany({
    where: { buildId, removedAt: null, build: { removedAt: null } }, orderBy: [{ number: 'asc' }, { id: 'asc' }], select: OPERATION_NAME,
  })
}
