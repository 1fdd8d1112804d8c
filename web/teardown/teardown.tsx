import { asset, at } from '../shared/asset.ts'
import { CautionBlock } from '../shared/caution.tsx'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Post } from '../shared/post.tsx'
import { escapeProse } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import { AnswerForm } from './answer.tsx'
import { More } from './more.tsx'
import { OrderRows, Rest } from './orderRows.tsx'
import type { CurrentPart, TeardownCaution, TeardownData } from './teardownData.ts'

/** One hand wide: the next part, what can hurt, a photo, a bin. All else can follow. */
export function TeardownPage({ viewer, data }: { viewer: Viewer, data: TeardownData }): JSX.Element {
  const page = `/builds/${data.buildId}/teardown`
  return (
    <Frame title={`Teardown of ${data.build}`} place="builds" viewer={viewer} kind="card">
      <div class="line"><a href={at(`/builds/${data.buildId}`)} safe>{data.build}</a><span class="quiet network" data-network role="status"></span></div>
      {data.said === '' ? '' : <p class="line" role="status"><Mark name="done" byHand />&nbsp;<span safe>{`Saved: ${data.said}`}</span></p>}
      <Head data={data} />
      <Open points={data.open} />
      <CautionList cautions={data.cautions} />
      {data.part === null ? '' : <Front part={data.part} />}
      {data.part === null ? '' : <AnswerForm data={data} part={data.part} viewer={viewer} />}
      <Last data={data} csrfToken={viewer.csrfToken} />
      <section class="waiting-to-go" aria-labelledby="queue-head" data-queue-box hidden data-person={viewer.personId} data-token={viewer.csrfToken}
        data-api={at(`/api${page}`)} data-photos={at('/api/photos')} data-pictures={at('/photos')}>
        <h2 id="queue-head">On this phone, not sent yet</h2>
        <ul class="queue" data-queue></ul>
        <p class="quiet" data-kept></p>
        <p><button class="button" type="button" data-try-now>Try now</button></p>
      </section>
      <More data={data} viewer={viewer} />
      <Rest rows={data.rest} />
      <OrderRows data={data} />
      <nav class="line" aria-label="Pages">
        <a href={at('/now')}>Now</a>
        <a href={at(`/builds/${data.buildId}/removal`)}>Order of removal</a>
        <a href={at(`/builds/${data.buildId}/photos`)}>Photos</a>
      </nav>
      <script type="module" src={asset('teardown.js')}></script>
    </Frame>
  )
}

function Head({ data: { part, isNext, settled, total } }: { data: TeardownData }): JSX.Element {
  if (part === null) {
    return (
      <section class="idle">
        <p class="label" safe>{`${settled} of ${total}`}</p>
        <h1>{total === 0 ? 'No factory parts are listed yet' : 'All of it is out, loose or stays'}</h1>
        <p class="quiet">{total === 0 ? 'Add the first one below: what comes out, comes loose or is changed.' : 'What was not listed can still be added below.'}</p>
      </section>
    )
  }
  const safeHow = escapeProse(part.how)
  return (
    <section class="idle">
      <p class="label" data-place safe>{`${isNext ? 'Next to come out' : 'Chosen'}, ${settled} of ${total} done`}</p>
      <h1><span class="no" data-number safe>{part.number}</span>{' '}<span data-name safe>{part.name}</span></h1>
      <p data-how>{safeHow}</p>
      <p class="quiet" data-standing safe>{part.standing}</p>
    </section>
  )
}

/** What cannot be ordered, or speaks against itself. */
function Open({ points }: { points: readonly string[] }): JSX.Element {
  if (points.length === 0) return ''
  return (
    <section aria-labelledby="open">
      <h2 id="open">Not settled</h2>
      <ul class="logbook plainlist">
        {points.map((point) => {
          const safePoint = escapeProse(point)
          return <li class="as-written"><Mark name="point" />{' '}{safePoint}</li>
        })}
      </ul>
    </section>
  )
}

/** All that can apply lie in the page; those of the part at hand are shown. */
function CautionList({ cautions }: { cautions: readonly TeardownCaution[] }): JSX.Element {
  if (cautions.length === 0) return ''
  return (
    <section class="cautions" aria-labelledby="cautions">
      <h2 class="unseen" id="cautions">Cautions</h2>
      {cautions.map(({ trigger, isShown, ...caution }) => <div data-trigger={trigger} hidden={!isShown}><CautionBlock {...caution} /></div>)}
    </section>
  )
}

function Front({ part: { front } }: { part: CurrentPart }): JSX.Element {
  return (
    <section aria-labelledby="front-head" id="front">
      <h2 id="front-head">What stands in front</h2>
      <ol class="in-front">
        {front.map(({ number, name, words, mark, isCurrent }) => (
          <li aria-current={isCurrent ? 'step' : false}>
            <Mark name={mark} byHand={mark === 'done' || mark === 'loosened'} /><span class="no" safe>{number}</span><span safe>{name}</span><span class="quiet" safe>{words}</span>
          </li>
        ))}
      </ol>
    </section>
  )
}

function Last({ data: { last }, csrfToken }: { data: TeardownData, csrfToken: string }): JSX.Element {
  return (
    <section class="last" id="last" aria-label="Last record">
      {last === null ? '' : <><span><Mark name="done" byHand />{' '}<span safe>{last.words}</span></span><Post post={last.undo} csrfToken={csrfToken} label={`Undo: ${last.words}`}>Undo</Post></>}
    </section>
  )
}
