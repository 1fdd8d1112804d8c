import type { Amount, Working, WorkingInput } from '../calc/amounts.ts'
import type { BuildFigures } from '../builds/figures.ts'
import { label } from '../shared/records/kind.ts'
import type { Workings } from '../shared/workings.ts'
import type { PaperContent, PaperLine } from './content.ts'
import type { QuoteDraft } from './draft.ts'
import type { StoredQuote } from './store.ts'

const SOURCE = 'common practice, no source'
const money = (value: number): Amount => ({ kind: 'money', value })
const input = (name: string, source: string, minor: number): WorkingInput => ({ label: name, source, amount: money(minor) })

/** What the figures of a draft open: l3 is its fourth line, o2 its second option, t0 the first tax, d1 the second deposit step. */
export function draftWorkings(draft: QuoteDraft, stored: StoredQuote, figures: BuildFigures): Workings {
  const { content } = draft
  const nameOf = nameFinder(stored, figures)
  return new Map<string, Working>([
    ...content.lines.map((line, index): [string, Working] => [`l${index}`, lineWorking(line, draft, nameOf)]),
    ...content.options.map(({ number, name, totals }): [string, Working] => [`o${number}`, {
      title: `Option ${number}, ${name}`, inputs: linesOf(content, number), result: money(totals.netMinor), formula: 'sum of its lines', assumed: 'Tax is not in it.', source: SOURCE,
    }]),
    ['net', { title: 'Without tax', inputs: linesOf(content, null), result: money(content.totals.netMinor), formula: 'sum of the lines that are in no option', assumed: '', source: SOURCE }],
    ...content.totals.taxes.map(({ code, name, rateThousandthsOfPercent, netMinor, taxMinor }, index): [string, Working] => [`t${index}`, {
      title: `Tax ${code}, ${name}`, inputs: [input('Lines with this code', 'this quote', netMinor), { label: 'Rate', source: 'the shop’s tax code', amount: { kind: 'rate', value: rateThousandthsOfPercent } }],
      result: money(taxMinor), formula: 'what its lines come to × rate, rounded once, half away from zero', assumed: 'What is taxed how is for local law to say.', source: 'the shop’s rule',
    }]),
    ['total', {
      title: 'Total', inputs: [input('Without tax', 'this quote', content.totals.netMinor), ...content.totals.taxes.map(({ code, taxMinor }) => input(`Tax ${code}`, 'this quote', taxMinor))],
      result: money(content.totals.totalMinor), formula: 'without tax + tax, code by code', assumed: '', source: SOURCE,
    }],
    ...content.deposits.map(({ due, share, amountMinor }, index): [string, Working] => [`d${index}`, {
      title: `Deposit: ${due}`, inputs: [input('Total', 'this quote, without options', content.totals.totalMinor), { label: 'Share', source: 'deposit step', amount: { kind: 'share', value: share } }],
      result: money(amountMinor), formula: 'total × share; what is left over by rounding goes to the largest remainders, so that all steps add up', assumed: 'With options the total is another, and the steps with it.', source: SOURCE,
    }]),
  ])
}

const linesOf = ({ lines }: PaperContent, option: number | null): WorkingInput[] =>
  lines.filter((line) => line.option === option).map(({ text, amountMinor, taxCode }) => input(text, taxCode?.code ?? 'no tax code', amountMinor))

function lineWorking({ key, text, quantity, eachMinor, amountMinor }: PaperLine, { drawn, content, baseLaborMinor }: QuoteDraft, nameOf: NameOf): Working {
  const from = drawn.get(key)
  if (from) {
    const inputs = from.prices.filter(({ sellMinor }) => sellMinor !== 0).map((price) => input(nameOf(price), price.what === 'labor' ? 'labor estimate, with rework' : 'bill of materials', price.sellMinor))
    return { title: text, inputs, result: money(amountMinor), formula: 'sum; pieces are priced with the part they go into', assumed: 'Tax is not in it.', source: SOURCE }
  }
  if (key === 'supplies') {
    const most = content.supplies?.mostMinor ?? null
    return {
      title: text, inputs: [input('Labor that is in no option', 'labor estimate', baseLaborMinor), { label: 'Share', source: 'terms of the quote', amount: { kind: 'share', value: content.supplies?.share ?? 0 } }, ...(most === null ? [] : [input('At most', 'terms of the quote', most)])],
      result: money(amountMinor), formula: most === null ? 'labor × share' : 'labor × share, at most so much', assumed: 'Labor of options adds none.', source: 'the shop’s rule',
    }
  }
  return {
    title: text, inputs: [input('Price each', 'entered', eachMinor), { label: 'Quantity', source: 'entered', amount: { kind: 'times', value: quantity } }],
    result: money(amountMinor), formula: 'price × quantity, half away from zero', assumed: '', source: SOURCE,
  }
}

type NameOf = (thing: { readonly partId: string | null, readonly equipmentLineId: string | null, readonly factoryPartId: string | null }) => string

function nameFinder({ build }: StoredQuote, { inputs }: BuildFigures): NameOf {
  const names = new Map([
    ...build.parts.map(({ id, number, name }) => [id, `${label('P', number)} ${name}`] as const), ...build.lines.map(({ id, number, name }) => [id, `${label('E', number)} ${name}`] as const),
    ...inputs.bill.factoryParts.map(({ id, number, name }) => [id, `${number} ${name}`] as const),
  ])
  return ({ partId, equipmentLineId, factoryPartId }) => names.get(partId ?? equipmentLineId ?? factoryPartId ?? '') ?? 'The build itself'
}
