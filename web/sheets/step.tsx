import { at } from '../shared/asset.ts'
import { CautionReference } from '../shared/caution.tsx'
import { idOf } from '../shared/field.tsx'
import { Mark } from '../shared/marks.tsx'
import { escapeProse } from '../shared/text.ts'
import type { SheetPageData, ShownFastener, ShownPicture, ShownStep, StoppedStep } from './sheetData.ts'

interface StepProps {
  readonly step: ShownStep
  readonly data: SheetPageData
  readonly csrfToken: string
}

/** One step: what to do and where, fasteners and torque, and what was put down. */
export function StepCard({ step, data, csrfToken }: StepProps): JSX.Element {
  const stopped = data.stopped?.key === step.key ? data.stopped : undefined
  const safeText = escapeProse(step.text)
  return (
    <li id={`s${step.key}`} class={['sheet-step', step.isDone && 'is-done']} data-step={step.key} data-waits={step.waitsFor.join(' ')}>
      <div class="what">
        <p class="lead"><span class="no" safe>{step.key}</span> <span>{safeText}</span> {step.cautions.map((number) => <CautionReference number={number} />)}</p>
        {step.place === '' ? '' : <p class="sub">Where: <span safe>{step.place}</span></p>}
        {step.notes.map((note) => <p class="sub" safe>{note}</p>)}
        <Pictures pictures={step.pictures} />
      </div>
      <Standing step={step} />
      <form method="post" action={at(data.action)} data-mark>
        <input type="hidden" name="_csrf" value={csrfToken} />
        <input type="hidden" name="id" value={step.id} /><input type="hidden" name="step" value={step.key} />
        {step.fasteners.map((fastener) => <FastenerLine fastener={fastener} stepKey={step.key} stopped={stopped} />)}
        {stopped === undefined ? '' : <Stopped stopped={stopped} />}
        {step.isSigned ? <Signing step={step} /> : <Ticking step={step} stopped={stopped} />}
      </form>
    </li>
  )
}

function Pictures({ pictures }: { pictures: readonly ShownPicture[] }): JSX.Element {
  if (pictures.length === 0) return ''
  return <p class="step-pictures">{pictures.map(({ src, href, says, width, height }) => <a href={at(href)}><img src={at(src)} alt={says} width={width} height={height} loading="lazy" decoding="async" /></a>)}</p>
}

/** What was put down so far; the script writes the state anew without loading the page. */
function Standing({ step }: { step: ShownStep }): JSX.Element {
  return (
    <div class="standing">
      <p class="state" data-state><Mark name={step.isDone ? 'done' : 'empty'} byHand={step.isDone} />{' '}<span safe>{step.isDone ? `done: ${step.by}` : step.by === '' ? 'not done' : `not done, taken back: ${step.by}`}</span></p>
      {step.signature === '' ? '' : <svg class="drawn" viewBox="0 0 600 200" role="img" aria-label="Drawn signature"><path d={step.signature} /></svg>}
      {step.isDone || step.waitsFor.length === 0 ? '' : <p class="sub" data-needs>First: <span safe>{inWords(step.waitsFor)}</span></p>}
      {step.skipped.length === 0 ? '' : <p class="sub"><Mark name="point" /> <span safe>{`Ticked while ${inWords(step.skipped)} was open${step.why === '' ? '' : `: ${step.why}`}`}</span></p>}
      {step.deviations.map(({ text, by }) => <p class="sub"><Mark name="change" /> <span safe>{`Otherwise: ${text} (${by})`}</span></p>)}
    </div>
  )
}

const MOST_NAMED = 6

/** @example inWords(['4', '7']) // 'steps 4 and 7' */
export function inWords(keys: readonly string[]): string {
  if (keys.length === 1) return `step ${keys[0] ?? ''}`
  if (keys.length > MOST_NAMED) return `${keys.length} steps from ${keys[0] ?? ''} on`
  return `steps ${keys.slice(0, -1).join(', ')} and ${keys.at(-1) ?? ''}`
}

