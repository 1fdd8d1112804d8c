import { at } from '../shared/asset.ts'
import { ChoiceEntry, Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Saved } from '../shared/saved.tsx'
import { Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import type { FieldProblem, Role, Viewer } from '../shared/viewer.ts'
import { MadeToken, TokenTable } from './tokens.tsx'
import type { TokenRow } from './tokens.tsx'

export interface MeData {
  readonly roles: readonly Role[]
  readonly longestDays: number
  readonly tokens: readonly TokenRow[]
  readonly keys: { readonly preferences: string, readonly token: string }
  readonly saved?: string
  /** A token right after it was made; its secret is null when the request was a repetition. */
  readonly made?: { readonly name: string, readonly secret: string | null }
  /** The order of a token as it was typed. */
  readonly typed?: { readonly name: string, readonly role: string, readonly days: string }
  readonly problems?: readonly FieldProblem[]
}

const UNITS = [{ value: 'metric', label: 'metric: mm, kg, N·m' }, { value: 'inch', label: 'inch: in, lb, lbf·ft' }]
const THEMES = [{ value: 'system', label: 'as the device' }, { value: 'light', label: 'light' }, { value: 'dark', label: 'dark' }]
const PASSWORD_FIELDS = ['present', 'password']

/** A person's own page. */
export function MePage({ viewer, data }: { viewer: Viewer, data: MeData }): JSX.Element {
  return (
    <Frame title="My page" place={null} viewer={viewer}>
      {data.saved === undefined ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      {data.made === undefined ? '' : <MadeToken made={data.made} />}
      <Strip>
        <TitleCell label="My page" title={viewer.name} />
        <TextCell label="Role" text={viewer.role} />
      </Strip>
      <Preferences viewer={viewer} data={data} />
      <section class="block"><h2>Calendar</h2><p><a class="link" href={at('/calendars')}>Your days in a calendar program</a> <span class="quiet">by an address that you can withdraw</span></p></section>
      <Password viewer={viewer} problems={(data.problems ?? []).filter(({ field }) => PASSWORD_FIELDS.includes(field))} />
      <Tokens viewer={viewer} data={data} />
    </Frame>
  )
}

function Preferences({ viewer, data }: { viewer: Viewer, data: MeData }): JSX.Element {
  return (
    <section>
      <Form action="/me/preferences" csrfToken={viewer.csrfToken} idempotencyKey={data.keys.preferences} submit="Save">
        <Fields legend="How your pages are written">
          <ChoiceEntry name="units" label="Units" value={viewer.units} options={UNITS} note="What a number without a unit is taken to be in." />
          <ChoiceEntry name="theme" label="Paper" value={viewer.theme} options={THEMES} note="For this browser. Print is always dark on white." />
        </Fields>
      </Form>
    </section>
  )
}

function Password({ viewer, problems }: { viewer: Viewer, problems: readonly FieldProblem[] }): JSX.Element {
  return (
    <section>
      <Form withPassword action="/me/password" csrfToken={viewer.csrfToken} idempotencyKey="" problems={problems} submit="Change the password"
        note="Your sessions elsewhere are ended. Access tokens stay: revoke them below.">
        <Fields legend="Password">
          <TextEntry name="present" label="Present password" value="" type="password" problem={problemOf(problems, 'present')} required autocomplete="current-password" />
          <TextEntry name="password" label="New password" value="" type="password" problem={problemOf(problems, 'password')} required
            autocomplete="new-password" note="8 to 64 characters. A sentence you remember is better than a short riddle." />
        </Fields>
      </Form>
    </section>
  )
}

function Tokens({ viewer, data }: { viewer: Viewer, data: MeData }): JSX.Element {
  const problems = (data.problems ?? []).filter(({ field }) => !PASSWORD_FIELDS.includes(field))
  const typed = data.typed ?? { name: '', role: data.roles.includes('technician') ? 'technician' : viewer.role, days: '90' }
  return (
    <section>
      <div class="block">
        <h2>Access tokens</h2>
        <p>For programs that read or write under /api in your name. Each does at most what its role may.</p>
        {data.tokens.length === 0 ? <p class="quiet">None yet.</p> : <TokenTable viewer={viewer} tokens={data.tokens} />}
      </div>
      <Form action="/me/tokens" csrfToken={viewer.csrfToken} idempotencyKey={data.keys.token} problems={problems} submit="Make a token">
        <Fields legend="A new token">
          <TextEntry name="name" label="Name" value={typed.name} problem={problemOf(problems, 'name')} required note="What it is for: scale in the wood room." />
          <ChoiceEntry name="role" label="Role" value={typed.role} options={data.roles.map((role) => ({ value: role, label: role }))}
            problem={problemOf(problems, 'role')} required />
          <TextEntry name="days" label="Valid for days" value={typed.days} problem={problemOf(problems, 'days')} required isNumber
            note={`1 to ${data.longestDays}.`} />
        </Fields>
      </Form>
    </section>
  )
}
