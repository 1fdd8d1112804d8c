import type { Checklist } from '../../server/calc/restoration/checklist.ts'
import type { Verdict } from '../../server/calc/restoration/verdict.ts'
import { at } from '../shared/asset.ts'
import { CautionBlock } from '../shared/caution.tsx'
import { Explained, RowFigure } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Post } from '../shared/post.tsx'
import type { PostProps } from '../shared/post.tsx'
import { Cell, NumberCell, Strip, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import type { NamedLink } from '../builds/ledgerData.ts'
import { ChooseParts } from './chooseParts.tsx'
import type { ZoneChoice } from './chooseParts.tsx'
import { Closure } from './closure.tsx'
import type { ClosureStep } from './closure.tsx'
import { PartsToBuy } from './partsToBuy.tsx'
import { Steps } from './sheetSteps.tsx'

export type { ClosureStep, ZoneChoice }
export type { ChoicePart } from './chooseParts.tsx'

export interface RestorationResult {
  readonly verdict: Verdict
  /** The smallest set that must come out, in order. */
  readonly closure: readonly ClosureStep[]
  readonly checklist: Checklist
  /** What does not work meanwhile. */
  readonly outOfUse: readonly string[]
  readonly openPoints: readonly string[]
  readonly sheetHref?: string | undefined
  /** Where the sheet is frozen as it would be drawn now. */
  readonly freeze?: PostProps | undefined
}

export interface RestorationData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  /** The choice is sent by GET, so that a result has an address of its own. */
  readonly action: string
  /** What was chosen, as short as it goes into an address: its figures depend on it. */
  readonly address: string
  readonly zones: readonly ZoneChoice[]
  /** Null until something is chosen. */
  readonly result: RestorationResult | null
  /** The ring that makes an order impossible, in words; empty for most. */
  readonly refused: string
  readonly showsMoney: boolean
  readonly isAll?: boolean
  /** On what the answer stands: the vehicle as recorded now, or as planned. */
  readonly basis?: { readonly words: string, readonly value: string, readonly other: NamedLink } | undefined
}

/** Choose what goes back; see what that takes: verdict, what must come out, hours, parts, every step. */
export function RestorationPage({ viewer, data }: { viewer: Viewer, data: RestorationData }): JSX.Element {
  return (
    <Frame title={`${data.number} Restore`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Build" number={data.number} />
        <TitleCell label={data.title} title="Restore" />
        <Turn />
        {data.result === null ? '' : <Answer viewer={viewer} result={data.result} showsMoney={data.showsMoney} on={data.address} />}
      </Strip>
      {data.refused === '' ? '' : <p class="mend" role="alert" safe>{data.refused}</p>}
      {data.basis === undefined ? '' : (
        <section class="block"><p><span safe>{data.basis.words}</span>{' '}<a href={at(data.basis.other.href)} safe>{data.basis.other.name}</a></p></section>
      )}
      <ChooseParts action={data.action} zones={data.zones} isOpen={data.result === null} isAll={data.isAll === true} basis={data.basis?.value} />
      {data.result === null ? '' : <Result viewer={viewer} result={data.result} showsMoney={data.showsMoney} on={data.address} />}
    </Frame>
  )
}

interface ResultProps {
  readonly viewer: Viewer
  readonly result: RestorationResult
  readonly showsMoney: boolean
  readonly on: string
}

function Answer({ viewer, result: { verdict }, showsMoney, on }: ResultProps): JSX.Element {
  const reasons = [...verdict.reasons, ...verdict.needs]
  return (
    <>
      <Cell label="Verdict" width="w7"><strong>{verdict.kind}</strong>{reasons.length === 0 ? '' : <ul class="sub">{reasons.map((reason) => <li safe>{reason}</li>)}</ul>}</Cell>
      <Cell label="Hours" width="w2"><Explained working={verdict.hoursWorking} reader={viewer} /></Cell>
      {showsMoney ? <Cell label="Price" width="w2"><Explained working={verdict.costWorking} reader={viewer} /></Cell> : ''}
      <Cell label="Longest wait" width="w2"><span class="figure"><RowFigure text={counted(verdict.leadDays, 'day', 'days')} how="wait" on={on} /></span></Cell>
    </>
  )
}

// A whole show build has hundreds: they would make this page too heavy for a poor network.
const MOST_STEPS = 120

function Result({ viewer, result, showsMoney, on }: ResultProps): JSX.Element {
  const { verdict, checklist, closure, outOfUse, openPoints, sheetHref, freeze } = result
  return (
    <>
      <section class="deed">
        {sheetHref === undefined ? '' : <a class="button" href={at(sheetHref)}>See the sheet as it would print</a>}
        {freeze === undefined ? '' : <Post post={freeze} csrfToken={viewer.csrfToken}>Freeze this sheet</Post>}
        <span class="quiet">The sheet is drawn from the build as it is recorded. Frozen, it stays as it is: it is worked by, ticked and signed, on several days and by several people.</span>
      </section>
      {checklist.cautions.length === 0 ? '' : (
        <section class="cautions" aria-label="Cautions">
          {checklist.cautions.map(({ signalWord, title, text, number }) => <CautionBlock signal={signalWord} title={title} text={text} number={number} />)}
        </section>
      )}
      <Closure steps={closure} />
      {outOfUse.length === 0 ? '' : <section class="block"><h2>What does not work meanwhile</h2><ul>{outOfUse.map((line) => <li safe>{line}</li>)}</ul></section>}
      <div class="block on-screen"><PartsToBuy lines={verdict.partsToBuy} showsMoney={showsMoney} reader={viewer} on={on} /></div>
      {openPoints.length === 0 ? '' : <section class="block"><h2>Not settled</h2><ul>{openPoints.map((point) => <li safe>{point}</li>)}</ul></section>}
      <section class="block">
        <h2>Checklist</h2>
        {checklist.steps.length > MOST_STEPS
          ? <p>{checklist.steps.length} steps: they stand on the sheet, in order and with their fasteners.</p>
          : <Steps steps={checklist.steps} caption="Checklist" />}
      </section>
    </>
  )
}
