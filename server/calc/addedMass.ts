import type { Working, WorkingInput } from './amounts.ts'

export interface FittedThing {
  /** As E-04 Amplifier. */
  readonly label: string
  readonly quantity: number
  /** g each; null where nobody knows it. */
  readonly massG: number | null
  /** Of what it is, as "catalog" or "made part". */
  readonly source: string
}

export interface AddedMass {
  readonly working: Working
  /** Things whose mass nobody recorded: the true sum is higher. */
  readonly unknown: readonly string[]
}

/** The mass of what was fitted, g. Factory parts that came out are not credited: they may go back in. */
export function addedMass(things: readonly FittedThing[]): AddedMass {
  const known = things.flatMap(({ label, quantity, massG, source }): WorkingInput[] =>
    massG === null ? [] : [{ label: quantity === 1 ? label : `${quantity} × ${label}`, source, amount: { kind: 'mass', value: quantity * massG } }])
  const unknown = things.filter(({ massG }) => massG === null).map(({ label }) => label)
  return {
    unknown,
    working: {
      title: 'Added mass', inputs: known, result: { kind: 'mass', value: known.reduce((sum, { amount }) => sum + amount.value, 0) },
      formula: 'sum of what is fitted',
      assumed: `Factory parts that came out are not taken off: they may go back in.${unknown.length === 0 ? '' : ` Without ${unknown.join(', ')}: no mass is recorded.`}`,
      source: 'Equipment counts as cargo: steps for the load limit, 49 CFR 575.6',
    },
  }
}

/** What load remains for occupants and cargo, g: the placard's less what was added. Negative: overloaded before anybody gets in. */
export function remainingLoad(placardG: number, { working: { result }, unknown }: AddedMass): Working {
  return {
    title: 'Load that remains',
    inputs: [
      { label: 'Occupants and cargo', source: 'tire placard', amount: { kind: 'mass', value: placardG } },
      { label: 'Added mass', source: 'taken off', amount: { kind: 'mass', value: -result.value } },
    ],
    result: { kind: 'mass', value: placardG - result.value },
    formula: 'placard − added mass',
    assumed: `A trailer’s load on the hitch takes its share of it. Axle ratings are a limit of their own.${unknown.length === 0 ? '' : ` The true figure is lower: no mass is recorded of ${unknown.join(', ')}.`}`,
    source: 'Steps for the load limit, 49 CFR 575.6, as owner’s manuals print them: 1400 lb less five times 150 lb leaves 650 lb',
  }
}
