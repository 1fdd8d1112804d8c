import type { Amount, Working, WorkingInput } from '../../../server/calc/amounts.ts'

const HOUR_S = 3600

export const time = (hours: number): Amount => ({ kind: 'time', value: Math.round(hours * HOUR_S) })
export const money = (value: number): Amount => ({ kind: 'money', value })
export const seconds = (hours: number): number => Math.round(hours * HOUR_S)

export function hoursWorking(title: string, inputs: readonly (readonly [label: string, source: string, hours: number])[], formula: string): Working {
  const lines: WorkingInput[] = inputs.map(([label, source, hours]) => ({ label, source, amount: time(hours) }))
  const result = time(inputs.reduce((sum, [, , hours]) => sum + hours, 0))
  return { title, inputs: lines, result, formula, assumed: 'A finished operation takes no more hours.', source: 'common practice, no source' }
}
