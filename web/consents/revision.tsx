import { at } from '../shared/asset.ts'
import { Fields, Form, LongEntry, problemOf } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Saved } from '../shared/saved.tsx'
import { Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'
import { FrozenPaper } from './frozenPaper.tsx'
import type { FrozenPaperData } from './paperData.ts'

export interface RevisionPageData {
  readonly trail: readonly TrailStep[]
  readonly saved: string | null
  readonly paper: FrozenPaperData
  readonly links: readonly { readonly name: string, readonly href: string }[]
  readonly withdrawal: { readonly action: string, readonly key: string, readonly why: string, readonly problems: readonly FieldProblem[] } | null
}

/** A frozen paper inside the shop: sent by link, consented to at the counter, withdrawn. */
export function RevisionPage({ viewer, data }: { viewer: Viewer, data: RevisionPageData }): JSX.Element {
  const { paper, withdrawal } = data
  return (
    <Frame title={`${paper.number} ${paper.title}`} place="builds" viewer={viewer}>
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      <Trail steps={data.trail} />
      <section class="block"><p class="row">{data.links.map(({ name, href }) => <a class="button" href={at(href)} safe>{name}</a>)}</p></section>
      <FrozenPaper data={paper} title={paper.title} />
      {withdrawal === null ? '' : (
        <section class="block" aria-labelledby="withdraw">
          <h2 id="withdraw">Withdraw it</h2>
          <Form action={withdrawal.action} csrfToken={viewer.csrfToken} idempotencyKey={withdrawal.key} problems={withdrawal.problems} submit={`Withdraw ${paper.number}`} alone>
            <Fields><LongEntry name="why" label="Why" value={withdrawal.why} note="Whoever opens the link reads it." problem={problemOf(withdrawal.problems, 'why')} required /></Fields>
          </Form>
        </section>
      )}
    </Frame>
  )
}