function FastenerLine({ fastener: { text, torque, source, asks, applied }, stepKey, stopped }: { fastener: ShownFastener, stepKey: string, stopped: StoppedStep | undefined }): JSX.Element {
  const safeText = escapeProse(text)
  const problem = asks === null ? undefined : stopped?.problems.find(({ field }) => field === asks.name)
  return (
    <div class="fastener">
      <span>{safeText}</span>{' '}{/N·m|manual/.test(torque) ? <strong class="torque" safe>{torque}</strong> : <span class="quiet" safe>{torque}</span>}{source === '' ? '' : <span class="sub" safe>{source}</span>}
      {applied === '' ? '' : <span class="sub"><Mark name="done" byHand /> <span safe>{applied}</span></span>}
      {asks === null ? '' : (
        <label class="applied">
          <span class="label">Torque applied, with its unit</span>
          <input type="text" name={asks.name} id={idOf(`${asks.name}-${stepKey}`)} value={stopped?.typed[asks.name] ?? ''} maxlength="60" autocomplete="off" aria-invalid={problem === undefined ? false : 'true'} />
        </label>
      )}
      {problem === undefined ? '' : <p class="mend" role="alert" safe>{problem.message}</p>}
    </div>
  )
}

function Stopped({ stopped }: { stopped: StoppedStep }): JSX.Element {
  const own = stopped.problems.filter(({ field }) => !field.startsWith('torque'))
  return (
    <>
      {stopped.warning === '' ? '' : <p class="mend" role="alert" safe>{stopped.warning}</p>}
      {own.map(({ message }) => <p class="mend" role="alert" safe>{message}</p>)}
    </>
  )
}

function Ticking({ step, stopped }: { step: ShownStep, stopped: StoppedStep | undefined }): JSX.Element {
  const isWarned = stopped !== undefined && stopped.warning !== ''
  const text = stopped?.typed.text ?? ''
  return (
    <>
      {isWarned ? <input type="hidden" name="anyway" value="yes" /> : ''}
      <details open={text !== '' || isWarned || stopped !== undefined}>
        <summary>Otherwise than the sheet says</summary>
        <label class="applied"><span class="label">In words</span><input type="text" name="text" value={text} maxlength="1000" autocomplete="off" /></label>
        <button class="button" type="submit" name="kind" value="deviation">Record it</button>
      </details>
      <div class="deed">
        {step.isDone
          ? <button class="button put" type="submit" name="kind" value="not done"><span>Take the tick back</span><span class="unseen" safe>{` of step ${step.key}`}</span></button>
          : <button class="button put first" type="submit" name="kind" value="done"><span>{isWarned ? 'Tick it all the same' : 'Done'}</span><span class="unseen" safe>{`: step ${step.key}`}</span></button>}
        {step.fasteners.some(({ asks }) => asks !== null) && step.isDone ? <button class="button" type="submit" name="kind" value="torque">Record the torque</button> : ''}
      </div>
    </>
  )
}

function Signing({ step }: { step: ShownStep }): JSX.Element {
  if (step.isDone) return ''
  return (
    <div class="signing">
      <label class="applied"><span class="label">Name</span><input type="text" name="signedName" value="" maxlength="200" autocomplete="name" /></label>
      <div class="field" data-sign hidden>
        <span class="name">Drawn with a finger or pen</span>
        <div class="into signature">
          <input type="hidden" name="signature" value="" />
          <svg viewBox="0 0 600 200" role="img" aria-label="Place for the drawn signature"><path d="" /></svg>
          <button class="button" type="button" data-sign-again>Begin again</button>
        </div>
      </div>
      <div class="deed"><button class="button put first" type="submit" name="kind" value="signature">Sign<span class="unseen" safe>{`: step ${step.key}`}</span></button></div>
    </div>
  )
}
