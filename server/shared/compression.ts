import compress from '@fastify/compress'
import { constants } from 'node:zlib'
import type { App } from './shell.ts'

const SMALLEST_BYTES = 1024

/**
 * Pages, answers and stylesheets go smaller over a poor network. What is compressed tells by its length how
 * much of it repeats: a foreign page could send people here again and again with guesses in the address and
 * watch the wire. So nothing is compressed for whoever was sent from another site; the guard of forms is
 * masked anew on each page besides, and codes and tokens are shown once.
 */
export async function compressAnswers(app: App): Promise<void> {
  app.addHook('onRequest', async (request) => {
    if (request.headers['sec-fetch-site'] === 'cross-site') request.headers['x-no-compression'] = 'yes'
  })
  await app.register(compress, {
    global: true, threshold: SMALLEST_BYTES, encodings: ['br', 'gzip'],
    // The highest quality of Brotli takes longer than it saves.
    brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: 4 } },
  })
}
