import type { Logger } from 'pino'
import type { Database } from '../shared/database/database.ts'

export async function announceFirstOwner(_database: Database, _logger: Logger): Promise<void> {
}
