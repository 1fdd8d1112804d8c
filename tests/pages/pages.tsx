import { LedgerPage } from '../../web/builds/ledger.tsx'
import { NowPage } from '../../web/now/now.tsx'
import { PartPage } from '../../web/parts/part.tsx'
import { ReturnToStockPage } from '../../web/restoration/returnToStock.tsx'
import { emptyLedger, ledger } from './samples/ledger.ts'
import { idleNow, now } from './samples/now.ts'
import { part } from './samples/part.ts'
import { returnToStock } from './samples/returnToStock.ts'
import { manager, technician } from './samples/viewer.ts'

/** Every page with an invented sample, by name. */
export function listPages(): readonly (readonly [name: string, page: JSX.Element])[] {
  return [
    ['ledger', <LedgerPage viewer={manager} data={ledger} />],
    ['ledger-empty', <LedgerPage viewer={manager} data={emptyLedger} />],
    ['part', <PartPage viewer={manager} data={part} />],
    ['now', <NowPage viewer={technician} data={now} />],
    ['now-idle', <NowPage viewer={technician} data={idleNow} />],
    ['return-to-stock', <ReturnToStockPage viewer={manager} data={returnToStock} />],
  ]
}
