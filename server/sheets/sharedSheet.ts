import { SharedSheetPage } from '../../web/restoration/sharedSheet.tsx'
import { shopOf } from '../shared/access.ts'
import { defineSharedPage } from '../shared/links/sharedPages.ts'
import { PAPERS } from '../shared/pdf/makeSheet.ts'
import { COUNTER } from '../shared/roles.ts'
import { hashesOf, standingPictures, toPaper } from './paper.ts'
import { paperPdf } from './paperRoutes.ts'
import { findSheet, listSheets, listStanding } from './store.ts'

// A lease or a resale may be years away, and the sheet has to be there then.
const LONGEST_DAYS = 3653

/** A frozen sheet can be read by link: without prices, with its pictures, as PDF too. */
export function registerSharedSheets(): void {
  defineSharedPage({
    subjectKind: 'return-to-stock sheet', roles: COUNTER, longestDays: LONGEST_DAYS,
    list: async (reads, buildId) => (await listSheets(reads, buildId)).map(({ id, number, title }) => ({ id, name: `return-to-stock sheet ${number}, ${title.slice(0, 80)}` })),
    draw: async ({ reads, subjectId, base }) => {
      const sheet = await findSheet(reads, subjectId)
      if (!sheet) return null
      const pictures = standingPictures(sheet, await listStanding(reads, sheet.buildId, hashesOf(sheet)))
      const { name } = await shopOf(reads)
      return SharedSheetPage({ data: toPaper(sheet, 'outside', pictures, (hash) => `${base}/photos/${hash}`), reader: { units: 'metric', currency: sheet.content.currency }, shopName: name, base })
    },
    photoHashes: async ({ reads, subjectId }) => {
      const sheet = await findSheet(reads, subjectId)
      return sheet ? [...await listStanding(reads, sheet.buildId, hashesOf(sheet))] : []
    },
    file: async ({ shell, request, reads, subjectId }, name) => {
      const sheet = await findSheet(reads, subjectId)
      const paper = PAPERS.find((size) => name === `sheet-${size}.pdf`)
      if (!sheet || !paper) return null
      return { type: 'application/pdf', data: await paperPdf({ shell, reads, sheet, paper, reader: 'outside', log: request.log }), name: `${sheet.number}.pdf` }
    },
  })
}
