import type { ShownFastener, ShownStep } from '../../web/sheets/sheetData.ts'
import { asksTorque, findTorque, toolShare, type TorqueFinding } from '../calc/removal/appliedTorque.ts'
import type { ChecklistStep } from '../calc/restoration/checklist.ts'
import type { SheetFastener } from '../calc/removal/fastenerText.ts'
import { writeTorque } from '../calc/figures.ts'
import type { Mark, StepProgress } from '../calc/restoration/sheetProgress.ts'
import type { FrozenPicture } from './content.ts'

interface Showing {
  readonly step: ChecklistStep
  readonly progress: StepProgress
  readonly pictures: readonly FrozenPicture[]
  readonly photoAt: (hash: string) => string
  readonly byOf: (mark: Mark) => string
  readonly id: string
}

const SMALL_SIDE_PX = 160

/** A step with what was put down on it, in words. */
export function toShownStep({ step, progress, pictures, photoAt, byOf, id }: Showing): ShownStep {
  const { last } = progress
  const isSigned = step.phase === 'signature'
  const isBack = step.phase === 'reinstall'
  return {
    key: progress.key, text: step.text, place: step.place, notes: step.notes, cautions: step.cautionNumbers, id,
    fasteners: step.fasteners.map((fastener, index) => toShownFastener(fastener, isBack ? index + 1 : null, progress.torques.get(index + 1), byOf)),
    pictures: pictures.map(({ hash, says, width, height }) => {
      const scale = Math.min(1, SMALL_SIDE_PX / Math.max(width, height, 1))
      return { src: `${photoAt(hash)}?size=small`, href: photoAt(hash), says: says || `Photo for step ${progress.key}`, width: Math.round(width * scale), height: Math.round(height * scale) }
    }),
    isDone: progress.isDone, isSigned, by: last ? (last.signedName === '' ? byOf(last) : `${last.signedName}, taken down by ${byOf(last)}`) : '',
    signature: progress.isDone && last ? last.signature : '', waitsFor: progress.waitsFor, skipped: progress.skipped, why: progress.isDone && last ? last.text : '',
    deviations: progress.deviations.map((mark) => ({ text: mark.text, by: byOf(mark) })),
  }
}

/** How a torque reads beside its fastener; '' where there is nothing to say. */
export function torqueWords({ torque }: SheetFastener): string {
  if (torque === 'none applies') return 'no torque'
  if (torque === 'not used again') return ''
  return typeof torque === 'string' ? torque : writeTorque(torque.mNm)
}

function toShownFastener(fastener: SheetFastener, place: number | null, applied: Mark | undefined, byOf: (mark: Mark) => string): ShownFastener {
  return {
    text: fastener.text, torque: torqueWords(fastener), source: typeof fastener.torque === 'string' ? '' : fastener.torque.source,
    asks: place !== null && asksTorque(fastener) ? { name: `torque_${place}` } : null,
    applied: applied?.torqueMnm ? `${applied.text}, ${byOf(applied)}: ${FINDINGS[findTorque(fastener, applied.torqueMnm)](fastener)}` : '',
  }
}

const share = ({ torque }: SheetFastener): string => (typeof torque === 'string' ? '' : `${toolShare(torque.mNm) / 10} %`)

/** Applied against noted, in words; where the manual judges it says so. */
const FINDINGS: Readonly<Record<TorqueFinding, (fastener: SheetFastener) => string>> = {
  'as noted': () => 'as noted',
  'too little': (fastener) => `less than noted, by more than a torque wrench may be off (${share(fastener)})`,
  'too much': (fastener) => `more than noted, by more than a torque wrench may be off (${share(fastener)})`,
  'look it up': () => 'compare it with the maker’s manual',
}
