import { z } from 'zod'
import { asksTorque } from '../calc/removal/appliedTorque.ts'
import { parseQuantity } from '../calc/quantities.ts'
import { MARK_KINDS } from '../calc/restoration/sheetProgress.ts'
import type { FrozenContent } from './content.ts'
import type { NewMark } from './store.ts'

const LONGEST_TEXT = 1000
const LONGEST_NAME = 200
const LONGEST_SIGNATURE = 20_000
/** Marks wait on a phone at most so long. */
const OLDEST_MS = 60 * 24 * 3600_000
const LARGEST_TORQUE_MNM = 600_000

export const markSchema = z.object({
  id: z.uuid().describe('Made by the sender, so that sending again adds nothing'),
  step: z.string().max(20).describe('The number of a step; for a torque also which fastener: 12.2'),
  kind: z.enum(MARK_KINDS),
  age: z.int().min(0).max(OLDEST_MS).default(0).describe('How long ago it was put down, ms; without it, now'),
  torque: z.string().max(60).default('').describe('As applied, with its unit: 9 N·m, 80 lbf·in'),
  text: z.string().max(LONGEST_TEXT).default('').describe('What is otherwise than the sheet says'),
  signedName: z.string().max(LONGEST_NAME).default(''),
  signature: z.string().max(LONGEST_SIGNATURE).default('').describe('Path data of a drawn signature: M and L on 600 × 200'),
})
export type SentMark = z.infer<typeof markSchema>

export type ReadMark = { readonly mark: NewMark } | { readonly refused: string }

/** A mark as it was sent, checked against its sheet. */
export function readMark(sent: SentMark, { sheet }: FrozenContent, now: Date): ReadMark {
  const [key = '', place] = sent.step.split('.')
  const step = sheet.checklist.steps.find(({ number }) => String(number) === key)
  const fastener = place === undefined ? undefined : step?.fasteners[Number(place) - 1]
  const base: NewMark = {
    id: sent.id, step: sent.step, kind: sent.kind, atMs: now.getTime() - sent.age, torqueMnm: null, text: sent.text.trim(), signedName: sent.signedName.trim(), signature: sent.signature,
  }
  if (!step || (place !== undefined && sent.kind !== 'torque')) return { refused: `This sheet has no step ${sent.step.slice(0, 20)}.` }
  const isSigned = step.phase === 'signature'
  if (sent.kind === 'signature' || (isSigned && sent.kind === 'done')) return isSigned && sent.kind === 'signature' ? readSignature(base) : { refused: isSigned ? 'This step is signed, not ticked.' : 'Only a step for a signature is signed.' }
  if (sent.kind === 'deviation' && base.text === '') return { refused: 'Say in words what is otherwise than the sheet says.' }
  if (sent.kind !== 'torque') return { mark: base }
  if (!fastener || !asksTorque(fastener)) return { refused: `Step ${key} has no fastener ${place ?? ''} with a torque.` }
  return readTorque(base, sent.torque)
}

function readSignature(base: NewMark): ReadMark {
  if (base.signedName === '') return { refused: 'Type the name of whoever signs.' }
  if (!/^(?:[ML]\d{1,3} \d{1,3})*$/.test(base.signature)) return { refused: 'The drawn signature cannot be read. Begin it again.' }
  return { mark: base }
}

// A bare number read in the wrong unit is a bolt torn off or one that comes loose.
function readTorque(base: NewMark, typed: string): ReadMark {
  const read = parseQuantity(typed, 'torque', 'N·m')
  if (!read.ok) return { refused: read.message }
  if (!/\p{L}/u.test(typed)) return { refused: `Write the unit of the wrench with it: ${typed.trim()} N·m, ${typed.trim()} lbf·ft or ${typed.trim()} lbf·in.` }
  if (read.value === 0 || read.value > LARGEST_TORQUE_MNM) return { refused: 'A torque applied is more than 0 and at most 600 N·m. Check the unit.' }
  return { mark: { ...base, torqueMnm: read.value, text: base.text === '' ? typed.trim() : `${typed.trim()}; ${base.text}` } }
}
