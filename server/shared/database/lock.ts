import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'

/** Another server has the data open. */
export class DataInUse extends Error {}

const lockFile = (databaseFile: string): string => `${databaseFile}.server`

/** Marks the data as served by this process; returns what takes the mark away again. */
export async function lockData(databaseFile: string): Promise<() => void> {
  const holder = holderOf(databaseFile)
  if (holder !== null) throw new DataInUse(`The data ${databaseFile} is served by process ${holder} already. Stop it first.`)
  mkdirSync(dirname(databaseFile), { recursive: true })
  writeFileSync(lockFile(databaseFile), String(process.pid))
  return () => rmSync(lockFile(databaseFile), { force: true })
}

/** The process that serves this data, or null; a mark left by a killed process does not count. */
export function holderOf(databaseFile: string): number | null {
  const pid = readPid(lockFile(databaseFile))
  if (pid === null || pid === process.pid) return null
  try {
    process.kill(pid, 0)
    return pid
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EPERM') return pid
    return null
  }
}

function readPid(file: string): number | null {
  try {
    const pid = Number(readFileSync(file, 'utf8'))
    return Number.isInteger(pid) && pid > 0 ? pid : null
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
}
