import type { Working, WorkingInput } from '../calc/amounts.ts'
import type { LearnedRatio } from '../calc/estimate/hourHistory.ts'

const SOURCE = 'partial pooling by the method of moments; what is taken before there are records is ours'
const GEOMETRIC = 'Geometric means, so that twice and half the estimate weigh alike. Work alone; rework and waiting stand apart.'

/** How a ratio, its interval and its share of rework come about: k3 the ratio, k3n the records, k3l and k3h its ends, k3w the rework. */
export function learnedWorkings(key: string, name: string, learned: LearnedRatio, shop: LearnedRatio | null): [string, Working][] {
  const { ratio, ownRatio, records, weight, low, high, reworkShare } = learned
  const times = (label: string, source: string, value: number): WorkingInput => ({ label, source, amount: { kind: 'times', value } })
  const counts: WorkingInput = { label: 'Records', source: 'operations that are done, with an estimate and work logged', amount: { kind: 'count', value: records } }
  const end = (title: string, value: number, formula: string): Working => ({
    title: `${name}: ${title}`, inputs: [times('Ratio', 'of the estimate', ratio), counts], result: { kind: 'times', value }, formula,
    assumed: '80 of 100 such ratios lie between the two ends. It is the ratio that is unsure here; single operations lie much wider.', source: SOURCE,
  })
  return [
    [key, {
      title: `${name}: hours logged, of the estimate`,
      inputs: [
        times(shop === null ? 'Mean of all records' : 'Its own records', 'logged ÷ estimated', ownRatio), counts,
        ...(shop === null ? [] : [times('The shop', 'all records', shop.ratio), { label: 'How far its own records count', source: 'n ÷ (n + variance within ÷ variance between)', amount: { kind: 'share', value: weight } } as const]),
      ],
      result: { kind: 'times', value: ratio },
      formula: shop === null ? 'mean over kinds, each by how sure it is, drawn towards 1' : 'the shop × (its own ÷ the shop) to the power of its share',
      assumed: GEOMETRIC, source: SOURCE,
    }],
    [`${key}n`, { title: `${name}: records`, inputs: [counts], result: { kind: 'count', value: records }, formula: 'count', assumed: 'Service visits are not in it.', source: 'common practice, no source' }],
    [`${key}l`, end('lower end', low, 'ratio ÷ e to the power of 1.2816 × its deviation')],
    [`${key}h`, end('upper end', high, 'ratio × e to the power of 1.2816 × its deviation')],
    [`${key}w`, {
      title: `${name}: rework logged, of the work logged`, inputs: [counts], result: { kind: 'share', value: reworkShare }, formula: 'rework ÷ work, of all its operations that are done',
      assumed: 'It is not in the ratio: the allowance for rework covers it.', source: 'common practice, no source',
    }],
  ]
}
