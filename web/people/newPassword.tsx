import { at } from '../shared/asset.ts'
import { Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TitleCell } from '../shared/strip.tsx'
import type { FieldProblem } from '../shared/viewer.ts'

export interface NewPasswordData {
  readonly signInName: string
  readonly code: string
  readonly problems: readonly FieldProblem[]
}

/** Somebody with a one-time code: the password is theirs alone from here on. */
export function NewPasswordPage({ data: { signInName, code, problems } }: { data: NewPasswordData }): JSX.Element {
  return (
    <Frame title="Set your password" place={null} viewer={null} kind="narrow">
      <Strip><TitleCell label="One-time code" title="Set your password" /></Strip>
      <Form withPassword action="/new-password" csrfToken="" idempotencyKey="" problems={problems} submit="Set it and sign in" alone>
        <Fields>
          <TextEntry name="signInName" label="Sign-in name" value={signInName} problem={problemOf(problems, 'signInName')} required autocomplete="username" />
          <TextEntry name="code" label="One-time code" value={code} problem={problemOf(problems, 'code')} required
            autocomplete="one-time-code" note="From an owner or manager. It works once, within a day." />
          <TextEntry name="password" label="New password" value="" type="password" problem={problemOf(problems, 'password')} required
            autocomplete="new-password" note="8 to 64 characters. A sentence you remember is better than a short riddle." />
        </Fields>
      </Form>
      <section class="block"><p><a href={at('/sign-in')}>Back to sign in</a></p></section>
    </Frame>
  )
}
