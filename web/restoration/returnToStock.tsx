import type { NumberedCaution } from '../../server/calc/removal/cautions.ts'
import type { Working } from '../../server/calc/amounts.ts'
import type { Checklist } from '../../server/calc/restoration/checklist.ts'
import type { Verdict } from '../../server/calc/restoration/verdict.ts'
import type { Reader } from '../shared/amount.ts'
import { CautionBlock } from '../shared/caution.tsx'
import { Noted, Notes } from '../shared/figure.tsx'
import { Paper, Signatures } from '../shared/printSheet.tsx'
import type { TitleBlockFields } from '../shared/printSheet.tsx'
import { capital, counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import { PRICE_NOTE, QUANTITY_NOTE } from './buyNotes.ts'
import { PartsToBuy } from './partsToBuy.tsx'
import { Steps, Tests } from './sheetSteps.tsx'
import type { StepPictures } from './sheetSteps.tsx'
import { Whereabouts } from './whereabouts.tsx'
import type { WhereaboutsData } from './whereabouts.tsx'

export interface ReturnToStockData {
  readonly titleBlock: TitleBlockFields
  /** What goes back, as "the whole vehicle" or "F-041 and F-042". */
  readonly scope: string
  readonly verdict: Verdict
  readonly checklist: Checklist
  readonly whereabouts: WhereaboutsData
  /** Money is left out for those who do not see it. */
  readonly showsMoney: boolean
  /** What the factory built in that matters here, as recorded; '' where nothing is. */
  readonly factoryOptions: string
  /** What does not work meanwhile, in words; sheets frozen earlier say nothing of it. */
  readonly outOfUse?: readonly string[] | undefined
  /** What is still open and would mislead a stranger. */
  readonly openPoints: readonly string[]
  /** As "Not frozen: drawn on 12 Jan 2027; print it again after every change." */
  readonly standing: string
  /** Of a frozen sheet: what its parts looked like, by id. */
  readonly pictures?: StepPictures | undefined
  readonly backHref: string
}

/** The sheet a stranger can follow years later, on paper, without asking anyone. */
export function ReturnToStockPage({ viewer, data }: { viewer: Viewer, data: ReturnToStockData }): JSX.Element {
  return <Paper viewer={viewer} titleBlock={data.titleBlock} backHref={data.backHref}><ReturnToStockSheet reader={viewer} data={data} /></Paper>
}

/** What stands on it below the title block, for anybody who reads it. */
export function ReturnToStockSheet({ reader, data }: { reader: Reader, data: Omit<ReturnToStockData, 'backHref'> }): JSX.Element {
  const { verdict, checklist } = data
  const works = checklist.steps.filter(({ phase }) => phase !== 'function test' && phase !== 'signature')
  const tests = checklist.steps.filter(({ phase }) => phase === 'function test')
  return (
    <>
      <VerdictLine reader={reader} data={data} />
      <SheetCautions cautions={checklist.cautions} factoryOptions={data.factoryOptions} />
      <PartsToBuy lines={verdict.partsToBuy} showsMoney={data.showsMoney} reader={reader} note={data.showsMoney ? 4 : 3} />
      <Whereabouts data={data.whereabouts} />
      <OutOfUse lines={data.outOfUse ?? []} />
      <OpenPoints points={data.openPoints} />
      <section>
        <h2>Steps, in this order</h2>
        <Steps steps={works} caption="Steps of the restoration" pictures={data.pictures} />
        <p class="note">“Maker’s manual” means that nobody noted the torque: look it up, never guess. Where the maker’s manual differs from this sheet, the manual holds. Single-use fasteners are never used again.</p>
      </section>
      <section class="together">
        <h2>Function tests</h2>
        <Tests steps={tests} />
      </section>
      <Signed />
      <section class="together">
        <h2>Notes</h2>
        <Notes workings={notesOf(data)} reader={reader} />
      </section>
    </>
  )
}

/** In the order of their numbers: hours, price, wait, then the columns of the parts to buy. */
export function notesOf({ verdict: { hoursWorking, costWorking, leadWorking }, showsMoney }: Pick<ReturnToStockData, 'verdict' | 'showsMoney'>): (Working | string)[] {
  return showsMoney ? [hoursWorking, costWorking, leadWorking, QUANTITY_NOTE, PRICE_NOTE] : [hoursWorking, leadWorking, QUANTITY_NOTE]
}

function VerdictLine({ reader, data: { verdict, scope, standing, showsMoney } }: { reader: Reader, data: Omit<ReturnToStockData, 'backHref'> }): JSX.Element {
  const unpriced = verdict.cost.unpricedCount
  return (
    <section>
      <h2>Verdict</h2>
      <p><strong safe>{`${capital(verdict.kind)}${verdict.reasons.length === 0 ? '.' : ':'}`}</strong> <span safe>{verdict.reasons.join(' ')}</span></p>
      {verdict.needs.length === 0 ? '' : <p>Needed beside that: <span safe>{verdict.needs.join(' ')}</span></p>}
      <p>
        For <span safe>{scope}</span>: <Noted amount={verdict.hoursWorking.result} reader={reader} note={1} /> of work
        {showsMoney ? <>, <Noted amount={verdict.costWorking.result} reader={reader} note={2} /> with parts for <Noted amount={{ kind: 'money', value: verdict.cost.partsMinor }} reader={reader} note={2} /></> : ''}
        {showsMoney && unpriced > 0 ? <span safe>{` (${counted(unpriced, 'part has', 'parts have')} no known price)`}</span> : ''}
        , longest wait <span class="keep"><span safe>{counted(verdict.leadDays, 'day', 'days')}</span><sup class="note-no">{showsMoney ? 3 : 2}</sup></span>. <span class="quiet" safe>{standing}</span>
      </p>
    </section>
  )
}

function SheetCautions({ cautions, factoryOptions }: { cautions: readonly NumberedCaution[], factoryOptions: string }): JSX.Element {
  return (
    <section>
      <h2>Cautions, before anything else</h2>
      {cautions.map(({ signalWord, title, text, number }) => <CautionBlock signal={signalWord} title={title} text={text} number={number} />)}
      {factoryOptions === '' ? '' : <p>In this vehicle: <span safe>{factoryOptions}</span></p>}
      <p class="note">The vehicle maker’s manual, local code and licensed practice come before this sheet.</p>
    </section>
  )
}

function OutOfUse({ lines }: { lines: readonly string[] }): JSX.Element {
  if (lines.length === 0) return ''
  return <section><h2>What does not work meanwhile</h2><ul>{lines.map((line) => <li safe>{line}</li>)}</ul></section>
}

function OpenPoints({ points }: { points: readonly string[] }): JSX.Element {
  if (points.length === 0) return ''
  return <section><h2>Not settled when this sheet was made</h2><ul>{points.map((point) => <li safe>{point}</li>)}</ul></section>
}

function Signed(): JSX.Element {
  return (
    <section class="together">
      <h2>Done and tested</h2>
      <Signatures fields={[
        { label: 'Work done by' }, { label: 'Date' }, { label: 'Tested by' }, { label: 'Date' },
        { label: 'Received by the owner' }, { label: 'Date, odometer' }, { label: 'Parts missing or damaged', wide: true },
      ]} />
    </section>
  )
}
