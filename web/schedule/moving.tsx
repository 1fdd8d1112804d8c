import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { ChoiceEntry, DateEntry, Fields, Form, problemOf, TextEntry, type Option } from '../shared/form.tsx'
import { Mark } from '../shared/marks.tsx'
import { Post, type PostProps } from '../shared/post.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

/** One operation in the plan, and where somebody would like to have it. */
export interface MovingData {
  readonly operationId: string
  readonly version: number
  readonly name: string
  readonly build: string
  readonly planned: string
  readonly held: string
  readonly typed: { readonly date: string, readonly time: string, readonly personId: string, readonly bayId: string }
  readonly people: readonly Option[]
  readonly bays: readonly Option[]
  /** Empty where the work is done at the bench. */
  readonly isInVehicle: boolean
  readonly laterHref: string
  readonly nextDayHref: string
  readonly holdHereHref: string
  readonly letGo: PostProps | null
  /** What that would break; null before anything was asked. */
  readonly breaks: readonly string[] | null
  readonly problems: readonly FieldProblem[]
  /** Somebody else saved the operation while this was typed. */
  readonly isClash: boolean
  readonly saveKey: string
}

export function MovingPage({ viewer, data }: { viewer: Viewer, data: MovingData }): JSX.Element {
  const { operationId, typed, problems, breaks } = data
  return (
    <Frame title="Move in the plan" place="schedule" viewer={viewer}>
      <Trail steps={[{ name: 'Schedule', href: '/schedule' }, { name: 'The operation', href: `/operations/${operationId}` }, { name: 'Move in the plan' }]} />
      <Strip>
        <TitleCell label={`Move in the plan · ${data.build}`} title={data.name} isNamed />
        <TextCell label="Planned" width="w5" text={data.planned} />
        {data.held === '' ? '' : <TextCell label="Held" text={data.held} />}
      </Strip>
      {data.isClash ? <p role="alert"><Mark name="point" /> <strong>Somebody else saved this operation first, and nothing of yours was saved.</strong> How it stands now is above, what you typed is below: look at both, and press again if it is still right.</p> : ''}
      {breaks === null ? '' : (
        <section class="block" aria-labelledby="breaks">
          <h2 id="breaks">What it breaks</h2>
          {breaks.length === 0 ? <p>Nothing: all else stays where it is, and no date is missed.</p> : <ul>{breaks.map((what) => <li><Mark name="point" /> <span safe>{what}</span></li>)}</ul>}
        </section>
      )}
      <section class="block" aria-labelledby="where">
        <h2 id="where">Where to</h2>
        <div class="row">
          <a class="button" href={at(data.laterHref)}>An hour later</a>
          <a class="button" href={at(data.nextDayHref)}>Next working day</a>
          <a class="button" href={at(data.holdHereHref)}>Hold here</a>
          <a class="button" href={at(`/schedule/late?operation=${operationId}`)}>What if it is late</a>
          {data.letGo === null ? '' : <Post post={data.letGo} csrfToken={viewer.csrfToken}>Let go</Post>}
        </div>
        <Form action={`/schedule/operations/${operationId}`} csrfToken={viewer.csrfToken} idempotencyKey={data.saveKey} version={data.version} problems={problems} submit="Hold it there and propose a plan"
          also={{ action: `/schedule/operations/${operationId}/looks`, name: 'Say what it breaks' }} cancelHref="/schedule">
          <Fields>
            <DateEntry name="date" label="Day" value={typed.date} required problem={problemOf(problems, 'date')} />
            <TextEntry name="time" label="Time" value={typed.time} required isNumber note="As 8:00 or 13:30." problem={problemOf(problems, 'time')} />
            <ChoiceEntry name="personId" label="Person" value={typed.personId} options={data.people} none="whoever can, as planned" problem={problemOf(problems, 'personId')} />
            {data.isInVehicle ? <ChoiceEntry name="bayId" label="Bay" value={typed.bayId} options={data.bays} none="as planned" note="Of the vehicle, in the plan that is proposed." problem={problemOf(problems, 'bayId')} /> : ''}
          </Fields>
        </Form>
        <p class="quiet">Held work begins then, and others give way. The person is named for it from then on. The plan that comes of it is proposed; it is in force once it is taken.</p>
      </section>
    </Frame>
  )
}
