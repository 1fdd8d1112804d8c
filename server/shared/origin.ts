import type { FastifyRequest } from 'fastify'
import type { Shell } from './shell.ts'

/** Where the shop is reached from outside: the address that was set, else the one by which it was just asked. */
export function originOf(request: FastifyRequest, { config }: Pick<Shell, 'config'>): string {
  return config.hasPublicUrl ? config.publicUrl.origin : `${request.protocol}://${request.host}`
}
