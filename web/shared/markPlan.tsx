import { PlanOutline } from './planOutline.tsx'
import { counted } from './text.ts'
import { fromThousandths, PLAN } from './zonePlaces.ts'
import type { Body } from './zonePlaces.ts'

/** Existing damage on the plan, by number. */
export interface PlanMark {
  /** 0 for one that is being entered. */
  readonly number: number
  /** Thousandths of the drawing. */
  readonly x: number
  readonly y: number
  readonly isLate: boolean
}

interface MarkPlanProps {
  readonly body: Body
  readonly marks: readonly PlanMark[]
  /** Fields that a tap fills; the script of the intake reads it. */
  readonly tapsInto?: string | undefined
}

const RADIUS = 25
// Above and below the body the drawing is empty.
const FIRST_ROW = 52

/** The vehicle from above with its marks; a table beside it says the same. */
export function MarkPlan({ body, marks, tapsInto }: MarkPlanProps): JSX.Element {
  return (
    <div class={['plan', 'mark-plan']} data-taps-into={tapsInto ?? false}>
      <svg viewBox={`0 ${FIRST_ROW} ${PLAN.width} ${PLAN.height - 2 * FIRST_ROW}`} data-width={String(PLAN.width)} data-height={String(PLAN.height)} role="img" aria-label={`Plan of the ${body} with ${counted(marks.length, 'mark', 'marks')}, front to the left, right side on top`}>
        <PlanOutline body={body} />
        {marks.map((mark) => <Ring mark={mark} />)}
        <text class="front" x="24" y="186" font-size="24" transform="rotate(-90 24 186)">front</text>
      </svg>
    </div>
  )
}

function Ring({ mark: { number, isLate, ...point } }: { mark: PlanMark }): JSX.Element {
  const { x, y } = fromThousandths(point)
  return (
    <>
      <circle class={['ring', isLate && 'late']} cx={Math.round(x)} cy={Math.round(y)} r={RADIUS} />
      <text x={Math.round(x)} y={Math.round(y + RADIUS * 0.36)} font-size="27">{number === 0 ? '+' : number}</text>
    </>
  )
}
