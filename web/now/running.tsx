import type { Working } from '../../server/calc/amounts.ts'
import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { Mark } from '../shared/marks.tsx'
import { HourBar } from '../shared/operationBar.tsx'
import { escapeHtml } from '../shared/text.ts'
import { Post } from '../shared/post.tsx'
import type { PostProps } from '../shared/post.tsx'

/** What the technician is on, with the ways to answer. Each answer is a small POST of its own. */
export interface RunningWork {
  /** As "B-0147 Listening van". */
  readonly build: string
  readonly item: string
  readonly itemHref: string
  /** As "Op 50, assemble and glue". */
  readonly operation: string
  readonly kind: 'work' | 'rework' | 'waiting'
  /** In the shop's zone, as "09:48". */
  readonly since: string
  /** Instants, ISO 8601, so that the clock runs right whatever the phone's clock says. */
  readonly startedAt: string
  readonly now: string
  /** Person-seconds of all on this operation, with the running time. */
  readonly logged: number
  readonly estimate: number
  /** How these two come about; left out where it cannot be told. */
  readonly workings?: { readonly logged: Working, readonly estimate: Working } | undefined
  /** As "1.2 h left of 4.0 h"; empty where it cannot be told. */
  readonly leftWords: string
  /** Whether the person on it has to say what is still to do. */
  readonly asksLeft: boolean
  readonly stop: PostProps
  readonly done: PostProps
  /** The other two kinds: from here on it counts as that. */
  /** The technician's own figure of what is left, as typed, and where it goes. */
  readonly left?: { readonly post: PostProps, readonly value: string, readonly problem?: string | undefined } | undefined
  readonly answers: readonly { readonly kind: 'work' | 'rework' | 'waiting', readonly post: PostProps }[]
}

const ANSWER = { work: 'It is work again', rework: 'It is rework', waiting: 'Waiting' } as const

export function Running({ work, csrfToken }: { work: RunningWork, csrfToken: string }): JSX.Element {
  return (
    <section class="running" aria-labelledby="running">
      <p class="label">Running since {escapeHtml(work.since)} · {escapeHtml(work.build)}</p>
      <h1 id="running"><a href={at(work.itemHref)} safe>{work.item}</a></h1>
      <p>
        <span safe>{work.operation}</span>
        {work.kind === 'work' ? '' : <strong> · <Mark name={work.kind} /> {work.kind}</strong>}
      </p>
      <Clock work={work} />
      <HourBar logged={work.logged} forecast={Math.max(work.estimate, work.logged)} />
      <Used work={work} />
      {work.leftWords === '' ? '' : <p class="used">{work.asksLeft ? <strong><Mark name="point" />{' '}{escapeHtml(work.leftWords)}</strong> : escapeHtml(work.leftWords)}</p>}
      <Post post={work.stop} csrfToken={csrfToken} class="button first stop">Stop</Post>
      <div class="answers">
        {work.answers.map(({ kind, post }) => <Post post={post} csrfToken={csrfToken}><Mark name={kind === 'work' ? 'half' : kind} /> {ANSWER[kind]}</Post>)}
        <div class="whole"><Post post={work.done} csrfToken={csrfToken}><Mark name="done" /> Operation is done</Post></div>
      </div>
    </section>
  )
}

function Used({ work: { logged, estimate, workings } }: { work: RunningWork }): JSX.Element {
  if (workings === undefined) return <p class="used" safe>{`${writeHours(logged)} of ${writeHours(estimate)} h on this operation`}</p>
  return <p class="used"><RowFigure text={writeHours(logged)} how="logged" byHand /> of <RowFigure text={`${writeHours(estimate)} h`} how="estimate" /> on this operation</p>
}

/** Drawn by the server as it stood when the page was made; the script lets it run. */
function Clock({ work: { startedAt, now } }: { work: RunningWork }): JSX.Element {
  const seconds = Math.max(0, Math.floor((Date.parse(now) - Date.parse(startedAt)) / 1000))
  const two = (number: number): string => String(number).padStart(2, '0')
  return (
    <p class="clock" role="timer" aria-label="Running time" data-started={startedAt} data-now={now}>
      {escapeHtml(`${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}`)}<small safe>{`:${two(seconds % 60)}`}</small>
    </p>
  )
}

/** What is still to do, where the person on it knows better than the estimate. */
export function Left({ left: { post, value, problem }, asks, csrfToken }: { left: NonNullable<RunningWork['left']>, asks: boolean, csrfToken: string }): JSX.Element {
  return (
    <form class="find" method="post" action={at(post.action)}>
      <input type="hidden" name="_csrf" value={csrfToken} />
      <input type="hidden" name="_key" value={post.idempotencyKey} />
      <label for="remaining">{asks ? 'Remaining? Nobody has said it yet' : 'Remaining, where it differs from the estimate'}</label>
      <div class="entry">
        <input id="remaining" name="remaining" type="text" value={value} class="count" inputmode="decimal" autocomplete="off" aria-invalid={problem !== undefined} aria-describedby={problem === undefined ? false : 'remaining-problem'} />
        <span class="unit">h</span>
      </div>
      <button class="button" type="submit">Save</button>
      {problem === undefined ? '' : <p class="problem" id="remaining-problem" role="alert"><Mark name="point" />{' '}<strong safe>{problem}</strong></p>}
    </form>
  )
}

export function Idle(): JSX.Element {
  return <section class="idle"><h1>Nothing is running</h1><p class="quiet">Start with one of the next, or find a part.</p></section>
}
