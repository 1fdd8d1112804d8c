import type { FastifyRequest } from 'fastify'
import type { Logger } from 'pino'
import { withoutSecret } from './address.ts'

/** The same logger, which writes no address that opens a shared page. */
export function withoutSecrets(logger: Logger): Logger {
  return logger.child({}, {
    serializers: { req: (request: FastifyRequest) => ({ method: request.method, url: withoutSecret(request.url), host: request.host, remoteAddress: request.ip }) },
  })
}
