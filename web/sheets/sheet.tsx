import { asset, at } from '../shared/asset.ts'
import { CautionBlock } from '../shared/caution.tsx'
import { Frame } from '../shared/frame.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { Mark } from '../shared/marks.tsx'
import type { Viewer } from '../shared/viewer.ts'
import type { GroupLink, SheetPageData } from './sheetData.ts'
import { StepCard } from './step.tsx'

/** A frozen sheet in one hand: what to do now, who did what, what is not yet sent. */
export function SheetPage({ viewer, data }: { viewer: Viewer, data: SheetPageData }): JSX.Element {
  return (
    <Frame title={`${data.number} Return to stock`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Sheet" number={data.number} />
        <TitleCell label="Back to stock" title={data.title} />
        <Cell label="Done" width="w2"><span class="figure recorded" data-done>{data.done} of {data.count}</span></Cell>
        <TextCell label="Frozen" text={data.frozen} />
        <Cell label="Also" width="w3"><div class="row">{data.links.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}</div></Cell>
      </Strip>
      {data.closed === '' ? '' : <p class="said" role="status"><Mark name="done" /><span safe>{data.closed}</span></p>}
      <Differences differences={data.differences} />
      <Cautions data={data} />
      <Groups groups={data.groups} />
      <section class="block checklist" data-sheet={data.id} data-person={viewer.personId} data-csrf={viewer.csrfToken} data-to={at(`/api/restorations/${data.id}/marks`)}>
        <h2 safe>{data.here.name}</h2>
        <p class="unsent" role="status" data-unsent hidden></p>
        <ol class="steps-list">{data.here.steps.map((step) => <StepCard step={step} data={data} csrfToken={viewer.csrfToken} />)}</ol>
        <p class="deed">
          {data.nextHref === '' ? '' : <a class="button first" href={at(data.nextHref)}>Next part of the sheet</a>}
          {data.closing === null ? '' : <a class="button" href={at(data.closing.href)}>Close this sheet</a>}
        </p>
      </section>
      <details class="block"><summary>What makes this sheet this sheet</summary><p>SHA-256 of all that stands on it: <span class="no break" safe>{data.hash}</span></p></details>
      <script src={asset('intake.js')} defer></script>
      <script src={asset('checklist.js')} defer></script>
    </Frame>
  )
}

function Differences({ differences }: { differences: readonly string[] }): JSX.Element {
  if (differences.length === 0) return ''
  return (
    <section class="mend" aria-labelledby="differs">
      <h2 id="differs">The records have changed since this sheet was frozen</h2>
      <p>The sheet stays as it is. Drawn now, it would differ:</p>
      <ul>{differences.map((words) => <li safe>{words}</li>)}</ul>
    </section>
  )
}

// Read once in full; after that each step names its own, and they stay at hand.
function Cautions({ data: { cautions, here, groups } }: { data: SheetPageData }): JSX.Element {
  if (cautions.length === 0) return ''
  const blocks = cautions.map((caution) => <CautionBlock {...caution} />)
  if (groups[0]?.isHere === true) return <section class="cautions" aria-labelledby="cautions"><h2 class="unseen" id="cautions">Cautions</h2>{blocks}</section>
  const cited = new Set(here.steps.flatMap((step) => step.cautions))
  const own = cautions.filter(({ number }) => number !== undefined && cited.has(number))
  return (
    <section class="cautions" aria-labelledby="cautions">
      <h2 class="unseen" id="cautions">Cautions</h2>
      {own.map((caution) => <CautionBlock {...caution} />)}
      {own.length === cautions.length ? '' : <p><a href={at(groups[0]?.href ?? '')}>All {cautions.length} cautions</a></p>}
    </section>
  )
}

function Groups({ groups }: { groups: readonly GroupLink[] }): JSX.Element {
  const here = groups.findIndex(({ isHere }) => isHere)
  return (
    <details class="block sheet-parts">
      <summary>Part {here + 1} of {groups.length} of the sheet</summary>
      <ol>
        {groups.map(({ name, href, done, count, isHere }) => (
          <li><Mark name={done === count ? 'done' : done > 0 ? 'half' : 'empty'} byHand={done === count} /><a href={at(href)} aria-current={isHere ? 'step' : false} safe>{name}</a>{' '}<span class="quiet">{done} of {count}</span></li>
        ))}
      </ol>
    </details>
  )
}
