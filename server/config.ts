import { existsSync, readFileSync } from 'node:fs'
import { join, resolve, sep } from 'node:path'
import { z } from 'zod'

export interface Config {
  readonly host: string
  readonly port: number
  readonly dataDir: string
  readonly databaseFile: string
  readonly photosDir: string
  /** Of the key that codes and key places are sealed with; outside the data folder. */
  readonly theftKeyFile: string
  /** The most that pictures may take, all of them and those of one build. */
  readonly photosMb: number
  readonly photosBuildMb: number
  readonly publicUrl: URL
  /** Whether somebody set it; else it is only where the server listens. */
  readonly hasPublicUrl: boolean
  readonly isSecure: boolean
  readonly trustProxy: boolean
  readonly tls: { readonly cert: Buffer; readonly key: Buffer } | null
  readonly logLevel: string
  readonly isDemo: boolean
}

const LOOPBACK = ['127.0.0.1', 'localhost', '::1']

const environment = z.object({
  HOST: z.string().min(1).default('127.0.0.1'),
  PORT: z.coerce.number().int().min(0).max(65_535).default(3700),
  DATA_DIR: z.string().min(1).default('.data'),
  DATABASE_URL: z.string().startsWith('file:', 'only SQLite is served so far: write file:/path/to/putback.db').optional(),
  THEFT_KEY_FILE: z.string().min(1).optional(),
  PHOTOS_MB: z.coerce.number().int().min(1).max(10_000_000).default(20_000),
  PHOTOS_BUILD_MB: z.coerce.number().int().min(1).max(10_000_000).default(500),
  PUBLIC_URL: z.url().optional(),
  TLS_CERT_FILE: z.string().optional(),
  TLS_KEY_FILE: z.string().optional(),
  TRUST_PROXY: z.enum(['yes', 'no']).default('no'),
  LOG_LEVEL: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent']).default('info'),
  DEMO: z.enum(['yes', 'no']).default('no'),
})

/** Settings that cannot be used, each with its reason. */
export class ConfigError extends Error {
  constructor(problems: readonly string[]) {
    super(`These settings cannot be used:\n${problems.map((problem) => `  ${problem}`).join('\n')}`)
  }
}

/** Environment to settings. Throws ConfigError with all that is wrong at once. */
export function readConfig(env: Readonly<Record<string, string | undefined>>): Config {
  const parsed = environment.safeParse(withoutEmpty(env))
  if (!parsed.success) {
    throw new ConfigError(parsed.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`))
  }
  const values = parsed.data
  const problems = crossChecks(values)
  if (problems.length > 0) throw new ConfigError(problems)
  const tls = readTls(values.TLS_CERT_FILE, values.TLS_KEY_FILE)
  const dataDir = resolve(values.DATA_DIR)
  const publicUrl = new URL(values.PUBLIC_URL ?? `${tls ? 'https' : 'http'}://${values.HOST}:${values.PORT}`)
  return Object.freeze({
    host: values.HOST,
    port: values.PORT,
    dataDir,
    databaseFile: values.DATABASE_URL ? resolve(values.DATABASE_URL.slice('file:'.length)) : resolve(dataDir, 'putback.db'),
    photosDir: resolve(dataDir, 'photos'),
    theftKeyFile: resolve(values.THEFT_KEY_FILE ?? `${dataDir}.theft-key`),
    photosMb: values.PHOTOS_MB,
    photosBuildMb: values.PHOTOS_BUILD_MB,
    publicUrl,
    hasPublicUrl: values.PUBLIC_URL !== undefined,
    isSecure: publicUrl.protocol === 'https:',
    trustProxy: values.TRUST_PROXY === 'yes',
    tls,
    logLevel: values.LOG_LEVEL,
    isDemo: values.DEMO === 'yes',
  })
}

function crossChecks(values: z.infer<typeof environment>): string[] {
  const problems: string[] = []
  if (values.DEMO === 'yes' && !LOOPBACK.includes(values.HOST)) {
    problems.push('HOST: the demo has known sign-ins and serves this machine only; use 127.0.0.1')
  }
  if (Boolean(values.TLS_CERT_FILE) !== Boolean(values.TLS_KEY_FILE)) {
    problems.push('TLS_CERT_FILE and TLS_KEY_FILE go together: set both or neither')
  }
  if (values.PUBLIC_URL && new URL(values.PUBLIC_URL).pathname !== '/') {
    problems.push('PUBLIC_URL: a path behind the host is not served yet; give Putback a host name of its own')
  }
  if (values.THEFT_KEY_FILE && resolve(values.THEFT_KEY_FILE).startsWith(join(resolve(values.DATA_DIR), sep))) {
    problems.push('THEFT_KEY_FILE: the key must not lie inside DATA_DIR, or whoever takes the data takes the key with it')
  }
  for (const [name, file] of [['TLS_CERT_FILE', values.TLS_CERT_FILE], ['TLS_KEY_FILE', values.TLS_KEY_FILE]]) {
    if (file && !existsSync(file)) problems.push(`${name}: there is no file ${file}`)
  }
  return problems
}

function readTls(certFile: string | undefined, keyFile: string | undefined): Config['tls'] {
  return certFile && keyFile ? { cert: readFileSync(certFile), key: readFileSync(keyFile) } : null
}

function withoutEmpty(env: Readonly<Record<string, string | undefined>>): Record<string, string> {
  const filled = Object.entries(env).filter((entry): entry is [string, string] => Boolean(entry[1]))
  return Object.fromEntries(filled)
}
