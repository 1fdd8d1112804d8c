import { addedMass, remainingLoad, type AddedMass, type FittedThing } from '../calc/addedMass.ts'
import type { Working } from '../calc/amounts.ts'
import { label } from '../shared/records/kind.ts'
import type { StoredDelivery } from './store.ts'

export interface Load {
  readonly added: AddedMass
  /** Null while nobody noted the placard. */
  readonly remaining: Working | null
}

type Stored = StoredDelivery['build']

/** What was added to the vehicle, and what load remains by its placard. */
export function loadOf(build: Stored): Load {
  const added = addedMass([...build.lines.map(toThing), ...fittedParts(build)])
  const placard = build.delivery?.placardLoad ?? null
  return { added, remaining: placard === null ? null : remainingLoad(placard, added) }
}

const toThing = ({ number, name, quantity, item }: Stored['lines'][number]): FittedThing =>
  ({ label: `${label('E', number)} ${name}`, quantity, massG: item?.mass ?? null, source: 'equipment catalog' })

/** Parts fitted straight to the vehicle; an assembly that nobody weighed is the sum of its parts. */
function fittedParts({ parts, uses }: Stored): FittedThing[] {
  const byId = new Map(parts.map((part) => [part.id, part]))
  const massOf = (id: string, above: readonly string[]): number | null => {
    const own = byId.get(id)?.mass ?? null
    const inside = uses.filter(({ parentId }) => parentId === id)
    if (own !== null || inside.length === 0 || above.includes(id)) return own
    const masses = inside.map(({ partId, quantity }) => ({ quantity, mass: massOf(partId, [...above, id]) }))
    return masses.reduce<number | null>((sum, { quantity, mass }) => (sum === null || mass === null ? null : sum + quantity * mass), 0)
  }
  return parts.filter(({ quantity, isFitted }) => isFitted && quantity > 0).map(({ id, number, name, quantity, mass }) => ({
    label: `${label('P', number)} ${name}`, quantity, massG: massOf(id, []), source: mass === null ? 'its parts' : 'made part',
  }))
}
