import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { NumberCell, Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import type { Viewer } from '../shared/viewer.ts'

export interface IssuedCodeData {
  readonly personHref: string
  readonly name: string
  readonly signInName: string
  /** As "none yet" or "set, a code is out". */
  readonly state: string
  readonly key: string
  readonly mayGive: boolean
  /** Right after it was made, and never again. */
  readonly issued: { readonly code: string, readonly until: string } | null
}

/** A one-time code for one person: what it does, and once made, the code to hand over. */
export function IssuedCodePage({ viewer, data }: { viewer: Viewer, data: IssuedCodeData }): JSX.Element {
  return (
    <Frame title={`One-time code for ${data.name}`} place="people" viewer={viewer} kind="narrow">
      <Trail steps={[{ name: 'people', href: '/people' }, { name: data.name, href: data.personHref }, { name: 'One-time code' }]} />
      <Strip>
        {data.issued === null ? '' : <NumberCell label="One-time code" number={data.issued.code} />}
        <TitleCell label="For" title={data.name} />
        <TextCell label="Sign-in name" text={data.signInName} />
        <TextCell label="Password" text={data.state} />
      </Strip>
      {data.issued === null ? <Offer viewer={viewer} data={data} /> : <Handover until={data.issued.until} />}
    </Frame>
  )
}

function Offer({ viewer, data }: { viewer: Viewer, data: IssuedCodeData }): JSX.Element {
  if (!data.mayGive) return <section class="block"><p>Only an owner gives a code to an owner.</p></section>
  return (
    <section class="block">
      <p>With a code and their sign-in name, people set a password of their own. It works once, within a day, and takes the
        place of an earlier code. A password that is set stays until then.</p>
      <div class="deed">
        <form method="post" action={at(`${data.personHref}/codes`)}>
          <input type="hidden" name="_csrf" value={viewer.csrfToken} />
          <input type="hidden" name="_key" value={data.key} />
          <button class="button first" type="submit">Give a code</button>
        </form>
      </div>
    </section>
  )
}

function Handover({ until }: { until: string }): JSX.Element {
  return (
    <section class="block" role="status">
      <p>The code is shown this once. Hand it over in person; it works until <span safe>{until}</span>.</p>
      <p>They enter it on the sign-in page, under <a href={at('/new-password')}>Set your password</a>.</p>
    </section>
  )
}
