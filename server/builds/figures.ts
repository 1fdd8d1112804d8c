import type { AgreedPapers } from '../calc/costing/agreedForecast.ts'
import { billOfMaterials } from '../calc/parts/billOfMaterials.ts'
import type { BillOfMaterials } from '../calc/parts/billOfMaterials.ts'
import { listBought } from '../calc/parts/bought.ts'
import { costBuild } from '../calc/costing/costing.ts'
import type { Costing } from '../calc/costing/costing.ts'
import { EARNING_RULES } from '../calc/costing/earnedValue.ts'
import type { EarningRule } from '../calc/costing/earnedValue.ts'
import { Refusal } from '../calc/refusal.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { Problem } from '../shared/problems.ts'
import { MANAGERS } from '../shared/roles.ts'
import { toInputs } from './inputs.ts'
import type { BuildInputs } from './inputs.ts'
import type { StoredBuild } from './store.ts'

/** What is computed from the records of a build. */
export interface BuildFigures {
  readonly inputs: BuildInputs
  readonly bill: BillOfMaterials
  readonly costing: Costing
}

/** Cost, price and margin are for those who set them. */
export const seesMoney = ({ role }: Pick<Viewer, 'role'>): boolean => MANAGERS.includes(role)

/** Bill of materials, estimate and costing. Throws a 409 that names what the records contradict, as parts that go into each other. */
export function figuresOf(stored: StoredBuild): BuildFigures {
  const inputs = toInputs(stored)
  return refusedAsProblem(stored, () => {
    const bill = billOfMaterials(inputs.bill)
    const costing = costBuild({
      ...inputs.labor,
      entries: inputs.entries,
      bought: listBought(bill),
      earningRule: earningRuleOf(stored),
      plannedMinor: null,
      consent: stored.head.consent === null ? null
        : { limitMinor: stored.head.consent, papers: papersOf(stored), ...(stored.shop ? { nearThousandths: stored.shop.consentAlarmShare, allowedThousandths: stored.shop.allowedOverrun } : {}) },
    })
    return { inputs, bill, costing }
  })
}

/** The accepted papers, with what stands in their options by now. */
function papersOf({ papers, lines, parts }: StoredBuild): AgreedPapers | null {
  const idsIn = (things: readonly { readonly id: string, readonly optionId: string | null }[], id: string): string[] => things.filter(({ optionId }) => optionId === id).map((thing) => thing.id)
  return papers && { ...papers, options: papers.options.map(({ id, number, name, isChosen }) => ({ number, name, isChosen, partIds: idsIn(parts, id), equipmentIds: idsIn(lines, id) })) }
}

const earningRuleOf = ({ shop }: StoredBuild): EarningRule => EARNING_RULES.find((rule) => rule === shop?.earningRule) ?? 'nothing until done'

export function refusedAsProblem<Result>({ head }: StoredBuild, calculate: () => Result): Result {
  try {
    return calculate()
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    throw new Problem(409, 'The figures of this build cannot be made', `${error.message} `
      + `Nothing was changed. Correct the records of the build: its uses in assemblies stand at /part-uses?build=${head.id}, its parts at /parts?build=${head.id}.`)
  }
}
