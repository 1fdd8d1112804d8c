import type { StoredDelivery } from './store.ts'

type Stored = StoredDelivery['build']
const SOUND = ['speaker', 'subwoofer', 'amplifier']

/** What is usually said about care and use, for whoever delivers to go over. Common practice, no source. */
export function suggestCare({ lines, parts, vehicle }: Stored): string {
  const has = (kinds: readonly string[]): boolean => lines.some(({ item }) => kinds.includes(item?.kind ?? ''))
  return [
    has(SOUND) ? 'Long listening at high level harms hearing. Turn down before you start the vehicle with others inside.' : '',
    has(['amplifier']) ? 'Keep the amplifier’s air way free: nothing on or in front of it.' : '',
    has(['battery']) ? 'Have the second battery’s hold-down and cable ends looked at once a year.' : '',
    lines.some(({ item }) => item?.fuse != null) ? 'A blown fuse is replaced by one of the same rating only; if it blows again, come back.' : '',
    parts.some(({ isFitted }) => isFitted) ? 'Painted and wrapped parts: a soft damp cloth, no solvent.' : '',
    vehicle.energy === 'fuel' ? '' : 'Orange cables and the service plug stay untouched and within reach.',
    'A rattle or a warning light that was not there before: call, do not wait.',
  ].filter((line) => line !== '').join('\n')
}

/** What to do before the vehicle leaves the customer's hands or goes to a dealer. Common practice, no source. */
export function suggestBeforeSale({ holding, factoryParts, alterations }: Stored): string {
  const kept = factoryParts.some(({ state }) => state === 'out and stored')
  const home = factoryParts.some(({ state }) => state === 'out with the customer')
  return [
    holding === 'leased' ? 'The vehicle is leased: call two months before it goes back, so that it can be returned to stock in time.' : 'Before a sale decide with the buyer what stays; call a month ahead if it is to go back to stock.',
    'Before a dealer visit say what was changed; some work needs single parts put back first, which the return-to-stock sheet shows.',
    kept ? 'The shop keeps factory parts of this vehicle: they are listed here.' : '',
    home ? 'Bring the factory parts that you took home.' : '',
    alterations.some(({ reversedOn, isReversible }) => reversedOn === null && !isReversible) ? 'Some alterations cannot be reversed without a new part: see the list.' : '',
  ].filter((line) => line !== '').join('\n')
}
