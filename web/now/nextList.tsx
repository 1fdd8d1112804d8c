import type { Working } from '../../server/calc/amounts.ts'
import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { Mark } from '../shared/marks.tsx'
import { escapeHtml } from '../shared/text.ts'
import { Post } from '../shared/post.tsx'
import type { PostProps } from '../shared/post.tsx'

export interface NextWork {
  readonly item: string
  readonly itemHref: string
  /** As "Op 60, sand". */
  readonly operation: string
  readonly build: string
  /** When the plan has it, and for whom; empty where it is in none. */
  readonly planned: string
  /** Person-hours still to go, and how they come about; null where they cannot be told. */
  readonly remaining: Working | null
  /** What the remaining time opens by. */
  readonly key: string
  /** What it waits for, or empty when it can be taken now. */
  readonly waitsFor: string
  /** Left out where it cannot be started. */
  readonly start?: PostProps | undefined
  /** Why it cannot be started, and the page on which that is put right. */
  readonly heldBy?: { readonly words: string, readonly href: string, readonly name: string } | undefined
}

/** What this person can take next, by skill and order. */
export function NextList({ next, isRunning, csrfToken }: { next: readonly NextWork[], isRunning: boolean, csrfToken: string }): JSX.Element {
  return (
    <section aria-labelledby="next">
      <h2 id="next">Next for you</h2>
      {next.length === 0 ? <p class="logbook quiet">Nothing that your skills can take now. Find a part below, or ask the manager.</p> : (
        <ul class="next">{next.map((work) => <Item work={work} verb={isRunning ? 'Switch' : 'Start'} csrfToken={csrfToken} />)}</ul>
      )}
    </section>
  )
}

function Remaining({ work: { remaining, key } }: { work: NextWork }): JSX.Element {
  if (remaining === null) return ''
  return <><RowFigure text={`${writeHours(remaining.result.value)} h`} how={key} /> · </>
}

function Item({ work, verb, csrfToken }: { work: NextWork, verb: 'Switch' | 'Start', csrfToken: string }): JSX.Element {
  return (
    <li>
      <div class="what">
        <a href={at(work.itemHref)}><strong safe>{work.item}</strong></a>
        <p><span safe>{work.operation}</span> <span class="quiet"><Remaining work={work} />{escapeHtml(work.build)}</span></p>
        {work.planned === '' ? '' : <p class="quiet" safe>{work.planned}</p>}
        {work.waitsFor === '' ? '' : <p class="quiet" safe>{work.waitsFor}</p>}
        {work.heldBy === undefined ? '' : <p><Mark name="point" /> <strong safe>{work.heldBy.words}</strong> <a href={at(work.heldBy.href)} safe>{`Open ${work.heldBy.name}`}</a></p>}
      </div>
      {work.start === undefined ? '' : <Post post={work.start} csrfToken={csrfToken} label={`${verb} to ${work.item}, ${work.operation}`}>{verb}</Post>}
    </li>
  )
}
