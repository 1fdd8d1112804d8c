import { defineConfig } from 'prisma/config'

// Prisma looks for a native engine even for `generate`, which does not use it; any existing file
// satisfies the look-up where none can be downloaded.
process.env.PRISMA_SCHEMA_ENGINE_BINARY ??= process.execPath

export default defineConfig({ schema: 'prisma/schema.prisma' })
