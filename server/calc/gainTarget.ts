import type { Working } from './amounts.ts'
import { Refusal } from './refusal.ts'
import { roundHalfAway } from './rounding.ts'

const LARGEST_POWER_MW = 20_000_000
const LARGEST_LOAD_MOHM = 64_000

/**
 * The output voltage, mV rms, at which an amplifier gives a power into a load: √(P·R), P in mW, R in mΩ.
 * A bench setting: the nominal load is no resistance. Throws a Refusal for what no amplifier has.
 * Source: Ohm's law; 100 W and 4 Ω give 20 V, 500 W and 2 Ω 31.6228 V.
 *
 * @example gainTarget(100_000, 4_000) // 20000
 */
export function gainTarget(powerMw: number, loadMohm: number): number {
  if (!(powerMw > 0 && powerMw <= LARGEST_POWER_MW)) throw new Refusal('The rated power of a channel is more than nothing and at most 20 kW.')
  if (!(loadMohm > 0 && loadMohm <= LARGEST_LOAD_MOHM)) throw new Refusal('The nominal load is more than nothing and at most 64 Ω.')
  return roundHalfAway(Math.sqrt(powerMw * loadMohm))
}

/** How the target voltage comes about. */
export function gainWorking(powerMw: number, loadMohm: number): Working {
  return {
    title: 'Target voltage',
    inputs: [
      { label: 'Rated power of one channel', source: 'entered, by the amplifier’s maker', amount: { kind: 'power', value: powerMw } },
      { label: 'Nominal load of that channel', source: 'entered', amount: { kind: 'resistance', value: loadMohm } },
    ],
    result: { kind: 'voltage', value: gainTarget(powerMw, loadMohm) },
    formula: '√(power × load)',
    assumed: 'Speakers disconnected, a steady tone, a meter that shows true rms. The nominal load is no resistance: a bench setting to begin from, not what the speaker will draw.',
    source: 'Ohm’s law',
  }
}
