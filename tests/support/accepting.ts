import { writeAccepted } from '../../server/quotes/acceptedStore.ts'
import { storeRevision } from '../../server/quotes/revisionStore.ts'
import type { PaperContent } from '../../server/quotes/content.ts'
import { aPaper } from './aPaper.ts'
import type { TestShop } from './shop.ts'

const actorAt = (now: Date) => ({ personId: null, personName: 'Test', requestId: 'test', now })

/** The customer says yes to a frozen paper without options. */
export async function accept(shop: TestShop, revisionId: string, now: Date): Promise<void> {
  await shop.database.write(async (write) => {
    const { buildId, contentHash, netMinor, taxMinor } = await write.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } })
    await write.consent.create({ data: { buildId, revisionId, decision: 'accepted', typedName: 'Imre', contentHash, netMinor, taxMinor, way: 'in the shop', createdAt: now } })
    await writeAccepted(write, buildId, actorAt(now))
  })
}

/** A quote of 10,827.10 without tax, frozen and accepted; or another one. */
export async function acceptedQuote(shop: TestShop, buildId: string, now: Date, changes: Partial<PaperContent> = {}): Promise<void> {
  const content = aPaper({ options: [], lines: aPaper().lines.filter(({ option }) => option === null), ...changes })
  await accept(shop, await shop.database.write((write) => storeRevision(write, { buildId, changeOrderId: null, content }, actorAt(now))), now)
}
