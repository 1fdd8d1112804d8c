import type { FastifyError } from 'fastify'
import type { App } from '../shared/shell.ts'
import { Problem } from '../shared/problems.ts'

/** Forms with a file, for the routes of one scope: entries as text, the file as bytes. */
export function takeUploads(scope: App, largestBody: number): void {
  if (scope.hasContentTypeParser('multipart/form-data')) scope.removeContentTypeParser('multipart/form-data')
  scope.addContentTypeParser('multipart/form-data', { parseAs: 'buffer', bodyLimit: largestBody }, async (request: { headers: { 'content-type'?: string | undefined } }, body: Buffer) => {
    try {
      const form = await new Response(new Uint8Array(body), { headers: { 'content-type': request.headers['content-type'] ?? '' } }).formData()
      const entries = await Promise.all([...form].map(async ([name, value]) => [name, typeof value === 'string' ? value : new Uint8Array(await value.arrayBuffer())]))
      return Object.fromEntries(entries) as Record<string, unknown>
    } catch (error) {
      if (!(error instanceof TypeError)) throw error as FastifyError
      throw new Problem(400, 'Not understood', 'The form did not arrive whole. Send it again.')
    }
  })
}
