import type { Working, WorkingInput } from '../amounts.ts'
import type { LearningModel } from './learning.ts'
import type { Operation } from './operations.ts'
import type { Owner } from '../parts/owners.ts'
import { meanOf, THREE_POINT_SOURCE } from './threePoint.ts'

const LEARNING_SOURCE = 'learning curves as in the package learningCurve 1.1.2'

/** The sum over the pieces, b being log₂ of the rate. */
const RUN_OF_MODEL: Readonly<Record<LearningModel, string>> = {
  unit: 'run × (1 + 2^b + … + pieces^b)',
  'cumulative average': 'run × pieces × pieces^b',
}
const MODEL_IN_WORDS: Readonly<Record<LearningModel, string>> = {
  unit: 'the unit model: the time of each piece falls to the rate with each doubling',
  'cumulative average': 'the cumulative average model: the average of all pieces so far falls to the rate with each doubling',
}

interface Estimated {
  readonly label: string
  /** Of all pieces, for one person. */
  readonly runS: number
  readonly allowance: number
  readonly withoutReworkS: number
  readonly laborS: number
}

/** How the estimate of one operation comes about. */
export function operationWorking(operation: Operation, owner: Owner, estimated: Estimated): Working {
  return {
    title: estimated.label,
    inputs: inputsOf(operation, owner, estimated),
    result: { kind: 'time', value: estimated.laborS },
    formula: formulaOf(operation, estimated.allowance),
    assumed: assumedOf(operation, estimated.allowance),
    source: sourceOf(operation),
  }
}

const time = (label: string, source: string, value: number): WorkingInput => ({ label, source, amount: { kind: 'time', value } })

function inputsOf(operation: Operation, owner: Owner, { runS, allowance, withoutReworkS }: Estimated): WorkingInput[] {
  const { learning, reworkThousandths, setUpS, crew, ratio } = operation
  return [
    time('Set-up, once for the batch', 'operation', setUpS),
    ...runInputs(operation),
    ...(learning === null ? [] : [{ label: 'Learning rate', source: `operation, ${learning.model} model`, amount: { kind: 'share', value: learning.rateThousandths } } as const]),
    { label: 'Pieces', source: owner.label, amount: { kind: 'count', value: owner.pieces } },
    time('Run, all pieces', 'this operation', owner.pieces === 0 ? 0 : runS),
    ...(ratio === null ? [] : [{ label: 'As the shop’s hours run', source: `${counted(ratio.records)}, accepted`, amount: { kind: 'times', value: ratio.thousandths } } as const]),
    { label: 'People at once', source: 'operation', amount: { kind: 'count', value: crew } },
    ...(allowance === 0 ? [] : [
      time('Without rework', 'this operation', withoutReworkS),
      { label: 'Allowance for rework', source: reworkThousandths === null ? 'department' : 'operation', amount: { kind: 'share', value: allowance } } as const,
    ]),
  ]
}

function runInputs({ runS, spread, learning }: Operation): WorkingInput[] {
  const piece = learning === null ? 'each piece' : 'first piece'
  if (spread === null) return [time(`Run, ${piece}`, 'operation', runS)]
  return [
    time(`Run, ${piece}, at best`, 'operation', spread.bestS), time(`Run, ${piece}, most likely`, 'operation', runS),
    time(`Run, ${piece}, at worst`, 'operation', spread.worstS),
    time(`Run, ${piece}, expected`, '(best + 4 × most likely + worst) ÷ 6', meanOf({ ...spread, likelyS: runS })),
  ]
}

const counted = (records: number): string => `${records} ${records === 1 ? 'record' : 'records'} of closed operations`

function formulaOf({ learning, ratio }: Operation, allowance: number): string {
  const run = learning === null ? 'run × pieces' : RUN_OF_MODEL[learning.model]
  const rework = allowance === 0 ? '' : ' × (1 + allowance for rework)'
  const learned = ratio === null ? '' : ' × as the shop’s hours run'
  return `(set-up + ${run})${learned} × people at once${rework}${learning === null ? '' : '; b = log₂ of the learning rate'}`
}

function assumedOf({ learning, spread, ratio }: Operation, allowance: number): string {
  return [
    learning === null ? 'All pieces are made in one batch and none goes faster than the first.'
      : `All pieces are made in one batch, by ${MODEL_IN_WORDS[learning.model]}.`,
    spread === null ? '' : 'What is unsure of one piece is as unsure of all pieces.',
    ratio === null ? '' : 'What ran longer or shorter than estimated did so in set-up and run alike; waiting stays as it is.',
    allowance === 0 ? '' : 'Rework that is logged uses up the allowance.',
  ].filter(sentence => sentence !== '').join(' ')
}

function sourceOf({ learning, spread }: Operation): string {
  const sources = [...(spread === null ? [] : [THREE_POINT_SOURCE]), ...(learning === null ? [] : [LEARNING_SOURCE])]
  return sources.length === 0 ? 'common practice, no source' : `${sources.join('; ')}; the rest common practice, no source`
}
