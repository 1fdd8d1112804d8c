import type { ReturnToStockData } from '../../web/restoration/returnToStock.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Role } from '../../web/shared/viewer.ts'
import { withoutMoney } from '../restoration/result.ts'
import { basisInWords } from '../restoration/unsettled.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { FrozenPicture } from './content.ts'
import type { StoredSheet } from './store.ts'

/** For whoever reads it: a role of the shop, or somebody with a link. */
export type PaperReader = Role | 'outside'

const PAPER_SIDE_PX = 140

/** A frozen sheet as it prints; prices stay in the shop. */
export function toPaper({ content, contentHash, createdAt }: StoredSheet, reader: PaperReader, pictures: ReadonlyMap<string, readonly FrozenPicture[]>, photoAt: (hash: string) => string): Omit<ReturnToStockData, 'backHref'> {
  const showsMoney = content.isPriced && reader !== 'outside' && MANAGERS.includes(reader)
  return {
    ...content.sheet, showsMoney, verdict: showsMoney ? content.sheet.verdict : withoutMoney(content.sheet.verdict),
    standing: `Frozen on ${writeDay(content.sheet.titleBlock.dateOfIssue)}, ${createdAt.toISOString().slice(11, 16)} UTC. ${basisInWords(content.asked.basis)} SHA-256 of its content: ${contentHash}.`,
    pictures: new Map([...pictures].map(([id, own]) => [id, own.map(({ hash, says, width, height }) => {
      const scale = Math.min(1, PAPER_SIDE_PX / Math.max(width, height, 1))
      return { src: `${photoAt(hash)}?size=small`, says: says || 'Photo of the part', width: Math.round(width * scale), height: Math.round(height * scale) }
    })])),
  }
}

/** The pictures of a sheet that nobody has taken away since. */
export function standingPictures({ content }: StoredSheet, standing: ReadonlySet<string>): ReadonlyMap<string, readonly FrozenPicture[]> {
  return new Map(Object.entries(content.pictures).map(([id, own]) => [id, own.filter(({ hash }) => standing.has(hash))]))
}

export const hashesOf = ({ content }: StoredSheet): string[] => Object.values(content.pictures).flat().map(({ hash }) => hash)
