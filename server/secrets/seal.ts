import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto'

/** A text that does not open: changed, moved to another record, or sealed with another key. */
export class SealBroken extends Error {}

export interface Sealing {
  readonly nonce: Buffer
  readonly ciphertext: Buffer
  readonly tag: Buffer
}

const ALGORITHM = 'aes-256-gcm'
const NONCE_BYTES = 12
const TAG_BYTES = 16
const FORM = 'v1.'

/** AES-256 in Galois/Counter Mode, NIST SP 800-38D. */
export function encrypt(key: Buffer, nonce: Buffer, plain: Buffer, associated: Buffer): Sealing {
  const cipher = createCipheriv(ALGORITHM, key, nonce, { authTagLength: TAG_BYTES })
  cipher.setAAD(associated)
  const ciphertext = Buffer.concat([cipher.update(plain), cipher.final()])
  return { nonce, ciphertext, tag: cipher.getAuthTag() }
}

export function decrypt(key: Buffer, { nonce, ciphertext, tag }: Sealing, associated: Buffer): Buffer {
  const decipher = createDecipheriv(ALGORITHM, key, nonce, { authTagLength: TAG_BYTES })
  decipher.setAAD(associated)
  decipher.setAuthTag(tag)
  return Buffer.concat([decipher.update(ciphertext), decipher.final()])
}

/** What a sealed text is bound to: moved elsewhere it does not open. */
export interface SealedFor {
  readonly id: string
  readonly buildId: string
  readonly kind: string
}

const boundTo = ({ id, buildId, kind }: SealedFor): Buffer => Buffer.from(JSON.stringify([id, buildId, kind]), 'utf8')

/** A text to what is stored; another one at each call. */
export function seal(key: Buffer, text: string, of: SealedFor): string {
  const { nonce, ciphertext, tag } = encrypt(key, randomBytes(NONCE_BYTES), Buffer.from(text, 'utf8'), boundTo(of))
  return FORM + Buffer.concat([nonce, tag, ciphertext]).toString('base64url')
}

/** Throws SealBroken. */
export function unseal(key: Buffer, sealed: string, of: SealedFor): string {
  const data = Buffer.from(sealed.slice(FORM.length), 'base64url')
  if (!sealed.startsWith(FORM) || data.length < NONCE_BYTES + TAG_BYTES) throw new SealBroken('it is not of a known form')
  const parts = { nonce: data.subarray(0, NONCE_BYTES), tag: data.subarray(NONCE_BYTES, NONCE_BYTES + TAG_BYTES), ciphertext: data.subarray(NONCE_BYTES + TAG_BYTES) }
  try {
    return decrypt(key, parts, boundTo(of)).toString('utf8')
  } catch {
    throw new SealBroken('it was changed, belongs elsewhere, or was sealed with another key')
  }
}
