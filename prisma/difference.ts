import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3'
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { migrate, MIGRATIONS } from '../server/shared/database/migrations.ts'

const SCHEMA = join(MIGRATIONS, '..', 'schema.prisma')

/** The SQL that leads from the migrations in the folder to schema.prisma; empty when they agree. */
export async function schemaDifference(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'putback-schema-'))
  try {
    const file = join(folder, 'replayed.db')
    await migrate(file)
    return await compare(file)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

async function compare(file: string): Promise<string> {
  const files = [{ path: SCHEMA, content: readFileSync(SCHEMA, 'utf8') }]
  const { SchemaEngine } = await loadEngine()
  const factory = bindMigrationAwareSqlAdapterFactory(new PrismaBetterSqlite3({ url: `file:${file}` }))
  const engine = await SchemaEngine.new({ datamodels: undefined }, () => undefined, factory)
  const result = await engine.diff({
    from: { tag: 'schemaDatasource', files, configDir: dirname(SCHEMA) },
    to: { tag: 'schemaDatamodel', files },
    script: true,
    exitCode: true,
    filters: { externalTables: ['AppliedMigration'], externalEnums: [] },
  })
  return result.exitCode === 2 ? String(result.stdout) : ''
}

// Node has WebAssembly; its types come only with those of browsers.
declare const WebAssembly: {
  compile(code: Uint8Array): Promise<object>
  instantiate(module: object, imports: object): Promise<{ exports: Record<string, unknown> }>
}

// The engine ships as WebAssembly with glue for bundlers; Node needs the two joined by hand.
async function loadEngine(): Promise<typeof import('@prisma/schema-engine-wasm/schema_engine_bg')> {
  const glue = await import('@prisma/schema-engine-wasm/schema_engine_bg')
  const home = dirname(createRequire(import.meta.url).resolve('@prisma/schema-engine-wasm/schema_engine_bg'))
  const module = await WebAssembly.compile(readFileSync(join(home, 'schema_engine_bg.wasm')))
  const instance = await WebAssembly.instantiate(module, { './schema_engine_bg.js': glue })
  glue.__wbg_set_wasm(instance.exports)
  ;(instance.exports.__wbindgen_start as () => void)()
  return glue
}
