import type { FastifyRequest } from 'fastify'
import { viewerOn } from '../access.ts'
import type { Actor } from '../audit.ts'
import type { Asked } from '../once.ts'
import { Problem } from '../problems.ts'
import type { Shell } from '../shell.ts'

/** Who makes this request, for the history. */
export function actorOf(request: FastifyRequest, shell: Shell): Actor {
  const viewer = viewerOn(request)
  return { personId: viewer.personId, personName: viewer.name, requestId: request.id, now: shell.clock() }
}

/** The request as far as repeating it goes: forms bring their key in a hidden field, the API in a header. */
export function askedOf(request: FastifyRequest): Asked {
  const body = request.body as Readonly<Record<string, unknown>> | undefined
  const key = request.headers['idempotency-key'] ?? body?._key
  return {
    key: typeof key === 'string' && key !== '' ? key : null,
    personId: viewerOn(request).personId,
    address: `${request.method} ${request.url}`,
    body,
  }
}

/** The version a change was made from: If-Match on the API, a hidden field in forms. */
export function versionOf(request: FastifyRequest): number {
  const body = request.body as Readonly<Record<string, unknown>> | undefined
  const given = /^(?:W\/)?"?(\d{1,9})"?$/.exec(String(request.headers['if-match'] ?? body?._version ?? ''))?.[1]
  if (given === undefined) {
    throw new Problem(428, 'Which version?', 'Send the version you read as If-Match, so that nobody’s change is overwritten unseen.')
  }
  return Number(given)
}
