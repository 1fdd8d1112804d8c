import type { FastifyBaseLogger, FastifyInstance, RawServerDefault } from 'fastify'
import type { IncomingMessage, ServerResponse } from 'node:http'
import type { ZodTypeProvider } from 'fastify-type-provider-zod'
import type { Config } from '../config.ts'
import type { Database } from './database/database.ts'

/** What every subject's routes are given. */
export interface Shell {
  readonly config: Config
  readonly database: Database
  /** The present instant; tests set it. */
  clock(): Date
}

export type App = FastifyInstance<RawServerDefault, IncomingMessage, ServerResponse, FastifyBaseLogger, ZodTypeProvider>
