import { statfs } from 'node:fs/promises'
import { z } from 'zod'
import { inspect } from '../shared/database/migrations.ts'
import type { App, Shell } from '../shared/shell.ts'

const LEAST_FREE_BYTES = 50 * 1024 * 1024
const ANYONE = { roles: 'anyone' } as const

const readiness = z.object({ ready: z.boolean(), problems: z.array(z.string()) })

/** For whatever watches the server: alive at all, and able to work; and how it lets go when it stops. */
export function registerHealth(app: App, shell: Shell): void {
  letGoWhenStopping(app)
  app.get('/health/live', { config: ANYONE, schema: { hide: true } }, async () => ({ live: true }))
  app.get('/health/ready', { config: ANYONE, schema: { hide: true, response: { 200: readiness, 503: readiness } } }, async (_request, reply) => {
    const problems = (await Promise.all([queryProblem(shell), migrationProblem(shell), diskProblem(shell)])).filter((problem) => problem !== '')
    return reply.status(problems.length === 0 ? 200 : 503).send({ ready: problems.length === 0, problems })
  })
}

// A browser holds its connection open for minutes after the last answer, and a stop waits for that.
function letGoWhenStopping(app: App): void {
  let isStopping = false
  app.addHook('preClose', async () => {
    isStopping = true
  })
  app.addHook('onSend', async (_request, reply) => {
    if (isStopping) reply.header('connection', 'close')
  })
}

async function queryProblem({ database }: Shell): Promise<string> {
  try {
    await database.reads.shop.findFirst({ select: { id: true } })
    return ''
  } catch (error) {
    return `the database does not answer: ${reasonOf(error)}`
  }
}

async function migrationProblem({ config }: Shell): Promise<string> {
  try {
    const pending = inspect(config.databaseFile)
    return pending.length === 0 ? '' : `${pending.length} migrations are pending`
  } catch (error) {
    return reasonOf(error)
  }
}

async function diskProblem({ config }: Shell): Promise<string> {
  const { bavail, bsize } = await statfs(config.dataDir)
  return bavail * bsize < LEAST_FREE_BYTES ? 'less than 50 MB are free for the data' : ''
}

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message.split('\n')[0] ?? '' : String(error))
