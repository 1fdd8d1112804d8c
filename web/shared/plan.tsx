import { placeZones } from './planLayout.ts'
import type { PlacedZone, PlanSize, PlanZone } from './planLayout.ts'
import { PlanOutline } from './planOutline.tsx'
import { counted } from './text.ts'
import { MIDDLE } from './zonePlaces.ts'
import type { Body } from './zonePlaces.ts'

export { ZONE_PLACES } from './zonePlaces.ts'
export type { PlanZone } from './planLayout.ts'

export interface PlanProps {
  readonly body: Body
  readonly zones: readonly PlanZone[]
  /** On paper nothing leads anywhere and no point is open. */
  readonly isPaper?: boolean
}

const BENCH: PlanSize = { radius: 20, reach: 156, gap: 90 }
const HAND: PlanSize = { radius: 33, reach: 166, gap: 74 }

/** The vehicle from above as an index of its zones. A table beside it says the same. */
export function Plan({ body, zones, isPaper = false }: PlanProps): JSX.Element {
  if (isPaper) return <div class="plan"><Drawing body={body} zones={zones} size={HAND} isPaper kind="for-paper" /></div>
  return (
    <div class="plan">
      <Drawing body={body} zones={zones} size={BENCH} kind="for-bench" />
      <Drawing body={body} zones={zones} size={HAND} kind="for-hand" />
    </div>
  )
}

interface DrawingProps extends PlanProps { readonly size: PlanSize, readonly kind: string }

function Drawing({ body, zones, size, isPaper, kind }: DrawingProps): JSX.Element {
  const placed = placeZones(zones, body, size)
  const reach = reachOf(placed, size)
  return (
    <svg class={kind} viewBox={`0 ${MIDDLE - reach} 720 ${2 * reach}`} role="group"
      aria-label={`Plan of the ${body} with ${counted(zones.length, 'zone', 'zones')}, front to the left`}>
      <PlanOutline body={body} />
      {placed.map((each) => isPaper === true
        ? <g><Balloon placed={each} size={size} /></g>
        : <><a href={`#zone-${each.zone.number}`} aria-label={described(each.zone)}><Balloon placed={each} size={size} /></a><OpenPoints placed={each} size={size} /></>)}
      <text class="front" x="20" y="186" font-size={size.radius} transform="rotate(-90 20 186)">front</text>
    </svg>
  )
}

/** How far from the middle the drawing goes. */
function reachOf(placed: readonly PlacedZone[], { radius, reach }: PlanSize): number {
  const ends = placed.flatMap(({ zone, balloon, triangle }) => zone.openPoints > 0 ? [balloon.y, triangle.y] : [balloon.y])
  return Math.ceil(Math.max(reach, ...ends.map((y) => Math.abs(y - MIDDLE))) + radius + 4)
}

function described({ number, name, openPoints }: PlanZone): string {
  return `Zone ${number}, ${name}: ${openPoints === 0 ? 'nothing open' : `${openPoints} open`}`
}

function Balloon({ placed: { zone, anchor, balloon, side }, size: { radius } }: { placed: PlacedZone, size: PlanSize }): JSX.Element {
  return (
    <>
      <path class="leader" d={`M${balloon.x} ${balloon.y - side * radius}L${anchor.x} ${anchor.y}`} />
      <path class="dot" stroke-width={Math.round(radius / 2.8)} d={`M${anchor.x} ${anchor.y}h0`} />
      <circle class="ring" cx={balloon.x} cy={balloon.y} r={radius} />
      <text x={balloon.x} y={Math.round(balloon.y + radius * 0.375)} font-size={Math.round(radius * 1.1)}>{zone.number}</text>
    </>
  )
}

function OpenPoints({ placed: { zone, triangle: { x, y } }, size: { radius } }: { placed: PlacedZone, size: PlanSize }): JSX.Element {
  if (zone.openPoints === 0) return ''
  const half = Math.round(radius * 0.85)
  return (
    <>
      <path class="open" d={`M${x} ${y - half}l${half} ${Math.round(half * 1.7)}h${-2 * half}z`} />
      <text class="open-count" aria-hidden="true" x={x} y={Math.round(y + half * 0.5)} font-size={Math.round(radius * 0.875)}>{zone.openPoints}</text>
    </>
  )
}
