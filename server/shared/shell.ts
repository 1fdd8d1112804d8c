import type { FastifyBaseLogger, FastifyInstance, RawServerDefault } from 'fastify'
import type { IncomingMessage, ServerResponse } from 'node:http'
import type { ZodTypeProvider } from 'fastify-type-provider-zod'
import type { Config } from '../config.ts'
import type { Database } from './database/database.ts'
import type { PhotoFiles } from './photos/files.ts'

/** What every subject's routes are given. */
export interface Shell {
  readonly config: Config
  readonly database: Database
  /** Where pictures lie; the folder of the settings unless a test says otherwise. */
  readonly photoFiles?: PhotoFiles
  /** The present instant; tests set it. */
  clock(): Date
}

export type App = FastifyInstance<RawServerDefault, IncomingMessage, ServerResponse, FastifyBaseLogger, ZodTypeProvider>
