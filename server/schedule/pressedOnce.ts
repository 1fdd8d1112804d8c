import { randomUUID } from 'node:crypto'
import type { Database, Write } from '../shared/database/database.ts'
import { answerOnce, type Asked } from '../shared/once.ts'

/** Whether a request is not the repetition of an earlier one: what it begins beside the records is begun once. `work` belongs to the same write. */
export async function isFirstPress(database: Database, asked: Asked, work: (write: Write) => Promise<void> = async () => {}): Promise<boolean> {
  const own = randomUUID()
  const { body } = await answerOnce(database, asked, async (write) => {
    await work(write)
    return { status: 303, body: own }
  })
  return body === own
}
