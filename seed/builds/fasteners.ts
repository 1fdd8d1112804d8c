import type { Columns } from '../rows.ts'

interface Preset {
  readonly typed: Columns
  /** Key of the material it is replaced from. */
  readonly material?: string
  /** The torque is from the vehicle's manual, so it states where it stands. */
  readonly torque?: string
}

const clip = (size: string, material: string, price: string, breakShare = '20 %'): Preset =>
  ({ typed: { kind: 'clip', size, breakShare, price, leadDays: 3 }, material })
const screw = (size: string, drive: string): Preset => ({ typed: { kind: 'screw', size, drive } })
const bolt = (size: string, drive: string, torque?: string): Preset =>
  ({ typed: { kind: 'bolt', size, drive }, ...(torque ? { torque } : {}) })
const safety = (size: string, drive: string, torque: string, isSingleUse = false): Preset =>
  ({ typed: { kind: 'bolt', size, drive, isSafety: true, isSingleUse, ...(isSingleUse ? { price: '4.80', leadDays: 4 } : {}) }, torque })

/** What holds the factory parts of the demo's vehicles, by the words of its tables. */
const PRESETS: Readonly<Record<string, Preset>> = {
  clipA: clip('9 mm, white', 'clipA', '0.65'),
  clipB: clip('8 mm with seal', 'clipB', '0.80'),
  clipC: clip('gray, two legs', 'clipC', '3.40', '35 %'),
  pin: { typed: { kind: 'push pin', size: '7 mm', breakShare: '15 %', price: '0.55', leadDays: 2 }, material: 'pushpin' },
  s42: screw('4.2 × 13', 'cross recess'),
  s48: screw('4.8 × 16', 'cross recess'),
  s50: screw('5 × 20', 'internal hexalobular'),
  m5: bolt('M5 × 16', 'hex', '5 N·m'),
  m6: bolt('M6 × 20', 'hex', '9 N·m'),
  m6x: bolt('M6 × 25', 'hex'),
  m8: bolt('M8 × 25', 'hex', '22 N·m'),
  m8x: bolt('M8 × 30', 'internal hexalobular'),
  nut6: { typed: { kind: 'nut', size: 'M6', drive: 'hex' }, torque: '8 N·m' },
  nut8: { typed: { kind: 'nut', size: 'M8', drive: 'hex' } },
  rivet: { typed: { kind: 'rivet', size: '4.8 mm blind', isSingleUse: true, price: '0.35', leadDays: 2 } },
  seat: safety('M10 × 35', 'internal hexalobular', '45 N·m'),
  belt: safety('M11 × 25', 'internal hexalobular', '40 N·m'),
  bag: safety('M6 × 16', 'internal hexalobular', '7 N·m', true),
}

export interface HeldBy {
  readonly count: number
  readonly typed: Columns
  readonly material: string | null
}

/** Reads '6 clipA, 2 s48' of a table. Throws for words it does not know. */
export function readFasteners(text: string, manual: string): HeldBy[] {
  return text.split(', ').filter((one) => one !== '').map((one) => {
    const [count = '', word = ''] = one.split(' ')
    const preset = PRESETS[word]
    if (!preset) throw new Error(`the demo’s tables know no fastener ${word}`)
    const torque = preset.torque ? { torque: preset.torque, torqueSource: manual } : {}
    return { count: Number(count), typed: { ...preset.typed, ...torque }, material: preset.material ?? null }
  })
}
