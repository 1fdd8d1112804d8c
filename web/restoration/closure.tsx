import { at } from '../shared/asset.ts'
import { Table, WordCell } from '../shared/table.tsx'
import { escapeProse } from '../shared/text.ts'
import { StepTime } from './stepTime.tsx'

export interface ClosureStep {
  readonly number: string
  readonly name: string
  readonly href: string
  readonly depth: 'out' | 'loosened'
  /** As "in front of F-050", or "chosen". */
  readonly why: string
  /** Goes back on in the same job, or stays out for good. */
  readonly goesBack: boolean
  readonly seconds: number
}

/** The smallest set that must come out or loose, first out on top. */
export function Closure({ steps }: { steps: readonly ClosureStep[] }): JSX.Element {
  return (
    <section class="block">
      <h2>What must come out</h2>
      {steps.length === 0 ? <p>Nothing: the way is free.</p> : (
        <Table columns={[{ name: 'No.' }, { name: 'What' }, { name: 'How far' }, { name: 'Why' }, { name: 'Then' }, { name: 'Hours', isFigure: true }]} caption="What must come out">
          {steps.map((step, index) => <Row step={step} place={index + 1} />)}
        </Table>
      )}
    </section>
  )
}

function Row({ step: { number, name, href, depth, why, goesBack, seconds }, place }: { step: ClosureStep, place: number }): JSX.Element {
  const safeWhy = escapeProse(why)
  return (
    <tr>
      <td class="no">{place}</td>
      <th scope="row"><a href={at(href)}><span class="no" safe>{number}</span>{' '}<span safe>{name}</span></a></th>
      <WordCell text={depth === 'out' ? 'out' : 'only loosened'} />
      <td class="quiet">{safeWhy}</td>
      <WordCell text={goesBack ? 'goes back on' : 'stays out'} />
      <StepTime number={number} depth={depth} seconds={seconds} />
    </tr>
  )
}
