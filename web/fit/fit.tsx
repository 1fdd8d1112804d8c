import { at } from '../shared/asset.ts'
import type { CautionProps } from '../shared/caution.tsx'
import { Cautions } from '../shared/caution.tsx'
import { FirstSteps } from '../shared/empty.tsx'
import { RowFigure } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface FitLine {
  readonly line: string
  readonly href: string
  readonly place: string
  readonly placeHref: string
  readonly spacer: string
  readonly state: 'open' | 'fits' | 'fits with a spacer' | 'does not fit'
  readonly words: string
  readonly checks: readonly { readonly kind: string, readonly words: string, readonly how?: string | undefined }[]
}

export interface FitData {
  readonly build: string
  readonly buildHref: string
  readonly lines: readonly FitLine[]
  /** Equipment that has no mounting place yet. */
  readonly unchecked: readonly { readonly name: string, readonly href: string }[]
  readonly cautions: readonly CautionProps[]
  readonly addHref?: string | undefined
  readonly listHref: string
}

/** Whether the equipment of a build fits where it is to go, before anything is cut. */
export function FitPage({ viewer, data }: { viewer: Viewer, data: FitData }): JSX.Element {
  const bad = data.lines.filter(({ state }) => state === 'does not fit').length
  return (
    <Frame title={`Fit, ${data.build}`} place="builds" viewer={viewer}>
      <Trail steps={[{ name: data.build, href: data.buildHref }, { name: 'Fit' }]} />
      <Strip>
        <TitleCell label={data.build} title="Fit" />
        <TextCell label="Checked" width="w4" text={counted(data.lines.length, 'line', 'lines')} more={bad === 0 ? '' : `${bad} not fitting`} />
      </Strip>
      <Cautions cautions={data.cautions} />
      <section class="block" aria-label="Fit of each line">
        {data.lines.length === 0 ? <Nothing data={data} /> : <Lines lines={data.lines} />}
        <Unchecked data={data} />
        <div class="deed">
          {data.addHref === undefined || data.lines.length === 0 ? '' : <a class="button first" href={at(data.addHref)}>Add a mounting place</a>}
          <a class="link" href={at(data.listHref)}>Mounting places</a>
        </div>
      </section>
    </Frame>
  )
}

function Nothing({ data }: { data: FitData }): JSX.Element {
  if (data.addHref === undefined) return <p class="quiet">No equipment line has a mounting place yet.</p>
  return <FirstSteps steps={[{
    title: 'The first mounting place', why: 'Measure it once, then choose it on the equipment line: the line says whether it fits.',
    example: 'Lower front door: depth 61 mm, window drop 58 mm, largest spacer 18 mm.', href: data.addHref, button: 'Add a mounting place',
  }]} />
}

function Lines({ lines }: { lines: readonly FitLine[] }): JSX.Element {
  return (
    <Table columns={[{ name: 'Line' }, { name: 'Place' }, { name: 'Spacer' }, { name: 'Room left' }, { name: 'Answer' }]} caption="Fit of each line" class="fit">
      {lines.map((line) => (
        <tr>
          <th scope="row"><a href={at(line.href)} safe>{line.line}</a></th>
          <td data-is="place"><a href={at(line.placeHref)} safe>{line.place}</a></td>
          <WordCell is="spacer" text={line.spacer} />
          <td data-is="room left"><Checks checks={line.checks} /></td>
          <td data-is="answer"><Answer line={line} /></td>
        </tr>
      ))}
    </Table>
  )
}

function Checks({ checks }: { checks: FitLine['checks'] }): JSX.Element {
  return (
    <ul class="plainlist">
      {checks.map(({ kind, words, how }) => <li><span safe>{`${kind}: `}</span>{how === undefined ? <span safe>{words}</span> : <RowFigure text={words} how={how} />}</li>)}
    </ul>
  )
}

const Answer = ({ line }: { line: FitLine }): JSX.Element =>
  line.state === 'fits' ? <span safe>{line.words}</span> : <strong safe>{line.words}</strong>

function Unchecked({ data: { unchecked } }: { data: FitData }): JSX.Element {
  if (unchecked.length === 0) return ''
  return (
    <p class="quiet">Without a mounting place, so not checked: {unchecked.map(({ name, href }, index) => <>{index === 0 ? '' : ', '}<a class="link" href={at(href)} safe>{name}</a></>)}.</p>
  )
}

/** The same on the page of one line. */
export function LineFitBlock({ line, fitHref }: { line: FitLine, fitHref: string }): JSX.Element {
  return (
    <section class="block" aria-labelledby="line-fit">
      <h2 id="line-fit">Fit in <a class="link" href={at(line.placeHref)} safe>{line.place}</a></h2>
      <p><Answer line={line} /></p>
      <Checks checks={line.checks} />
      <p class="quiet">Before anything is drilled or cut: look at the far side, and keep away from airbags. <a class="link" href={at(fitHref)}>Fit of the whole build, with its cautions</a></p>
    </section>
  )
}
