import { z } from 'zod'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { parseMoney } from '../calc/money.ts'
import { parseQuantity } from '../calc/quantities.ts'
import type { StoredBuild } from '../builds/store.ts'
import type { StoredQuote } from '../quotes/store.ts'
import { label } from '../shared/records/kind.ts'

const word = z.string().max(60).default('')
const several = z.union([z.string().max(20), z.array(z.string().max(20)).max(300)]).default([]).transform((given) => [given].flat())

/** As it stands in the address: short numbers of parts and lines, amounts as people type them. */
export const whatIfQuery = z.object({ department: word, price: word, cost: word, drop: several, without: several, double: word, margin: word })
export type WhatIfTyped = z.infer<typeof whatIfQuery>

export interface WhatIfAsked {
  readonly rate: { readonly departmentId: string, readonly sellMinor: number | null, readonly costMinor: number | null } | null
  /** Ids of options of the quote; what stands in them is left out. */
  readonly dropped: ReadonlySet<string>
  /** Ids of made parts and equipment lines, those in dropped options too. */
  readonly without: ReadonlySet<string>
  readonly doubledId: string | null
  /** Thousandths of the price. */
  readonly targetMargin: number | null
}

/** What is looked at: the build, and the quote that is made from it. */
export interface WhatIfBuild {
  readonly stored: StoredBuild
  readonly quoted: StoredQuote
}

/** What is asked, and beside each field what cannot be read of it; that part is then left out. */
export function readAsked(typed: WhatIfTyped, { stored, quoted }: WhatIfBuild, { currency }: Pick<Viewer, 'currency'>): { readonly asked: WhatIfAsked, readonly problems: readonly FieldProblem[] } {
  const problems: FieldProblem[] = []
  const refuse = (field: string, message: string): null => {
    problems.push({ field, message })
    return null
  }
  const rate = (field: 'price' | 'cost'): number | null => {
    if (typed[field].trim() === '') return null
    const read = parseMoney(typed[field], currency)
    return read.ok ? read.minor : refuse(field, read.message)
  }
  const byNumber = new Map(listThings(stored).map(({ number, id }) => [number, id]))
  const idOf = (field: string, number: string): string | null => byNumber.get(number) ?? refuse(field, `${number.slice(0, 20)} is no made part or equipment line of this build. Choose from the list.`)
  const optionByNumber = new Map(quoted.build.quoteOptions.map(({ number, id }) => [String(number), id]))
  const optionOf = (number: string): string | null => optionByNumber.get(number) ?? refuse('drop', `${number.slice(0, 20)} is no option of this quote. Choose from the list.`)
  const dropped = new Set(typed.drop.filter((number) => number !== '').flatMap((number) => optionOf(number) ?? []))
  const inDropped = [...quoted.build.lines, ...quoted.build.parts].filter(({ optionId }) => dropped.has(optionId ?? '')).map(({ id }) => id)
  const department = stored.departments.find(({ id }) => id === typed.department)
  const [sellMinor, costMinor] = [rate('price'), rate('cost')]
  if (typed.department !== '' && !department) refuse('department', 'That department is not one of the shop’s. Choose from the list.')
  if (!department && (sellMinor !== null || costMinor !== null)) refuse('department', 'Whose rate? Choose a department.')
  return {
    asked: {
      rate: department && (sellMinor !== null || costMinor !== null) ? { departmentId: department.id, sellMinor, costMinor } : null,
      dropped, without: new Set([...inDropped, ...typed.without.filter((number) => number !== '').flatMap((number) => idOf('without', number) ?? [])]),
      doubledId: typed.double === '' ? null : idOf('double', typed.double),
      targetMargin: readMargin(typed.margin, refuse),
    },
    problems,
  }
}

function readMargin(text: string, refuse: (field: string, message: string) => null): number | null {
  if (text.trim() === '') return null
  const read = parseQuantity(text, 'share', '%')
  if (!read.ok) return refuse('margin', read.message)
  if (read.value >= 1000) return refuse('margin', 'A margin is a share of the price, so it is less than 100 %. A markup is a share of the cost and may be more.')
  return read.value
}

export interface Thing {
  readonly id: string
  readonly number: string
  readonly name: string
  readonly isPart: boolean
}

export function listThings({ parts, lines }: StoredBuild): Thing[] {
  return [
    ...parts.map(({ id, number, name }) => ({ id, number: label('P', number), name, isPart: true })),
    ...lines.map(({ id, number, name }) => ({ id, number: label('E', number), name, isPart: false })),
  ]
}
