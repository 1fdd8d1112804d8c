import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { FigureCell, Table } from '../shared/table.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import { ChanceCurve, type CurvePoint } from './curve.tsx'

export interface SpreadData {
  readonly build: string
  readonly buildHref: string
  readonly title: string
  /** The rest of the page's address, on which its figures depend. */
  readonly address: string
  readonly action: string
  /** In 100, as typed. */
  readonly together: string
  /** What is wrong with that, and what to do; empty for most. */
  readonly problem: string
  readonly rows: readonly { readonly name: string, readonly chances: readonly { readonly text: string, readonly how: string }[] }[]
  readonly estimate: { readonly text: string, readonly inside: string }
  readonly curve: readonly CurvePoint[]
  readonly estimatedS: number
  /** What the spread comes from, the greatest first. */
  readonly unsure: readonly { readonly name: string, readonly href: string, readonly range: string, readonly isEntered: boolean, readonly share: { readonly text: string, readonly how: string } }[]
  readonly unshown: number
  readonly operationCount: { readonly unsure: number, readonly byHistory: number, readonly all: number }
}

/** Even chance, 80 and 90 in 100: what hours and price may come to, and why. */
export function SpreadPage({ viewer, data }: { viewer: Viewer, data: SpreadData }): JSX.Element {
  return (
    <Frame title={`${data.title}, ${data.build}`} place="builds" viewer={viewer}>
      <Trail steps={[{ name: data.build, href: data.buildHref }, { name: 'Estimate', href: `${data.buildHref}/estimate` }, { name: data.title }]} />
      <Strip>
        <TitleCell label={data.build} title={data.title} />
        <TextCell label="Unsure" width="w4" text={counted(data.operationCount.unsure, 'operation', 'operations')} more="with three values or hours of the shop" />
      </Strip>
      <Chances data={data} />
      {data.operationCount.unsure === 0 ? <HowToSay data={data} /> : <Sources data={data} />}
    </Frame>
  )
}

/** What the spread stands on. */
function inWords({ unsure, byHistory, all }: SpreadData['operationCount']): string {
  if (all === 0) return 'No operation is planned yet, so there are no hours to be unsure of.'
  if (unsure === 0) return 'Nobody has said how unsure an operation is, and the shop has no closed ones of these kinds: all count as sure, so that the three stand at the estimate. What it will really take is unsure all the same.'
  const own = byHistory === 0 ? '' : `${byHistory} ${byHistory === 1 ? 'is' : 'are'} as unsure as the shop’s closed operations of the kind were, around the estimate as it stands. `
  const rest = unsure === all ? '' : 'The others count as sure, so the real spread is wider than these figures.'
  return `${unsure - byHistory} of ${counted(all, 'operation has', 'operations have')} three values. ${own}${rest}`
}

function Chances({ data }: { data: SpreadData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="chances">
      <h2 id="chances">Chances</h2>
      <Table columns={[{ name: 'What' }, { name: 'Even chance', isFigure: true }, { name: '80 in 100', isFigure: true }, { name: '90 in 100', isFigure: true }]} caption="What it may come to">
        {data.rows.map(({ name, chances: [even, in80, in90] }) => (
          <tr>
            <th scope="row" safe>{name}</th>
            <FigureCell is="even chance" text={even?.text ?? ''} how={even?.how} on={data.address} />
            <FigureCell is="80 in 100" text={in80?.text ?? ''} how={in80?.how} on={data.address} />
            <FigureCell is="90 in 100" text={in90?.text ?? ''} how={in90?.how} on={data.address} />
          </tr>
        ))}
      </Table>
      <p safe>{inWords(data.operationCount)}</p>
      <p class="quiet" safe>{`The estimate stands at ${data.estimate.text}: ${data.estimate.inside}.`}</p>
      <div class="chance-drawing"><ChanceCurve points={data.curve} estimatedS={data.estimatedS} /></div>
      <form class="find" method="get" action={at(data.action)}>
        <label for="together">Go wrong together, in 100</label>
        <div class="entry"><input id="together" name="together" inputmode="numeric" maxlength="20" value={data.together} aria-invalid={data.problem === '' ? undefined : 'true'} aria-describedby={data.problem === '' ? undefined : 'together-wrong'} /></div>
        <button class="button" type="submit">Work it out again</button>
      </form>
      {data.problem === '' ? '' : <p id="together-wrong" class="wrong" role="alert"><Mark name="point" />{' '}<strong safe>{data.problem}</strong></p>}
      <p class="quiet">0: a bad day at one operation says nothing of another. 100: all goes wrong on the same build. Between them is a shop’s own judgment, kept in the shop settings; 30 is our assumption, no source.</p>
    </section>
  )
}

function HowToSay({ data }: { data: SpreadData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="say">
      <h2 id="say">How to say it</h2>
      <p>On an operation enter <strong>Run at best</strong> and <strong>Run at worst</strong> beside the most likely time, for example 2 h, 3 h and 8 h for a first mold. Once builds are closed, their operations say it for the next of their kind. <a class="link" href={at(`${data.buildHref}/estimate`)}>To the estimate</a></p>
    </section>
  )
}

function Sources({ data }: { data: SpreadData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="sources">
      <h2 id="sources">Where the spread comes from</h2>
      <Table columns={[{ name: 'Operation' }, { name: 'At best, most likely, at worst, a piece, or from the shop’s hours', isFigure: true }, { name: 'Share of the spread', isFigure: true }]} caption="Operations by their share of the spread">
        {data.unsure.map(({ name, href, range, isEntered, share }) => (
          <tr><th scope="row"><a href={at(href)} safe>{name}</a></th><FigureCell is="three values" text={range} how={isEntered ? 'recorded' : undefined} /><FigureCell is="share of the spread" text={share.text} how={share.how} on={data.address} /></tr>
        ))}
      </Table>
      {data.unshown === 0 ? '' : <p class="quiet" safe>{`And ${counted(data.unshown, 'more operation', 'more operations')} with less.`}</p>}
      <p class="quiet">The share is the operation’s variance out of the sum of all variances.</p>
    </section>
  )
}
