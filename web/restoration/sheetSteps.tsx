import type { ChecklistPhase, ChecklistStep } from '../../server/calc/restoration/checklist.ts'
import type { SheetFastener, SheetTorque } from '../../server/calc/removal/fastenerText.ts'
import { writeTorque } from '../../server/calc/figures.ts'
import { at } from '../shared/asset.ts'
import { CautionReference } from '../shared/caution.tsx'
import { TickBox } from '../shared/printSheet.tsx'
import { GroupRow, Table } from '../shared/table.tsx'
import { escapeProse } from '../shared/text.ts'

const PHASE_NAMES: Readonly<Record<ChecklistPhase, string>> = {
  'cautions': 'Before you begin', 'take out': 'Take out', 'repair': 'Repair', 'reinstall': 'Put back',
  'reconnect and relearn': 'Reconnect and relearn', 'function test': 'Function test', 'signature': 'Signature',
}

const COLUMNS = [
  { name: 'Done' }, { name: 'No.' }, { name: 'What to do' }, { name: 'Fasteners, and torque in N·m and lbf·ft' }, { name: 'Where it is' }, { name: 'Initials' },
] as const

export interface StepPicture {
  readonly src: string
  readonly says: string
  readonly width: number
  readonly height: number
}

/** By the id of the part or alteration that a step is about. */
export type StepPictures = ReadonlyMap<string, readonly StepPicture[]>

/** Numbered steps under a head for each phase and zone, with a box to tick and room for initials. */
export function Steps({ steps, caption, pictures }: { steps: readonly ChecklistStep[], caption: string, pictures?: StepPictures | undefined }): JSX.Element {
  return (
    <Table columns={COLUMNS} caption={caption} class="steps">
      {steps.map((step, index) => (
        <>
          {headOf(step) === headOf(steps[index - 1]) ? '' : <GroupRow name={headOf(step)} span={COLUMNS.length} />}
          <Row step={step} pictures={pictures?.get(step.thingId ?? '') ?? []} />
        </>
      ))}
    </Table>
  )
}

/** Tests need no fastener and have no place: only the box, the words and the initials. */
export function Tests({ steps }: { steps: readonly ChecklistStep[] }): JSX.Element {
  return (
    <Table columns={[{ name: 'Done' }, { name: 'No.' }, { name: 'What to try' }, { name: 'Initials' }]} caption="Function tests" class="steps">
      {steps.map(({ number, text }) => <Test number={number} text={text} />)}
    </Table>
  )
}

function Test({ number, text }: { number: number, text: string }): JSX.Element {
  return <tr><TickBox /><td class="no">{number}</td><td class="do" safe>{text}</td><td></td></tr>
}

function headOf(step: ChecklistStep | undefined): string {
  if (step === undefined) return ''
  return step.zoneName === '' ? PHASE_NAMES[step.phase] : `${PHASE_NAMES[step.phase]}: ${step.zoneName}`
}

/** What needs no fastener and has no place may use their room. */
function Row({ step: { number, text, fasteners, place, notes, cautionNumbers }, pictures }: { step: ChecklistStep, pictures: readonly StepPicture[] }): JSX.Element {
  const safeText = escapeProse(text)
  const safePlace = escapeProse(place)
  const hasFasteners = fasteners.length > 0
  const isWide = !hasFasteners && place === ''
  return (
    <tr>
      <TickBox />
      <td class="no">{number}</td>
      <td class="do" colspan={isWide ? 3 : hasFasteners ? undefined : 2}>
        {safeText} {cautionNumbers.map((caution) => <CautionReference number={caution} />)}
        {notes.map((note) => <Note text={note} />)}
        {pictures.length === 0 ? '' : <span class="step-pictures">{pictures.map(({ src, says, width, height }) => <img src={at(src)} alt={says} width={width} height={height} loading="lazy" decoding="async" />)}</span>}
      </td>
      {hasFasteners ? <td class="fasteners">{fasteners.map((fastener) => <Fastener fastener={fastener} />)}</td> : ''}
      {isWide ? '' : <td class="place">{safePlace}</td>}
      <td></td>
    </tr>
  )
}

function Note({ text }: { text: string }): JSX.Element {
  const safeText = escapeProse(text)
  return <span class="sub">{safeText}</span>
}

function Fastener({ fastener: { text, torque } }: { fastener: SheetFastener }): JSX.Element {
  const safeText = escapeProse(text)
  return (
    <div class="fastener">
      <span>{safeText}</span><Torque torque={torque} />
      {typeof torque === 'string' ? '' : <span class="sub" safe>{torque.source}</span>}
    </div>
  )
}

function Torque({ torque }: { torque: SheetTorque }): JSX.Element {
  if (torque === 'none applies') return <span class="torque quiet">no torque</span>
  if (torque === 'not used again') return ''
  if (typeof torque === 'string') return <span class="torque">{torque}</span>
  return <strong class="torque" safe>{writeTorque(torque.mNm)}</strong>
}
