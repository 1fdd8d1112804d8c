import type { Config } from '../config.ts'
import type { Reads } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'
import { findKey, KeyProblem, makeKey } from './keyFile.ts'
import { seal, SealBroken, unseal } from './seal.ts'
import { findSealed, type StoredSecret } from './store.ts'

type Keeping = Pick<Config, 'theftKeyFile' | 'dataDir'>

/** Why codes cannot be opened at present, for whoever runs the server; null where they can, or where none are kept. */
export async function findKeyProblem(reads: Reads, keeping: Keeping): Promise<string | null> {
  const sealed = await findSealed(reads)
  try {
    const key = findKey(keeping.theftKeyFile, keeping.dataDir)
    if (!sealed) return null
    if (!key) return `Codes are kept, but their key is missing: there is no file ${keeping.theftKeyFile}. Put it back; a new key cannot open them.`
    unseal(key, sealed.sealed, sealed)
    return null
  } catch (error) {
    if (error instanceof KeyProblem) return error.message
    if (error instanceof SealBroken) return `The key ${keeping.theftKeyFile} does not open what is kept. Put the right key back.`
    throw error
  }
}

/** The key to seal with; made at first use, never where something is sealed with another. Throws a 503. */
export async function keyToSeal(reads: Reads, keeping: Keeping): Promise<Buffer> {
  const problem = await findKeyProblem(reads, keeping)
  if (problem !== null) throw unusable()
  return findKey(keeping.theftKeyFile, keeping.dataDir) ?? makeKey(keeping.theftKeyFile, keeping.dataDir)
}

/** What is sealed, in clear. Throws a 503 without the key, a 409 where the text was tampered with. */
export function open(secret: StoredSecret, keeping: Keeping): string {
  const key = keyOrNull(keeping)
  if (!key) throw unusable()
  try {
    return unseal(key, secret.sealed, secret)
  } catch (error) {
    if (error instanceof SealBroken) throw new Problem(409, 'It does not open', 'What is kept was changed, or sealed with another key. Ask the customer again, then erase it here and enter it anew.')
    throw error
  }
}

function keyOrNull({ theftKeyFile, dataDir }: Keeping): Buffer | null {
  try {
    return findKey(theftKeyFile, dataDir)
  } catch (error) {
    if (error instanceof KeyProblem) throw unusable()
    throw error
  }
}

export { seal }

const unusable = (): Problem => new Problem(503, 'The key is missing or wrong', 'Codes can neither be kept nor opened. Whoever runs the server finds the reason in its log, under THEFT_KEY_FILE.')
