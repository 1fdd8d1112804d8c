import type { SpreadData } from '../../web/spread/spread.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { formatQuantity } from '../calc/figures.ts'
import { formatMoney } from '../calc/money.ts'
import type { StoredBuild } from '../builds/store.ts'
import { seesMoney } from '../builds/figures.ts'
import { label } from '../shared/records/kind.ts'
import type { Sized, Spreads } from './spreads.ts'
import { CHANCES } from './spreadWorkings.ts'

const MOST_SHOWN = 12
const CURVE = [1, 2, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 98, 99]

/** `wrong`: what was typed for going wrong together, where it cannot be read. */
export function toSpreadPage({ head }: StoredBuild, spreads: Spreads, viewer: Viewer, wrong: string | null): SpreadData {
  const { withRework, withoutRework, price, togetherThousandths, estimatedS } = spreads
  const hours = (seconds: number): string => `${writeHours(seconds)} h`
  const row = (name: string, letter: string, { spread }: Sized, write: (value: number) => string): SpreadData['rows'][number] =>
    ({ name, chances: CHANCES.map(([key, , share]) => ({ text: write(spread.percentile(share)), how: `${letter}${key}` })) })
  const unsure = withRework.labor.unsure.toSorted((one, other) => other.shareThousandths - one.shareThousandths)
  const inside = withRework.spread.shareWithin(estimatedS)
  return {
    build: `${label('B', head.number)} ${head.title}`, buildHref: `/builds/${head.id}`, title: 'What it may take',
    address: `together=${togetherThousandths / 10}`, action: `/builds/${head.id}/spread`, together: wrong ?? String(togetherThousandths / 10),
    problem: wrong === null ? '' : `How far things go wrong together is a whole number from 0 to 100, as 30; “${wrong}” is not. The figures above stand at ${togetherThousandths / 10}.`,
    rows: [
      row('Hours, with rework', 'h', withRework, hours), row('Hours, without rework', 'w', withoutRework, hours),
      ...(seesMoney(viewer) ? [row('Price, with all that is bought', 'p', price, (minor) => formatMoney(minor, viewer.currency))] : []),
    ],
    estimate: { text: hours(estimatedS), inside: `${Math.round(inside * 100)} in 100 cases end inside it` },
    curve: CURVE.map((percent) => ({ percent, seconds: withRework.spread.percentile(percent / 100) })),
    estimatedS,
    unsure: unsure.slice(0, MOST_SHOWN).map(({ operationId, label: name, each, shareThousandths }) => ({
      name, href: `/operations/${operationId}`, share: { text: formatQuantity(shareThousandths, 'share', viewer.units), how: `s${operationId}` },
      isEntered: each !== null,
      range: each === null ? 'as the shop’s own hours fall' : `${writeHours(each.bestS)}, ${writeHours(each.likelyS)}, ${writeHours(each.worstS)} h`,
    })),
    unshown: Math.max(unsure.length - MOST_SHOWN, 0),
    operationCount: { unsure: unsure.length, byHistory: unsure.filter(({ three }) => three === null).length, all: spreads.operationCount },
  }
}
