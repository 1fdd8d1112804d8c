import sharp from 'sharp'
import { randomUUID } from 'node:crypto'
import { CSRF } from '../../server/shared/csrf.ts'
import type { Answer, TestShop, Visitor } from './shop.ts'

/** A position that must not be kept: GPS latitude 51.4779 N and the name of the camera. */
export const CAMERA = 'Testcamera No. 7'

/** A JPEG as a phone writes it: lying on its side, with its turn, its camera and where it was taken. */
export function phonePicture(shade = 120, width = 64, height = 40): Promise<Buffer> {
  return sharp({ create: { width, height, channels: 3, background: { r: shade, g: 90, b: 60 } } })
    .jpeg()
    .withExif({
      IFD0: { Make: CAMERA, Orientation: '6' },
      IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 28/1 4044/100', GPSLongitudeRef: 'W', GPSLongitude: '0/1 0/1 531/100' },
    })
    .withMetadata({ orientation: 6 })
    .toBuffer()
}

/** One of 4000 × 3000 with the grain of a dim bay, so that it is as many bytes as a phone makes of it. */
export const largePhonePicture = (): Promise<Buffer> =>
  sharp({ create: { width: 4000, height: 3000, channels: 3, background: '#777', noise: { type: 'gaussian', mean: 110, sigma: 12 } } }).jpeg({ quality: 88 }).withMetadata({ orientation: 6 }).toBuffer()

export interface SentFile {
  readonly name: string
  readonly data: Buffer
}

/** A form with files as a browser sends it (RFC 7578). */
export function multipart(fields: Readonly<Record<string, string>>, files: readonly SentFile[], field = 'files'): { payload: Buffer; headers: { 'content-type': string } } {
  const boundary = `----form${randomUUID()}`
  const parts = [
    ...Object.entries(fields).map(([name, value]) => Buffer.from(`--${boundary}\r\nContent-Disposition: form-data; name="${name}"\r\n\r\n${value}\r\n`)),
    ...files.flatMap(({ name, data }) => [
      Buffer.from(`--${boundary}\r\nContent-Disposition: form-data; name="${field}"; filename="${name}"\r\nContent-Type: application/octet-stream\r\n\r\n`), data, Buffer.from('\r\n'),
    ]),
    Buffer.from(`--${boundary}--\r\n`),
  ]
  return { payload: Buffer.concat(parts), headers: { 'content-type': `multipart/form-data; boundary=${boundary}` } }
}

/** Sends pictures with a token, as a program does. */
export function sendPhotos(shop: TestShop, visitor: Visitor, fields: Readonly<Record<string, string>>, files: readonly SentFile[], headers: Readonly<Record<string, string>> = {}): Promise<Answer> {
  const form = multipart(fields, files)
  return shop.app.inject({ method: 'POST', url: '/api/photos', payload: form.payload, headers: { ...form.headers, authorization: `Bearer ${visitor.token}`, ...headers } })
}

/** Sends a form with pictures as a signed-in browser does, with the session's guard unless the form brings its own. */
export async function postForm(shop: TestShop, visitor: Visitor, url: string, fields: Readonly<Record<string, string>>, files: readonly SentFile[], headers: Readonly<Record<string, string>> = {}): Promise<Answer> {
  const session = await shop.database.reads.session.findFirstOrThrow({ where: { personId: visitor.personId } })
  const form = multipart({ _csrf: CSRF.create(session.csrfSecret), _key: randomUUID(), ...fields }, files)
  return shop.app.inject({ method: 'POST', url, payload: form.payload, headers: { ...form.headers, cookie: visitor.cookie, ...headers } })
}
