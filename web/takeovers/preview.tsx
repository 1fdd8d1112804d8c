import { at } from '../shared/asset.ts'
import { ChoiceEntry, Fields, problemOf } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { NumberedTriangle } from '../shared/marks.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { counted } from '../shared/text.ts'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'
import type { PreviewData } from './previewData.ts'
import { Group } from './previewTable.tsx'

export type * from './previewData.ts'

/** All that would be taken over, to be ticked and edited before it is written at once. */
export function PreviewPage({ viewer, data }: { viewer: Viewer, data: PreviewData }): JSX.Element {
  return (
    <Frame title={`Copy from ${data.source.name}`} place="builds" viewer={viewer}>
      <Trail steps={[data.build, { name: 'Copy from an earlier build', href: data.listHref }, { name: data.title }]} />
      <Strip>
        <TitleCell label="Preview, nothing is written yet" title={data.title} />
        <TextCell label="From" text={data.source.name} />
        <TextCell label="Into" text={data.build.name} />
      </Strip>
      <ToMend problems={data.problems} />
      <form method="post" action={at(data.previewAction)} novalidate data-keep="typed">
        <input type="hidden" name="_csrf" value={viewer.csrfToken} />
        <input type="hidden" name="_key" value={data.idempotencyKey} />
        {data.hidden.map(([name, value]) => <input type="hidden" name={name} value={value} />)}
        <Head data={data} />
        {data.groups.map((group) => <Group group={group} figuresAt={data.problems.length === 0 ? undefined : 'templates/preview'} />)}
        <section class="block">
          {data.besides === '' ? '' : <p>With them come <span safe>{data.besides}</span>.</p>}
          <p class="quiet">Never copied: hours, states, dates, serial numbers, batches, samples and approvals, bins, conditions, removals, alterations, photos, consent, who is named and who measured.</p>
          <div class="deed">
            <button class="button first" type="submit" formaction={at(data.action)}>Copy what is ticked</button>
            <a class="link" href={at(data.listHref)}>Leave without taking over</a>
          </div>
        </section>
      </form>
    </Frame>
  )
}

function ToMend({ problems }: { problems: readonly FieldProblem[] }): JSX.Element {
  if (problems.length === 0) return ''
  return (
    <section class="mend" role="alert" tabindex="-1" aria-labelledby="mend">
      <h2 id="mend"><span safe>{counted(problems.length, 'entry', 'entries')}</span> to correct. Nothing was written, nothing you typed is lost.</h2>
      <ol>{problems.map(({ message }, index) => <li><NumberedTriangle number={index + 1} /><span safe>{message}</span></li>)}</ol>
    </section>
  )
}

function Head({ data }: { data: PreviewData }): JSX.Element {
  const hasHours = data.groups.some(({ rows }) => rows.some(({ work }) => work > 0))
  if (data.into === undefined && data.zones.length === 0 && !hasHours) return ''
  return (
    <section class="block">
      <h2 class="unseen">Where to, and with which times</h2>
      {data.into === undefined ? '' : (
        <Fields>
          <ChoiceEntry name="into" label="Into the zone" value={data.into.value} options={data.into.options} none="the zone of the same name, or a new one" problem={problemOf(data.problems, 'into')} />
        </Fields>
      )}
      {data.zones.length === 0 ? '' : <details class="folded"><summary><span safe>{counted(data.zones.length, 'zone', 'zones')}</span></summary><ul class="plainlist">{data.zones.map((zone) => <li safe>{zone}</li>)}</ul></details>}
      {!hasHours ? '' : (
        <p class="takeover"><label><input type="checkbox" name="loggedAll" value="yes" checked={data.isLoggedForAll} /> Take the logged work as the estimate for all operations whose times are not edited here</label></p>
      )}
      {!hasHours ? '' : <p class="quiet">Set-up and run are scaled alike until the estimate of all pieces comes to the work logged there (rule of three; common practice, no source). Rework is not in it: the allowance for rework covers that.</p>}
    </section>
  )
}
