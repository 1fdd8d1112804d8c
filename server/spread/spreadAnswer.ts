import { z } from 'zod'
import type { Sized, Spreads } from './spreads.ts'

const chances = (unit: string) => z.object({
  even: z.int().describe(`${unit} that half of all cases stay below`), in80: z.int().describe(`${unit}, 80 in 100`), in90: z.int().describe(`${unit}, 90 in 100`),
  mean: z.int().describe(unit), deviation: z.int().describe(unit),
})

export const spreadSchema = z.object({
  together: z.int().describe('How far things go wrong together, thousandths'),
  hours: chances('person-seconds with rework'), withoutRework: chances('person-seconds without rework'),
  price: chances('minor units').nullable().describe('For managers only'),
  operations: z.array(z.object({ operationId: z.string(), label: z.string(), share: z.int().describe('Share of the spread, thousandths'), records: z.int().describe('Closed operations its spread comes from; 0 where it comes from three values') })),
})

export function toSpreadAnswer({ togetherThousandths, withRework, withoutRework, price }: Spreads, showsMoney: boolean): z.infer<typeof spreadSchema> {
  return {
    together: togetherThousandths, hours: toChances(withRework), withoutRework: toChances(withoutRework), price: showsMoney ? toChances(price) : null,
    operations: withRework.labor.unsure.map(({ operationId, label, shareThousandths, records }) => ({ operationId, label, share: shareThousandths, records })),
  }
}

const toChances = ({ spread }: Sized) => ({
  even: spread.percentile(0.5), in80: spread.percentile(0.8), in90: spread.percentile(0.9), mean: spread.mean, deviation: spread.deviation,
})
