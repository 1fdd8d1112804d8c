import { ReturnToStockSheet } from './returnToStock.tsx'
import type { ReturnToStockData } from './returnToStock.tsx'
import type { Reader } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { PaperArticle } from '../shared/printSheet.tsx'
import { SharedFrame } from '../shared/sharedFrame.tsx'

export interface SharedSheetData {
  readonly data: Omit<ReturnToStockData, 'backHref'>
  readonly reader: Reader
  readonly shopName: string
  /** Begins the addresses of what belongs to the page. */
  readonly base: string
}

/** The return-to-stock sheet for whoever holds its link: to read, to print, to keep. */
export function SharedSheetPage({ data, reader, shopName, base }: SharedSheetData): JSX.Element {
  return (
    <SharedFrame title={`${data.titleBlock.number} ${data.titleBlock.title}`} shopName={shopName} kind="paper">
      <div class="paper-deeds">
        <a class="link" href={at(`${base}/files/sheet-A4.pdf`)}>PDF, A4</a>
        <a class="link" href={at(`${base}/files/sheet-Letter.pdf`)}>PDF, Letter</a>
        <button class="button" type="button" data-print hidden>Print</button>
        <span class="quiet">Keep a copy: this link does not work for ever.</span>
      </div>
      <PaperArticle titleBlock={data.titleBlock}><ReturnToStockSheet reader={reader} data={data} /></PaperArticle>
    </SharedFrame>
  )
}
