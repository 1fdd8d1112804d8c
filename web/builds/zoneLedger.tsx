import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { Mark } from '../shared/marks.tsx'
import type { MarkName } from '../shared/marks.tsx'
import { escapeProse } from '../shared/text.ts'
import type { LedgerPoint, LedgerZone } from './ledgerData.ts'
import { ItemColumn, MadeColumn } from './zoneColumns.tsx'

const HEADS: readonly (readonly [mark: MarkName, name: 'Came out' | 'Goes in' | 'Made here' | 'Goes back'])[] = [
  ['out', 'Came out'], ['in', 'Goes in'], ['made', 'Made here'], ['back', 'Goes back'],
]

/** Zone by zone, four columns. A zone with nothing in it folds. */
export function ZoneLedger({ zones }: { zones: readonly LedgerZone[] }): JSX.Element {
  if (zones.length === 0) return ''
  return (
    <section class="ledger" aria-label="Zone ledger">
      <div class="heads" aria-hidden="true">{HEADS.map(([mark, name]) => <span class="label"><Mark name={mark} /> {name}</span>)}</div>
      {zones.map((zone) => isEmpty(zone) ? <FoldedZone zone={zone} /> : <Zone zone={zone} />)}
    </section>
  )
}

function isEmpty({ points, cameOut, goesIn, madeHere, goesBack }: LedgerZone): boolean {
  return points.length + cameOut.length + goesIn.length + madeHere.length + goesBack.length === 0
}

function Zone({ zone }: { zone: LedgerZone }): JSX.Element {
  const { number, name, points, href, add } = zone
  return (
    <section class="zone" id={`zone-${number}`} aria-labelledby={`zone-${number}-name`}>
      <header>
        <span class="balloon" aria-hidden="true">{number}</span>
        <h2 id={`zone-${number}-name`}><span class="unseen">Zone {number}: </span><span safe>{name}</span></h2>
        {points.length === 0 ? <span class="clear">nothing open</span> : <a href={`#zone-${number}-points`}>{points.length} open</a>}
        {href === undefined ? '' : <a href={at(href)} aria-label={`Change zone ${number}, ${name}`}>Change</a>}
        {add.point === undefined ? '' : <a href={at(add.point)}>Add a point</a>}
        <Hours zone={zone} />
      </header>
      <Points zone={zone} />
      <Columns zone={zone} />
    </section>
  )
}

function FoldedZone({ zone }: { zone: LedgerZone }): JSX.Element {
  return (
    <details class="zone" id={`zone-${zone.number}`}>
      <summary>
        <span class="balloon" aria-hidden="true">{zone.number}</span>
        <h2><span class="unseen">Zone {zone.number}: </span><span safe>{zone.name}</span> <span class="clear">nothing in it yet</span></h2>
      </summary>
      <Columns zone={zone} />
    </details>
  )
}

function Hours({ zone: { number, hours } }: { zone: LedgerZone }): JSX.Element {
  return (
    <p class="hours">
      <span>estimate <RowFigure text={writeHours(hours.estimate)} how={`z${number}e`} /></span>
      <span>logged <RowFigure text={writeHours(hours.logged)} how={`z${number}l`} byHand /></span>
      <span>forecast <RowFigure text={writeHours(hours.forecast)} how={`z${number}f`} /> h</span>
    </p>
  )
}

function Points({ zone: { number, points } }: { zone: LedgerZone }): JSX.Element {
  if (points.length === 0) return ''
  return <ol class="points" id={`zone-${number}-points`} tabindex="-1">{points.map((point) => <Point point={point} />)}</ol>
}

function Point({ point: { number, text, person, stopsWork, href } }: { point: LedgerPoint }): JSX.Element {
  const safeText = escapeProse(text)
  return (
    <li>
      <Mark name="point" />
      <span class="no"><span class="unseen">open: </span>{href === undefined ? <span safe>{number}</span> : <a href={at(href)} safe>{number}</a>}</span>
      <span>{safeText}{' '}<span class="quiet" safe>{person}</span>{stopsWork ? <strong> stops work</strong> : ''}</span>
    </li>
  )
}

function Columns({ zone: { cameOut, goesIn, madeHere, goesBack, add } }: { zone: LedgerZone }): JSX.Element {
  return (
    <div class="columns">
      <ItemColumn name="Came out" items={cameOut} add={add.factoryPart} adds="Add a factory part" />
      <ItemColumn name="Goes in" items={goesIn} add={add.equipmentLine} adds="Add an equipment line" />
      <MadeColumn parts={madeHere} add={add.madePart} adds="Add a made part" />
      <ItemColumn name="Goes back" items={goesBack} add={add.alteration} adds="Add an alteration" />
    </div>
  )
}
