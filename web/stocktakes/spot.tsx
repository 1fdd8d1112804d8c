import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Saved } from '../shared/saved.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface SpotPart {
  readonly number: number
  readonly label: string
  readonly name: string
  readonly finding: 'here' | 'not found' | ''
  /** Who has seen it, or where else. */
  readonly more: string
}

export interface SpotData {
  readonly take: { readonly number: number, readonly href: string, readonly isOpen: boolean }
  readonly name: string
  readonly build: string
  readonly parts: readonly SpotPart[]
  /** Seen here though they belong elsewhere. */
  readonly also: readonly { readonly label: string, readonly name: string, readonly more: string }[]
  readonly action: string
  readonly key: string
  readonly alsoKey: string
  readonly spot: readonly (readonly [name: string, value: string])[]
  readonly typed: string
  readonly problems: readonly FieldProblem[]
  readonly saved: string | null
  readonly next: { readonly href: string, readonly name: string } | null
}

/** One bin or place in a stock-take: what should lie in it, here or not, and what lies there as well. */
export function SpotPage({ viewer, data }: { viewer: Viewer, data: SpotData }): JSX.Element {
  return (
    <Frame title={`${data.name}, stock-take ${data.take.number}`} place="builds" viewer={viewer} kind="card">
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} {...(data.next === null ? {} : { next: data.next })} />}
      <header class="idle">
        <span class="label">Stock-take {data.take.number}</span>
        <h1 safe>{data.name}</h1>
        <p class="quiet" safe>{data.build}</p>
      </header>
      {data.parts.length === 0 ? <p class="line">Nothing should lie here.</p> : <Counting viewer={viewer} data={data} />}
      <section>
        <h2>Also here</h2>
        {data.also.length === 0 ? '' : <ul class="scanned">{data.also.map(({ label, name, more }) => <li><span class="no" safe>{label}</span>{' '}<span safe>{name}</span><small safe>{more}</small></li>)}</ul>}
        {data.take.isOpen ? <Also viewer={viewer} data={data} /> : ''}
      </section>
      <nav class="line" aria-label="Further">
        {data.next === null ? '' : <a href={at(data.next.href)} safe>{data.next.name}</a>}
        <a href={at(data.take.href)}>All bins</a>
      </nav>
    </Frame>
  )
}

function Hidden({ viewer, keyed, data }: { viewer: Viewer, keyed: string, data: SpotData }): JSX.Element {
  return (
    <>
      <input type="hidden" name="_csrf" value={viewer.csrfToken} />
      <input type="hidden" name="_key" value={keyed} />
      {data.spot.map(([name, value]) => <input type="hidden" name={name} value={value} />)}
    </>
  )
}

function Counting({ viewer, data }: { viewer: Viewer, data: SpotData }): JSX.Element {
  return (
    <form class="counting" method="post" action={at(data.action)} data-keep="typed">
      <Hidden viewer={viewer} keyed={data.key} data={data} />
      {data.parts.map(({ number, label, name, finding, more }) => (
        <fieldset>
          <legend><span class="no" safe>{label}</span>{' '}<span safe>{name}</span>{more === '' ? '' : <small safe>{more}</small>}</legend>
          <div class="ways">
            <label><input type="radio" name={`p${number}`} value="here" checked={finding === 'here'} /><span>here</span></label>
            <label><input type="radio" name={`p${number}`} value="not here" checked={finding === 'not found'} /><span>not here</span></label>
          </div>
        </fieldset>
      ))}
      {data.take.isOpen ? (
        <div class="scan-next">
          <button class="button first" type="submit">Save what is chosen</button>
          <button class="button" type="submit" name="all" value="here">All {data.parts.length} are here</button>
        </div>
      ) : ''}
    </form>
  )
}

function Also({ viewer, data }: { viewer: Viewer, data: SpotData }): JSX.Element {
  const [problem] = data.problems
  return (
    <form class="find" method="post" action={at(data.action)}>
      <Hidden viewer={viewer} keyed={data.alsoKey} data={data} />
      <label class="unseen" for="also">Number of a factory part that lies here too</label>
      <div class="entry"><input id="also" name="also" type="text" value={data.typed} placeholder="F-053, or B-0058 F-021" autocomplete="off" aria-invalid={problem === undefined ? false : 'true'} aria-describedby={problem === undefined ? false : 'also-wrong'} /></div>
      <button class="button" type="submit">Also here</button>
      {problem === undefined ? '' : <p class="wrong" id="also-wrong" role="alert" safe>{problem.message}</p>}
    </form>
  )
}
