import { Fields, Form, problemOf, QuantityEntry, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TitleCell } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface SettleData {
  /** What was running: "P-510 Record bin". */
  readonly item: string
  readonly operation: string
  readonly kind: 'work' | 'rework' | 'waiting'
  /** As "Tue 12 Jan 2027 08:20". */
  readonly since: string
  readonly action: string
  readonly key: string
  readonly hidden: readonly (readonly [name: string, value: string])[]
  /** Left out where the timer can be believed. */
  readonly time?: string | undefined
  /** Left out for work, which explains itself. */
  readonly why?: string | undefined
  readonly problems: readonly FieldProblem[]
}

const OFTEN: Readonly<Record<SettleData['kind'], readonly string[]>> = {
  work: [],
  rework: ['Did not fit', 'Finish had a fault', 'Drawing was wrong', 'Changed by the customer'],
  waiting: ['Glue, paint or resin has to cure', 'Part or material is missing', 'Waiting for an answer', 'Bay or machine is taken'],
}

/** Between a press on Stop and the entry: the one thing that only the person knows. */
export function SettlePage({ viewer, data }: { viewer: Viewer, data: SettleData }): JSX.Element {
  return (
    <Frame title="Before it is logged" place="now" viewer={viewer} kind="narrow">
      <Strip><TitleCell label={`${data.kind} since ${data.since}`} title={data.item} /></Strip>
      <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={data.problems} submit="Log it" cancelHref="/now" alone
        note="The timer counts to the moment when you pressed. It runs on until this is sent.">
        {data.hidden.map(([name, value]) => <input type="hidden" name={name} value={value} />)}
        <Fields>
          <p class="field" safe>{data.operation}</p>
          {data.time === undefined ? '' : (
            <QuantityEntry name="time" label="Hours really worked" value={data.time} unit="h" problem={problemOf(data.problems, 'time')} note="0 logs nothing." />
          )}
          {data.why === undefined ? '' : <TextEntry name="why" label="Why" value={data.why} problem={problemOf(data.problems, 'why')} />}
        </Fields>
        {data.why === undefined || data.time !== undefined ? '' : <Often kind={data.kind} />}
      </Form>
    </Frame>
  )
}

/** What is said most, for one press with a glove. */
function Often({ kind }: { kind: SettleData['kind'] }): JSX.Element {
  return (
    <div class="fields" role="group" aria-label="Or one of these">
      <div class="answers">{OFTEN[kind].map((words) => <button class="button" type="submit" name="whyChosen" value={words} safe>{words}</button>)}</div>
    </div>
  )
}
