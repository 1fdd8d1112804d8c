import multipart, { type Multipart, type MultipartFile, type MultipartValue } from '@fastify/multipart'
import type { FastifyRequest } from 'fastify'
import { Problem } from '../problems.ts'
import type { App } from '../shell.ts'
import { LARGEST_FILE_BYTES } from './picture.ts'

declare module 'fastify' {
  interface FastifyRequest {
    upload: Upload | null
  }
  interface FastifyContextConfig {
    /** Takes a form with files: its fields come first, and are the body; 'anywhere' also takes those that come after, once the files are read. */
    takesFiles?: true | 'anywhere'
  }
}

export const MOST_FILES = 10
const LARGEST_MB = LARGEST_FILE_BYTES / 1_000_000
const LARGEST_REQUEST_BYTES = MOST_FILES * LARGEST_FILE_BYTES + 1_000_000
const LIMITS = { fileSize: LARGEST_FILE_BYTES, files: MOST_FILES, fields: 60, fieldSize: 32_000, fieldNameSize: 100, parts: 80, headerPairs: 60 }

/** What of a form with files has not been read yet. */
interface Upload {
  readonly first: MultipartFile
  readonly others: AsyncIterator<Multipart>
}

export interface SentFile {
  readonly name: string
  readonly data: Buffer
  /** Cut off where it grew too long. */
  readonly isTooLarge: boolean
}

/** A scope whose routes may say that they take files; no other route reads such forms. */
export async function takeUploads(app: App, routes: (scope: App) => void): Promise<void> {
  await app.register(async (scope) => {
    await scope.register(multipart, { limits: LIMITS, throwFileSizeLimit: false })
    routes(scope as unknown as App)
  })
}

/**
 * Reads the fields of a form with files up to its first file. The guard against forgery is among them,
 * so it is checked before any file is looked at.
 */
export async function readFields(request: FastifyRequest): Promise<void> {
  if (!request.routeOptions.config.takesFiles || !request.isMultipart()) return
  if (Number(request.headers['content-length'] ?? 0) > LARGEST_REQUEST_BYTES) throw tooMuch()
  const parts = request.parts()
  const fields: Record<string, string | string[]> = {}
  for (;;) {
    const next = await parts.next().catch(refuse)
    if (next.done === true) break
    if (next.value.type === 'file') {
      request.upload = { first: next.value, others: parts }
      break
    }
    if (next.value.valueTruncated) throw tooLong(next.value.fieldname)
    keep(fields, next.value.fieldname, String(next.value.value))
  }
  request.body = fields
}

function keep(fields: Record<string, string | string[]>, name: string, value: string): void {
  const before = fields[name]
  fields[name] = before === undefined ? value : [...[before].flat(), value]
}

/** The files of the form, one at a time, so that only one lies in memory. */
export async function* filesOf(request: FastifyRequest): AsyncGenerator<SentFile> {
  const { upload } = request
  if (!upload) return
  let part: Multipart | null = upload.first
  while (part) {
    if (part.type !== 'file') {
      keepLate(request, part)
      part = await nextPart(upload)
      continue
    }
    const data = await part.toBuffer().catch(refuse)
    // A form where nothing was chosen sends one empty file without a name.
    if (data.length > 0 || part.filename) yield { name: nameOf(part), data, isTooLarge: part.file.truncated }
    part = await nextPart(upload)
  }
}

async function nextPart({ others }: Upload): Promise<Multipart | null> {
  const next: IteratorResult<Multipart> = await others.next().catch(refuse)
  return next.done === true ? null : next.value
}

// The guard against forgery has been checked by then, so it cannot come late.
function keepLate(request: FastifyRequest, { fieldname, value, valueTruncated }: MultipartValue): void {
  if (valueTruncated) throw tooLong(fieldname)
  if (request.routeOptions.config.takesFiles !== 'anywhere') throw new Problem(400, 'Files come last', `The entry ${fieldname} comes after a file. Send all entries before the files.`)
  keep(request.body as Record<string, string | string[]>, fieldname, String(value))
}

export const tooLarge = (name: string): Problem => new Problem(413, 'Too large', `${name} has more than ${LARGEST_MB} MB. Make it smaller and send it again.`)

const nameOf = (part: MultipartFile): string => part.filename?.slice(0, 80) || 'A file without a name'

const tooLong = (name: string): Problem => new Problem(413, 'Too large', `The entry ${name} is too long.`)

const tooMuch = (): Problem => new Problem(413, 'Too large', `At most ${MOST_FILES} pictures of up to ${LARGEST_MB} MB each fit into one sending.`)

function refuse(error: { code?: string }): never {
  if (error.code === 'FST_FILES_LIMIT' || error.code === 'FST_PARTS_LIMIT' || error.code === 'FST_FIELDS_LIMIT') throw tooMuch()
  if (error.code?.startsWith('FST_')) throw new Problem(400, 'Not understood', 'The sending broke off or is no form. Send it again.')
  if (error instanceof Error && /multipart|terminated early|boundary/i.test(error.message)) throw new Problem(400, 'Not understood', 'The sending broke off or is no form. Send it again.')
  throw error
}
