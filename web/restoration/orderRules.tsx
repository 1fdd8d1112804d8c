import type { Children } from '@kitajs/html'
import { at } from '../shared/asset.ts'
import { Field, tie } from '../shared/field.tsx'
import type { EntryProps } from '../shared/field.tsx'
import { ChoiceEntry, Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import { Mark } from '../shared/marks.tsx'
import type { PostProps } from '../shared/post.tsx'
import { escapeProse } from '../shared/text.ts'
import type { FieldProblem } from '../shared/viewer.ts'

export interface RuleRow {
  readonly id: string
  /** As "F-021 Grille comes out before F-022 Door panel". */
  readonly text: string
  /** As "F-021 before F-022", for what is said of a button. */
  readonly inShort: string
  readonly note: string
  /** As "only loosened"; empty where a rule cannot be turned. */
  readonly turnsTo: string
}

export interface RestingRule extends Pick<RuleRow, 'id' | 'text' | 'inShort'> {
  readonly why: string
}

interface RuleForm {
  readonly action: string
  readonly idempotencyKey: string
  readonly back: readonly (readonly [name: string, value: string])[]
  readonly values: Readonly<Record<'graph' | 'kind' | 'beforeId' | 'afterId' | 'way', string>>
  readonly things: readonly { readonly zone: string, readonly things: readonly { readonly number: string, readonly name: string }[] }[]
  readonly problems: readonly FieldProblem[]
}

export interface OrderRulesData {
  readonly groups: readonly { readonly heading: string, readonly rules: readonly RuleRow[] }[]
  /** How many there are where they are shown zone by zone only. */
  readonly tooMany: number
  /** Rules that have no effect for now, each with why. */
  readonly resting: readonly RestingRule[]
  /** Where the presses beside the rules lead; left out for those who may not. */
  readonly presses?: PostProps | undefined
  /** Left out for those who may not, and where nothing is listed. */
  readonly form?: RuleForm | undefined
}

/** The rules behind both orders in words: read, added, taken away. */
export function OrderRules({ data, csrfToken }: { data: OrderRulesData, csrfToken: string }): JSX.Element {
  const { groups, tooMany, resting, presses, form } = data
  return (
    <section class="block rules" id="rules">
      <h2>The rules in words</h2>
      {tooMany > 0 ? <p>{tooMany} rules: choose a zone to read and change them.</p> : ''}
      {tooMany === 0 && groups.length === 0 ? <p>No rule yet. The first one, for example: speaker grille comes out before door panel.</p> : ''}
      {groups.length + resting.length === 0 ? '' : (
        <Presses presses={presses} csrfToken={csrfToken}>
          {groups.map(({ heading, rules }) => (
            <>
              <h3 class="heading" safe>{heading}</h3>
              <ul class="plainlist">{rules.map((rule) => <Rule rule={rule} mayChange={presses !== undefined} />)}</ul>
            </>
          ))}
          {resting.length === 0 ? '' : <Resting resting={resting} mayChange={presses !== undefined} />}
        </Presses>
      )}
      {form === undefined ? '' : <RuleEntry form={form} csrfToken={csrfToken} />}
    </section>
  )
}

/** One form for all presses: sixty of their own would weigh more than all else on the page. */
function Presses({ presses, csrfToken, children }: { presses: PostProps | undefined, csrfToken: string, children: Children }): JSX.Element {
  if (presses === undefined) return <>{children}</>
  return (
    <form method="post" action={at(presses.action)}>
      <input type="hidden" name="_csrf" value={csrfToken} />
      <input type="hidden" name="_key" value={presses.idempotencyKey} />
      {(presses.values ?? []).map(([name, value]) => <input type="hidden" name={name} value={value} />)}
      {children}
    </form>
  )
}

function Rule({ rule: { id, text, inShort, note, turnsTo }, mayChange }: { rule: RuleRow, mayChange: boolean }): JSX.Element {
  const safeText = escapeProse(text)
  return (
    <li>
      <div>{safeText}{note === '' ? '' : <span class="sub" safe>{note}</span>}</div>
      {mayChange ? (
        <div class="row on-screen">
          {turnsTo === '' ? '' : <button class="press" name="turn" value={id} aria-label={`${turnsTo}: ${inShort}`} safe>{turnsTo}</button>}
          <a href={at(`/order-edges/${id}/form`)} aria-label={`way, note: ${inShort}`}>way, note</a>
          <Remove id={id} inShort={inShort} />
        </div>
      ) : ''}
    </li>
  )
}

function Remove({ id, inShort }: Pick<RuleRow, 'id' | 'inShort'>): JSX.Element {
  return <button class="press" name="remove" value={id} aria-label={`Remove: ${inShort}`}>Remove</button>
}

function Resting({ resting, mayChange }: { resting: readonly RestingRule[], mayChange: boolean }): JSX.Element {
  return (
    <>
      <h3 class="heading">Rules that rest</h3>
      <ul class="plainlist">
        {resting.map(({ id, text, inShort, why }) => {
          const [safeText, safeWhy] = [escapeProse(text), escapeProse(why)]
          return (
            <li>
              <div><Mark name="waiting" /> {safeText}<span class="sub">{safeWhy}</span></div>
              {mayChange ? <div class="row on-screen"><Remove id={id} inShort={inShort} /></div> : ''}
            </li>
          )
        })}
      </ul>
    </>
  )
}

const GRAPHS = [
  { value: 'as found', label: 'as found: the unaltered vehicle' }, { value: 'as built', label: 'as built: with what is installed' }, { value: 'going back', label: 'going back: refitted before' },
]
const KINDS = [{ value: 'out', label: 'comes out before' }, { value: 'loosened', label: 'is loosened before' }]

function RuleEntry({ form: { action, idempotencyKey, back, values, things, problems }, csrfToken }: { form: RuleForm, csrfToken: string }): JSX.Element {
  return (
    <div class="on-screen">
      <h3 class="heading">Add a rule</h3>
      <Form action={action} csrfToken={csrfToken} idempotencyKey={idempotencyKey} problems={problems} submit="Add this rule">
        {back.map(([name, value]) => <input type="hidden" name={name} value={value} />)}
        <Fields>
          <ThingEntry entry={{ name: 'beforeId', label: 'This', required: true, problem: problemOf(problems, 'beforeId') }} value={values.beforeId} things={things} />
          <ChoiceEntry name="kind" label="has to be" value={values.kind} options={KINDS} problem={problemOf(problems, 'kind')} />
          <ThingEntry entry={{ name: 'afterId', label: 'this', required: true, problem: problemOf(problems, 'afterId') }} value={values.afterId} things={things} />
          <ChoiceEntry name="graph" label="In the vehicle" value={values.graph} options={GRAPHS} problem={problemOf(problems, 'graph')} />
          <TextEntry name="way" label="Only by this way in" value={values.way} problem={problemOf(problems, 'way')} note="Left empty it always holds. Name a way, as “from the bed”, where there are several: they are compared by hours." />
        </Fields>
      </Form>
    </div>
  )
}

/** A choice among all things of the build, zone by zone; the words of an option are its value. */
function ThingEntry({ entry, value, things }: { entry: EntryProps, value: string, things: RuleForm['things'] }): JSX.Element {
  const number = value.split(' ')[0]
  return (
    <Field entry={entry}>
      <div class="entry">
        <select {...tie(entry)}>
          <option value="">choose</option>
          {things.map((group) => (
            <optgroup label={group.zone}>
              {group.things.map((thing) => <option selected={thing.number === number} safe>{`${thing.number} ${thing.name}`}</option>)}
            </optgroup>
          ))}
        </select>
      </div>
    </Field>
  )
}
