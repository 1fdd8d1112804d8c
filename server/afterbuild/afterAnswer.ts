import { z } from 'zod'
import { toTotal, type TookRow, type TookTotal } from '../calc/estimate/afterBuild.ts'
import type { PriceTaken } from '../calc/quotes/priceTaken.ts'
import { guarded } from '../shared/csv/guard.ts'
import { writeCsv } from '../shared/csv/writeCsv.ts'
import { moneyOf, type MoneySums } from './money.ts'
import { byDepartment, byKind, byOwner, byRework } from './sides.ts'
import type { TookBuild } from './tookOf.ts'

const seconds = (what: string) => z.int().describe(`${what}, person-seconds`)
const took = {
  name: z.string(), operations: z.int(), builds: z.int(), estimated: seconds('Allowance for rework included'), logged: seconds('Work and rework'),
  rework: seconds('Part of what is logged'), waiting: seconds('Beside what is logged'), over: seconds('Logged less estimated'),
}
const sides = { departments: z.array(z.object(took)), kinds: z.array(z.object(took)), rework: z.array(z.object(took)) }
const minor = z.int().describe('minor units, without tax')
const sums = { price: minor, cost: minor, margin: minor, marginShare: z.int().nullable().describe('Thousandths of the price'), estimatePrice: minor.describe('minor units: price of the estimate, all options included') }
const money = z.object({
  ...sums, basis: z.enum(['invoiced', 'accepted', 'estimate']).describe('Where the price is taken from'), accepted: minor.nullable().describe('Quote and change orders; null where nothing frozen was accepted'),
  invoiced: minor.nullable().describe('Null where nothing is'), credited: minor.describe('By credit notes, 0 or more'),
})
const build = z.object({ id: z.string(), label: z.string(), isDelivered: z.boolean(), total: z.object(took), money })

export const afterBuildSchema = build.extend({ ...sides, parts: z.array(z.object(took)) })
export const afterAllSchema = z.object({ builds: z.array(build), leftOut: z.array(z.string()).describe('Closed builds whose figures cannot be made'), total: z.object(took), money: z.object(sums), ...sides })

const toTook = ({ name, operations, builds, estimatedS, tookS, reworkS, waitingS, overS }: TookTotal) =>
  ({ name, operations, builds, estimated: estimatedS, logged: tookS, rework: reworkS, waiting: waitingS, over: overS })
const toSums = ({ estimateMinor, priceMinor, costMinor, marginMinor, marginThousandths }: MoneySums) =>
  ({ price: priceMinor, cost: costMinor, margin: marginMinor, marginShare: marginThousandths, estimatePrice: estimateMinor })
const toMoney = (taken: PriceTaken): z.infer<typeof money> =>
  ({ ...toSums(taken), basis: taken.basis, accepted: taken.acceptedMinor, invoiced: taken.invoices?.invoicedMinor ?? null, credited: taken.invoices?.creditedMinor ?? 0 })
const toBuild = ({ id, label, isDelivered, rows, money: own }: TookBuild): z.infer<typeof build> => ({ id, label, isDelivered, total: toTook(toTotal('the build', rows)), money: toMoney(own) })

export function toAfterBuildAnswer(one: TookBuild): z.infer<typeof afterBuildSchema> {
  const { rows } = one
  return {
    ...toBuild(one), parts: byOwner(rows).totals.map(toTook), departments: byDepartment(rows).totals.map(toTook), kinds: byKind(rows).totals.map(toTook),
    rework: byRework(rows, ({ label }) => label).totals.map(toTook),
  }
}

export function toAfterAllAnswer(builds: readonly TookBuild[], leftOut: readonly string[]): z.infer<typeof afterAllSchema> {
  const rows = builds.flatMap((each) => each.rows)
  return {
    builds: builds.map(toBuild), leftOut: [...leftOut], total: toTook(toTotal('all closed builds', rows)), money: toSums(moneyOf(builds)),
    departments: byDepartment(rows).totals.map(toTook), kinds: byKind(rows).totals.map(toTook), rework: byRework(rows, ({ kind, department }) => `${kind}, ${department}`).totals.map(toTook),
  }
}

/** Hours of every operation as a spreadsheet reads them, in hours with four decimals; of nobody in particular. */
export function hoursCsv(rows: readonly TookRow[]): string {
  const hours = (value: number): string => (value / 3600).toFixed(4)
  return writeCsv([
    ['Build', 'Of', 'Operation', 'Kind', 'Department', 'Estimated h', 'Work h', 'Rework h', 'Waiting h'],
    ...rows.map(({ build: name, owner, label, kind, department, estimatedS, workS, reworkS, waitingS }) =>
      [name, owner, label, kind, department].map(guarded).concat([estimatedS, workS, reworkS, waitingS].map(hours))),
  ])
}
