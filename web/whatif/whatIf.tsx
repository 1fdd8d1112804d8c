import { at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { ChecksEntry, ChoiceEntry, Fields, problemOf, QuantityEntry, type Option } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { FigureCell, Table } from '../shared/table.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface WhatIfData {
  readonly build: string
  readonly buildHref: string
  /** What is asked, as the rest of the page's address. */
  readonly address: string
  readonly typed: { readonly department: string, readonly price: string, readonly cost: string, readonly drop: readonly string[], readonly without: readonly string[], readonly double: string, readonly margin: string }
  readonly problems: readonly FieldProblem[]
  readonly rows: readonly { readonly key: string, readonly name: string, readonly asItIs: string, readonly whatIf: string, readonly moves: string }[]
  readonly target: { readonly margin: string, readonly price: string, readonly markup: string } | null
  /** Options of the quote, by number. */
  readonly quoteOptions: readonly Option[]
  readonly departments: readonly Option[]
  /** Made parts and equipment lines. */
  readonly things: readonly Option[]
  readonly parts: readonly Option[]
}

const COLUMNS = [{ name: 'What' }, { name: 'As it is', isFigure: true }, { name: 'What if', isFigure: true }, { name: 'Moves by', isFigure: true }]

/** The build beside what it would be; a question in the address, nothing that is kept. */
export function WhatIfPage({ viewer, data }: { viewer: Viewer, data: WhatIfData }): JSX.Element {
  return (
    <Frame title={`What if, ${data.build}`} place="builds" viewer={viewer}>
      <Trail steps={[{ name: data.build, href: data.buildHref }, { name: 'Estimate', href: `${data.buildHref}/estimate` }, { name: 'What if' }]} />
      <Strip>
        <TitleCell label={data.build} title="What if" />
        <TextCell label="Written down" width="w4" text="nothing" more="the build stays as it is" />
      </Strip>
      <Beside data={data} />
      <Question viewer={viewer} data={data} />
    </Frame>
  )
}

function Beside({ data: { rows, target, address } }: { data: WhatIfData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="beside">
      <h2 id="beside">Beside the build as it is</h2>
      <Table columns={COLUMNS} caption="The build as it is and as it would be">
        {rows.map(({ key, name, asItIs, whatIf, moves }) => (
          <tr>
            <th scope="row" safe>{name}</th>
            <FigureCell is="as it is" text={asItIs} how={`${key}a`} on={address} />
            <FigureCell is="what if" text={whatIf} how={`${key}w`} on={address} />
            <FigureCell is="moves by" text={moves} how={`${key}d`} on={address} />
          </tr>
        ))}
      </Table>
      {target === null ? '' : (
        <p>
          For a margin of <span safe>{target.margin}</span> of the price it would have to cost the customer <RowFigure text={target.price} how="tp" on={address} />, which is a markup of <RowFigure text={target.markup} how="tk" on={address} /> on the cost.
        </p>
      )}
      <p class="quiet">Margin = (price − cost) ÷ price. Markup = (price − cost) ÷ cost. A markup of 50 % is a margin of 33.3 %. Where there is a quote, its further lines and supplies count with the price in both. Cost is that of the estimate, labor and bought: a question for planning, so what was logged so far is not looked at. What it will really come to stands in estimate and costing.</p>
    </section>
  )
}

function Question({ viewer, data: { typed, problems, quoteOptions, departments, things, parts, buildHref } }: { viewer: Viewer, data: WhatIfData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="question">
      <h2 id="question">What would be different</h2>
      <form method="get" action={at(`${buildHref}/what-if`)} class={[problems.length > 0 && 'unsaved']}>
        <Fields legend="Another rate">
          <ChoiceEntry name="department" label="Department" value={typed.department} options={departments} none="none" problem={problemOf(problems, 'department')} />
          <QuantityEntry name="price" label="Price of an hour" value={typed.price} unit={viewer.currency} problem={problemOf(problems, 'price')} />
          <QuantityEntry name="cost" label="Cost of an hour" value={typed.cost} unit={viewer.currency} problem={problemOf(problems, 'cost')} />
        </Fields>
        {quoteOptions.length === 0 ? '' : (
          <Fields legend="Options of the quote">
            <ChecksEntry name="drop" label="Drop" note="All of them count until they are dropped, also those that exclude each other." values={typed.drop} options={quoteOptions} problem={problemOf(problems, 'drop')} />
          </Fields>
        )}
        <Fields legend="More, less, and for how much">
          <ChoiceEntry name="double" label="Make twice as many of" value={typed.double} options={parts} none="none" problem={problemOf(problems, 'double')} />
          <QuantityEntry name="margin" label="Margin wanted" note="Of the price, as 35 %." value={typed.margin} unit="%" problem={problemOf(problems, 'margin')} />
          <details class="folded" {...(typed.without.length > 0 ? { open: true } : {})}>
            <summary><span>Leave out a made part or an equipment line</span></summary>
            <ChecksEntry name="without" label="Leave out" values={typed.without} options={things} problem={problemOf(problems, 'without')} />
          </details>
        </Fields>
        <div class="deed">
          <button class="button first" type="submit">Work it out</button>
          <a class="link" href={at(`${buildHref}/what-if`)}>As it is</a>
        </div>
      </form>
    </section>
  )
}
