import type { RestorationData } from '../../../web/restoration/restoration.tsx'
import { ledger } from './ledger.ts'
import { returnToStock } from './returnToStock.ts'
import { seconds } from './workings.ts'

const zones = ledger.zones.map(({ number, name, cameOut }) => ({
  number, name, parts: cameOut.map((item, index) => ({ id: `${number}-${index}`, number: item.number, name: item.name, state: index % 4 === 0 ? 'altered' : 'out and stored', isChosen: number === 5 && index < 2 })),
}))

export const restoration: RestorationData = {
  trail: [{ name: 'B-0162 Field cab', href: '/builds/sample' }, { name: 'Restore' }],
  number: 'B-0162', title: 'Field cab', action: '/builds/sample/restorations', zones, refused: '', showsMoney: true, address: 'f=51-53',
  result: {
    verdict: returnToStock.verdict, checklist: returnToStock.checklist, outOfUse: ['Until they are plugged in again: F-058 2 × Belt anchors (pretensioner plug).', 'For good: E-08 Subwoofer 300 mm; P-400 Rebuilt rear wall.', 'What else hangs on these by wire is not recorded: ask before the vehicle is used.'], openPoints: returnToStock.openPoints,
    closure: [
      { number: 'E-08', name: 'Subwoofer 300 mm', href: '/equipment-lines/8', depth: 'out', why: 'in front of P-400', goesBack: false, seconds: seconds(0.25) },
      { number: 'P-400', name: 'Rebuilt rear wall', href: '/parts/400', depth: 'out', why: 'in front of F-055', goesBack: false, seconds: seconds(1.2) },
      { number: 'F-058', name: '2 × Belt anchors', href: '/factory-parts/58', depth: 'loosened', why: 'in front of F-053', goesBack: true, seconds: seconds(0.3) },
    ],
    sheetHref: '/builds/sample/return-to-stock',
  },
}

export const restorationChoice: RestorationData = { ...restoration, result: null }
