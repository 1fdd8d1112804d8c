import { toPartLabel } from '../removal/factoryParts.ts'
import type { RestorationPlan } from './restoration.ts'
import type { RestorationInput } from './restorationInput.ts'
import { listThings } from './things.ts'

/**
 * What does not work while a restoration is on, and what will not work after it, in sentences: what is
 * unplugged with a factory part that comes out, installed items until they are back, and those that stay
 * out. What hangs on them by wire is said to be open, because no circuit is known here. Of a whole restoration
 * one sentence is enough. A rule of ours, no source.
 *
 * @example
 * // A door panel with its switches comes out in front of a speaker of the shop's that stays out:
 * listOutOfUse(input, plan) // ['Until they are plugged in again: F-020 Door panel (window switch).', 'For good: E-01 Midbass.', …]
 */
export function listOutOfUse(input: Pick<RestorationInput, 'factoryParts' | 'installedItems'>, { isWhole, takeOut, putBack, staysOutIds }: Pick<RestorationPlan, 'isWhole' | 'takeOut' | 'putBack' | 'staysOutIds'>): string[] {
  if (isWhole) return ['The vehicle is not driven before all of it is back and the function tests are done.']
  const out = new Set(takeOut.filter(({ depth }) => depth === 'out').map(({ id }) => id))
  const forGood = new Set(staysOutIds)
  const back = new Set(putBack.map(({ id }) => id))
  const unplugged = input.factoryParts.filter(({ id, connectors }) => out.has(id) && back.has(id) && connectors !== '')
  const items = listThings(input).filter(({ id, isFactoryPart }) => !isFactoryPart && out.has(id))
  const until = items.filter(({ id }) => !forGood.has(id))
  const gone = items.filter(({ id }) => forGood.has(id))
  return [
    ...(unplugged.length === 0 ? [] : [`Until they are plugged in again: ${unplugged.map((part) => `${toPartLabel(part)} (${part.connectors})`).join('; ')}.`]),
    ...(until.length === 0 ? [] : [`Until they are fitted again: ${until.map(({ label }) => label).join('; ')}.`]),
    ...(gone.length === 0 ? [] : [`For good: ${gone.map(({ label }) => label).join('; ')}.`]),
    ...(items.length === 0 ? [] : ['What else hangs on these by wire is not recorded: ask before the vehicle is used.']),
  ]
}
