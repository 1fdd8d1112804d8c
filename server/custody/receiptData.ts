import type { ReceiptData } from '../../web/custody/receipt.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { loadReceipt, namesOf } from './readStore.ts'
import { whenInWords } from './words.ts'

/** The sheet for what was handed over together. */
export async function receiptData(reads: Reads, moveId: string, viewer: Viewer): Promise<ReceiptData> {
  const { build, together, number, at, shop } = await loadReceipt(reads, moveId)
  const { timeZone } = await shopOf(reads)
  const [first] = together
  const people = await namesOf(reads, [first?.personId ?? ''])
  const digits = label('B', build.number).slice('B-'.length)
  return {
    titleBlock: {
      owner: shop?.name || viewer.shopName || 'shop not named yet', ownerMore: [shop?.address ?? '', shop?.phone ?? ''].filter((text) => text !== '').join(', '),
      title: 'Parts taken home', subtitle: [build.title, [build.vehicle.make, build.vehicle.model, build.vehicle.year].filter(Boolean).join(' ')].join(', '),
      documentType: 'Receipt', number: `H-${digits}-${number}`, revision: '1', dateOfIssue: calendarDateIn(timeZone, at), language: 'en',
      createdBy: people.get(first?.personId ?? '') ?? '', approvedBy: first?.signedName ?? '', build: label('B', build.number), replaces: '',
    },
    backHref: `/builds/${build.id}/custody`, pdfHref: `/custody-moves/${moveId}/receipt.pdf`,
    parts: together.map(({ factoryPart: part, fromWords }) => ({
      label: label('F', part.number), name: part.name, zone: part.zone.name, makerNumber: part.partNumber, condition: part.condition, from: fromWords,
    })),
    keptAt: first?.place ?? '', note: first?.note ?? '',
    signed: { name: first?.signedName || 'not signed', when: whenInWords(timeZone, at), path: first?.signature ?? '' },
  }
}
