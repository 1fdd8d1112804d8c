import { at } from '../shared/asset.ts'
import { Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TitleCell } from '../shared/strip.tsx'

export interface SignInData {
  readonly shopName: string
  readonly signInName: string
  /** A page of ours to go on to. */
  readonly to: string | null
  /** One sentence for all refusals, so that it does not tell which names exist. */
  readonly refused?: string
  /** While nobody has signed in yet, the way for the first owner. */
  readonly firstOwnerHref?: string
  /** Only in the demo: names and the password that all of them share. */
  readonly demo?: { readonly password: string, readonly people: readonly { readonly signInName: string, readonly role: string }[] }
}

/** Who is there: a name and a password. */
export function SignInPage({ data }: { data: SignInData }): JSX.Element {
  const problems = data.refused === undefined ? [] : [{ field: 'signInName', message: data.refused }]
  const action = data.to === null ? '/sign-in' : `/sign-in?to=${encodeURIComponent(data.to)}`
  return (
    <Frame title="Sign in" place={null} viewer={null} kind="narrow">
      <Strip><TitleCell label={data.shopName === '' ? 'Putback' : data.shopName} title="Sign in" /></Strip>
      <Form withPassword action={action} csrfToken="" idempotencyKey="" submit="Sign in" problems={problems} alone
        note="No password? Ask an owner or manager for a one-time code.">
        <Fields>
          <TextEntry name="signInName" label="Sign-in name" value={data.signInName} problem={problemOf(problems, 'signInName')} autocomplete="username" />
          <TextEntry name="password" label="Password" value="" type="password" autocomplete="current-password" />
        </Fields>
      </Form>
      <section class="block"><p>You have a one-time code? <a href={at('/new-password')}>Set your password</a>.</p></section>
      {data.firstOwnerHref === undefined ? '' : (
        <section class="block"><p>The shop is new: <a href={at(data.firstOwnerHref)}>enter the first owner</a>.</p></section>
      )}
      {data.demo === undefined ? '' : <Demo demo={data.demo} />}
    </Frame>
  )
}

function Demo({ demo }: { demo: NonNullable<SignInData['demo']> }): JSX.Element {
  return (
    <section class="block">
      <h2>Demo shop</h2>
      <p>The password of all is <span class="no" safe>{demo.password}</span>. These sign-ins work on this machine only.</p>
      <dl class="tally">
        {demo.people.map(({ signInName, role }) => <div><dt safe>{role}</dt><dd class="no" safe>{signInName}</dd></div>)}
      </dl>
    </section>
  )
}
