import type { Children } from '@kitajs/html'
import { at } from '../shared/asset.ts'
import { Mark } from '../shared/marks.tsx'
import { Table } from '../shared/table.tsx'
import { escapeProse } from '../shared/text.ts'
import { OrderDrawing, OrderKey } from './orderDrawing.tsx'
import type { OrderDrawingData } from './orderDrawing.tsx'
import { StepTime } from './stepTime.tsx'

export interface OrderStep {
  readonly number: string
  readonly name: string
  readonly href: string
  readonly depth: 'out' | 'loosened'
  readonly state: 'done' | 'ready' | 'waits'
  /** Numbers of what must still come out or loose before it. */
  readonly waitsFor: readonly string[]
  readonly seconds: number
  /** Shop-made or installed, not the factory's. */
  readonly isBuilt: boolean
}

export interface OrderGraph {
  readonly steps: readonly OrderStep[]
  readonly seconds: number
  /** Named ways in that were taken, in words. */
  readonly ways: readonly string[]
  /** Instead of an order: the ring that makes one impossible, in words. */
  readonly refused?: string | undefined
  /** Left out where no rule is to be drawn. */
  readonly drawing?: OrderDrawingData | undefined
}

interface SectionProps {
  readonly name: string
  readonly explained: string
  readonly graph: OrderGraph
  readonly children: Children
}

/** One order of removal, drawn and as a list, first out on top. */
export function OrderSection({ name, explained, graph, children }: SectionProps): JSX.Element {
  return (
    <section class="block">
      <h2 safe>{name}</h2>
      <p class="quiet" safe>{explained}</p>
      <div class={['orderpair', graph.drawing === undefined && 'alone', isWide(graph.drawing) && 'wide']}>
        {graph.drawing === undefined ? '' : <div class="orderdrawing"><OrderDrawing name={name} drawing={graph.drawing} />{graph.drawing.kind === 'drawn' ? <OrderKey /> : ''}</div>}
        <div>
          {graph.refused === undefined ? <Steps name={name} graph={graph} /> : <p class="mend" safe>{graph.refused}</p>}
          {graph.ways.map((way) => <p safe>{way}</p>)}
          {children}
        </div>
      </div>
    </section>
  )
}

// Beside the list its words would get too small in a window of middling width.
const WIDE = 700
const isWide = (drawing: OrderDrawingData | undefined): boolean => drawing?.kind === 'drawn' && drawing.big.width > WIDE

function Steps({ name, graph }: { name: string, graph: OrderGraph }): JSX.Element {
  if (graph.steps.length === 0) return <p>Nothing has to come out.</p>
  return (
    <Table columns={[{ name: 'No.' }, { name: 'What' }, { name: 'State' }, { name: 'Hours', isFigure: true }]} caption={`Order of removal, ${name}`}>
      {graph.steps.map((step, index) => <Row step={step} place={index + 1} />)}
    </Table>
  )
}

function Row({ step, place }: { step: OrderStep, place: number }): JSX.Element {
  return (
    <tr>
      <td class="no">{place}</td>
      <th scope="row">
        <a href={at(step.href)}><span class="no" safe>{step.number}</span>{' '}<span safe>{step.name}</span></a>
        {step.isBuilt ? <span class="quiet"> installed here</span> : ''}
        {step.depth === 'loosened' ? <span class="quiet"> only loosened</span> : ''}
      </th>
      <td><StepState step={step} /></td>
      <StepTime number={step.number} depth={step.depth} seconds={step.seconds} />
    </tr>
  )
}

function StepState({ step: { state, depth, waitsFor } }: { step: OrderStep }): JSX.Element {
  if (state === 'done') return <><Mark name={depth === 'loosened' ? 'loosened' : 'done'} byHand /> {depth === 'loosened' ? 'loose' : 'out'}</>
  if (state === 'ready') return <><Mark name="empty" /> free now</>
  const safeBehind = escapeProse(`behind ${waitsFor.join(', ')}`)
  return <><Mark name="waiting" /> {safeBehind}</>
}
