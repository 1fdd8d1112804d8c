import swagger from '@fastify/swagger'
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { completed } from './apiDocument.ts'
import { projectFolder } from './database/projectFolder.ts'
import type { App } from './shell.ts'

const version = (JSON.parse(readFileSync(join(projectFolder(), 'package.json'), 'utf8')) as { version: string }).version

/** Serves the description of all that stands under /api, read off the routes themselves. */
export async function describeApi(app: App): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Putback', version,
        description: 'The same records and figures as the pages. Send an access token as Bearer. Every POST takes an Idempotency-Key; '
          + 'every PATCH needs the version that was read as If-Match. Refusals are problem details (RFC 9457).',
      },
      components: { securitySchemes: { token: { type: 'http', scheme: 'bearer' } } },
      security: [{ token: [] }],
    },
    hideUntagged: true,
    transform: jsonSchemaTransform,
    transformObject: (given) => completed(jsonSchemaTransformObject(given) as Parameters<typeof completed>[0]) as ReturnType<typeof jsonSchemaTransformObject>,
  })
  app.get('/api/openapi.json', { config: { roles: 'anyone' }, schema: { hide: true } }, async () => app.swagger())
}
