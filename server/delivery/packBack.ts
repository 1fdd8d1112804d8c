import { capital } from '../../web/shared/text.ts'
import type { SheetFastener } from '../calc/removal/fastenerText.ts'
import { writeTorque } from '../calc/figures.ts'
import { toRestoration } from '../restoration/result.ts'
import type { VehicleState } from '../restoration/store.ts'
import { basisInWords } from '../restoration/unsettled.ts'
import type { Pack } from './pack.ts'

/** The way back to stock as it is recorded now, for the whole vehicle. */
export function backOf(state: VehicleState, showsMoney: boolean): Pack['returnToStock'] {
  const found = toRestoration(state, { parts: 'all', basis: undefined })
  if ('sentence' in found) return { standing: `No order is possible: ${found.sentence}`, verdict: '', cautions: [], steps: [], partsToBuy: [] }
  const { verdict, checklist, basis } = found
  const why = [...verdict.reasons, ...verdict.needs].join(' ')
  return {
    standing: `Drawn from the records as they stood when this pack was made. ${basisInWords(basis)}`.trim(),
    verdict: `${capital(verdict.kind)}${why === '' ? '.' : `: ${why}`}`,
    cautions: checklist.cautions.map(({ number, signalWord, title, text }) => ({ number, signalWord, title, text })),
    steps: checklist.steps.map(({ number, phase, zoneName, itemNumber, text, fasteners, place, notes, cautionNumbers }) => ({
      number, phase, zone: zoneName, item: itemNumber, text, place, fasteners: fasteners.map(inWords).join('; '), notes: notes.join(' '), cautions: cautionNumbers.join(', '),
    })),
    partsToBuy: verdict.partsToBuy.map(({ name, count, forNumbers, priceMinor }) => ({ name, count, for: forNumbers.join(', '), ...(showsMoney && priceMinor !== null ? { price: priceMinor } : {}) })),
  }
}

function inWords({ text, torque }: SheetFastener): string {
  if (typeof torque === 'string') return torque === 'none applies' ? text : `${text}: ${torque}`
  return `${text}: ${writeTorque(torque.mNm)}, ${torque.source}`
}
