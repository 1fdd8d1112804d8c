import { addExactly } from '../calc/rounding.ts'
import { formatQuantity } from '../calc/figures.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { refuseAnswered } from './answeredStore.ts'
import { invalid, Problem } from '../shared/problems.ts'
import type { Draft, Values } from '../shared/records/kind.ts'

const WHOLE = 1000

export async function checkQuote(client: Reads | Write, { before, values }: Draft): Promise<undefined> {
  if (!before && await client.quote.count({ where: { buildId: String(values.buildId) } }) > 0) {
    throw new Problem(409, 'There is a quote already', 'A build has one quote, in revisions. Change that.')
  }
  return undefined
}

export async function checkOption(client: Reads | Write, { id, values, before }: Draft): Promise<undefined> {
  const buildId = String(values.buildId ?? before?.buildId)
  const twin = await client.quoteOption.findFirst({ where: { buildId, removedAt: null, name: String(values.name), ...(id ? { id: { not: id } } : {}) }, select: { number: true } })
  if (twin) throw invalid('name', `Option ${twin.number} has this name already: the customer could not tell them apart.`)
  return undefined
}

/** What stands in an option keeps it. */
export async function holdsOption(client: Reads | Write, row: Row): Promise<string | null> {
  const where = { optionId: row.id, removedAt: null }
  const counts = await Promise.all([client.equipmentLine.count({ where }), client.fabricatedPart.count({ where }), client.quoteLine.count({ where })])
  const count = addExactly(counts)
  return count === 0 ? null : `${count} of the equipment lines, made parts and quote lines stand in it. Take them out of the option first.`
}

export async function checkLine(client: Reads | Write, { values }: Draft): Promise<undefined> {
  const amount = Math.abs(Number(values.quantity) / WHOLE * Number(values.price))
  if (amount > 2_000_000_000) throw invalid('price', 'Quantity times price is more than can be kept. Check both.')
  const option = typeof values.optionId === 'string' ? await client.quoteOption.findUnique({ where: { id: values.optionId }, select: { removedAt: true } }) : null
  if (option?.removedAt) throw invalid('optionId', 'This option was taken away. Choose another, or none.')
  if (typeof values.changeOrderId !== 'string') return undefined
  if (option) throw invalid('optionId', 'A change order has no options: the customer says yes or no to all of it.')
  await refuseAnswered(client, values.changeOrderId)
  return undefined
}

/** A line of an accepted change order stays. */
export async function holdsLine(client: Reads | Write, row: Row): Promise<string | null> {
  if (typeof row.changeOrderId === 'string') await refuseAnswered(client, row.changeOrderId)
  return null
}

/** All steps together ask for no more than the whole. */
export async function checkDeposits(client: Reads | Write, { id, values, before }: Draft): Promise<Values> {
  const buildId = String(values.buildId ?? before?.buildId)
  const others = await client.depositStep.findMany({ where: { buildId, removedAt: null, ...(id ? { id: { not: id } } : {}) }, select: { share: true } })
  const taken = addExactly(others.map(({ share }) => share))
  if (taken + Number(values.share) > WHOLE) {
    throw invalid('share', `The other steps ask for ${formatQuantity(taken, 'share', 'metric')} already; all together are at most 100 %, so this is at most ${formatQuantity(WHOLE - taken, 'share', 'metric')}.`)
  }
  return {}
}
