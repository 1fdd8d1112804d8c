import { at } from './asset.ts'
import { Frame } from './frame.tsx'
import { NumberCell, Strip, TitleCell } from './strip.tsx'
import type { Viewer } from './viewer.ts'

export interface ProblemData {
  readonly status: number
  readonly title: string
  /** What happened, and whether anything was written. */
  readonly what: string
  /** What to do now. */
  readonly remedy: string
  readonly requestId: string
  /** Where it can be put right, if that is another page. */
  readonly help?: { readonly href: string, readonly name: string } | undefined
}

/** When a page cannot be shown: what happened, what to do, and the number to find it in the log. */
export function ProblemPage({ viewer, data }: { viewer: Viewer | null, data: ProblemData }): JSX.Element {
  return (
    <Frame title={data.title} place={null} viewer={viewer} kind="narrow">
      <Strip>
        <NumberCell label="Answer" number={String(data.status)} />
        <TitleCell label="Not done" title={data.title} />
      </Strip>
      <section class="block" data-problem>
        <p class="lead" safe>{data.what}</p>
        <p safe>{data.remedy}</p>
        {data.help === undefined ? '' : <p><a class="button" href={at(data.help.href)} safe>{data.help.name}</a></p>}
      </section>
      <section class="block">
        <p class="quiet">Request <span class="no" safe>{data.requestId}</span>: the line in the server’s log with this number says more.</p>
        <p><a href={at('/')}>Back to the start</a></p>
      </section>
    </Frame>
  )
}
