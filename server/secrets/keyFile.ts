import { randomBytes } from 'node:crypto'
import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readFileSync, realpathSync, writeSync } from 'node:fs'
import { dirname, join, sep } from 'node:path'

/** The key cannot be used, and why; it never holds the key itself. */
export class KeyProblem extends Error {}

const KEY_BYTES = 32

/** The key for what thieves want, or null where there is no file. Throws KeyProblem. */
export function findKey(file: string, dataDir: string): Buffer | null {
  refuseInside(file, dataDir)
  if (!existsSync(file)) return null
  const text = readFileSync(file, 'utf8').trim()
  const key = Buffer.from(text, 'base64')
  if (key.length !== KEY_BYTES || key.toString('base64') !== text) throw new KeyProblem(`The file ${file} holds no key of this program: 32 bytes, base64.`)
  return key
}

/** Makes a key where there is none yet; only its owner may read the file. */
export function makeKey(file: string, dataDir: string): Buffer {
  refuseInside(file, dataDir)
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 })
  const key = randomBytes(KEY_BYTES)
  const handle = openSync(file, 'wx', 0o600)
  try {
    writeSync(handle, `${key.toString('base64')}\n`)
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
  return key
}

// Who takes the data folder, or a backup in it, must not get the key with it; links are followed.
function refuseInside(file: string, dataDir: string): void {
  const folder = join(real(dataDir), sep)
  if (join(real(dirname(file)), sep).startsWith(folder) || (existsSync(file) && realpathSync(file).startsWith(folder))) {
    throw new KeyProblem(`The key ${file} lies inside the data folder ${dataDir}. Move it out and set THEFT_KEY_FILE.`)
  }
}

function real(folder: string): string {
  return existsSync(folder) ? realpathSync(folder) : join(real(dirname(folder)), folder.slice(dirname(folder).length))
}
