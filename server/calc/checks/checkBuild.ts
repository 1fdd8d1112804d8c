import type { Trigger } from '../removal/triggers.ts'

/** One equipment line, as far as the final check goes. */
export interface CheckLine {
  readonly id: string
  readonly number: number
  /** As E-04. */
  readonly label: string
  readonly name: string
  readonly quantity: number
  /** Of the catalog: speaker, amplifier …; empty where the line is not from it. */
  readonly itemKind: string
  readonly currentMa: number | null
  readonly channels: number | null
}

/** What of a build decides which points its final check has. */
export interface CheckBuild {
  readonly kind: string
  /** fuel, hybrid, electric */
  readonly energy: string
  readonly lines: readonly CheckLine[]
  readonly triggers: ReadonlySet<Trigger>
  /** Places and names of factory parts that came out or loose. */
  readonly opened: readonly string[]
  /** Something was cut or drilled in the body itself. */
  readonly hasHolesInBody: boolean
  /** Which of its records there are to look through. */
  readonly has: Readonly<Record<'operations' | 'finishes' | 'alterations' | 'factoryParts', boolean>>
}

const SOUND = ['speaker', 'subwoofer', 'amplifier', 'processor', 'source unit']
const POWERED = ['amplifier', 'processor', 'source unit', 'lighting', 'battery', 'screen']
/** mA: from here on a feed has a cable of its own, whose drop is worth measuring. Common practice, no source. */
const POWER_LINE_MA = 20_000
const SEALED = /\b(front doors|rear doors|outside|underbody|bed|doors?|windows?|windshield|seals?|liners?|membranes?|vapor|gaskets?|lamps?|antennas?|grommets?)\b/i

export interface CheckTraits {
  readonly isCounterJob: boolean
  readonly isShow: boolean
  readonly isElectric: boolean
  readonly hasHighVoltage: boolean
  readonly isPowered: boolean
  readonly hasSound: boolean
  readonly speakers: readonly CheckLine[]
  readonly amplifiers: readonly CheckLine[]
  readonly powerLines: readonly CheckLine[]
  /** Something here can be set: a crossover, a delay. */
  readonly isSettable: boolean
  readonly hasProcessor: boolean
  readonly wasSealOpened: boolean
}

/** What the points of the final check ask of a build. */
export function traitsOf({ kind, energy, lines, triggers, opened, hasHolesInBody }: CheckBuild): CheckTraits {
  const of = (kinds: readonly string[]): CheckLine[] => lines.filter(({ itemKind }) => kinds.includes(itemKind))
  return {
    isCounterJob: kind === 'counter job', isShow: kind === 'show build',
    isElectric: energy === 'electric', hasHighVoltage: energy === 'electric' || energy === 'hybrid',
    isPowered: of(POWERED).length > 0 || lines.some(({ currentMa }) => currentMa !== null) || triggers.has('power wiring'),
    hasSound: of(SOUND).length > 0, speakers: of(['speaker', 'subwoofer']), amplifiers: of(['amplifier']).filter(({ channels }) => channels !== null),
    powerLines: lines.filter(({ currentMa }) => (currentMa ?? 0) >= POWER_LINE_MA),
    isSettable: of(['amplifier', 'processor', 'source unit']).length > 0, hasProcessor: of(['processor']).length > 0,
    wasSealOpened: hasHolesInBody || opened.some((words) => SEALED.test(words)),
  }
}
