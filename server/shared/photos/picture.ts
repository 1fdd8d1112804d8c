import sharp from 'sharp'
import { invalid } from '../problems.ts'

/** A picture as it is stored: JPEG, upright, without what the camera wrote into it. */
export interface Picture {
  readonly data: Buffer
  readonly small: Buffer
  readonly width: number
  readonly height: number
}

export const LARGEST_FILE_BYTES = 15_000_000
const LONGEST_SIDE_PX = 2000
const SMALL_SIDE_PX = 480
const MOST_PIXELS = 64_000_000
const LONGEST_WORK_S = 20

sharp.cache(false)

type Kind = 'JPEG' | 'PNG' | 'WebP' | 'HEIC'

/** The kind of a picture by its first bytes, whatever it calls itself. */
export function kindOf(data: Buffer): Kind | null {
  const text = data.subarray(0, 16).toString('latin1')
  if (text.startsWith('\xff\xd8\xff')) return 'JPEG'
  if (text.startsWith('\x89PNG\r\n\x1a\n')) return 'PNG'
  if (/^RIFF....WEBP/s.test(text)) return 'WebP'
  return /^....ftyp(?:hei|hev|mif|msf|avi)/s.test(text) ? 'HEIC' : null
}

let queue: Promise<unknown> = Promise.resolve()

/** Decodes and encodes anew, one picture at a time. Throws FieldProblems that name the file. */
export function toPicture(name: string, sent: Buffer): Promise<Picture> {
  const work = queue.then(() => convert(name, sent))
  queue = work.catch(() => undefined)
  return work
}

async function convert(name: string, sent: Buffer): Promise<Picture> {
  refuseStrange(name, sent)
  try {
    const { data, info } = await sharp(sent, { limitInputPixels: MOST_PIXELS, failOn: 'error' })
      .timeout({ seconds: LONGEST_WORK_S })
      .autoOrient().flatten({ background: '#ffffff' })
      .resize({ width: LONGEST_SIDE_PX, height: LONGEST_SIDE_PX, fit: 'inside', withoutEnlargement: true })
      .jpeg({ quality: 82 }).toBuffer({ resolveWithObject: true })
    return { data, small: await toSmall(data), width: info.width, height: info.height }
  } catch (error) {
    throw invalid('files', unreadable(name, error))
  }
}

/** The size that pages show. */
export function toSmall(data: Buffer): Promise<Buffer> {
  return sharp(data).resize({ width: SMALL_SIDE_PX, height: SMALL_SIDE_PX, fit: 'inside', withoutEnlargement: true }).jpeg({ quality: 74 }).toBuffer()
}

function refuseStrange(name: string, sent: Buffer): void {
  if (sent.length === 0) throw invalid('files', `${name} is empty: nothing of it arrived. Take or send it again.`)
  const kind = kindOf(sent)
  if (kind === null) throw invalid('files', `${name} is no picture that can be read here. Send JPEG, PNG or WebP.`)
  if (kind === 'HEIC') {
    throw invalid('files', `${name} is stored as HEIC or AVIF, which cannot be read here. Set the camera to JPEG, often called “most compatible”, or share the picture as JPEG.`)
  }
}

function unreadable(name: string, error: unknown): string {
  const reason = error instanceof Error ? error.message : ''
  if (/pixel limit/i.test(reason)) return `${name} has more than ${MOST_PIXELS / 1_000_000} million pixels. Make it smaller and send it again.`
  if (/timeout/i.test(reason)) return `${name} takes too long to read. Save it anew as JPEG and send that.`
  return `${name} is damaged or broke off on the way. Take or send it again.`
}
