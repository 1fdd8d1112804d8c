import { at } from '../shared/asset.ts'
import { CheckEntry, ChoiceEntry, Fields, Form, LongEntry, problemOf, QuantityEntry, TextEntry } from '../shared/form.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import type { CurrentPart, MoreForm, MoreForms, TeardownData } from './teardownData.ts'

const entryOf = ({ problems }: MoreForm) => (name: string, label: string, note?: string) => ({ name, label, note, problem: problemOf(problems, name) })
const same = (values: readonly string[]) => values.map((value) => ({ value, label: value }))

/** What can follow about the part at hand, and what nobody listed yet. */
export function More({ data: { more, part }, viewer }: { data: TeardownData, viewer: Viewer }): JSX.Element {
  if (more === null) return ''
  return (
    <section id="more" class="more" data-of={part?.id ?? ''} aria-labelledby="more-head">
      <h2 id="more-head">{part === null ? 'Not listed yet' : <>More about <span class="no" safe>{part.number}</span>, now or later</>}</h2>
      {part === null ? '' : <Fasteners part={part} more={more} viewer={viewer} />}
      {part === null ? '' : <Notes part={part} form={more.notes} viewer={viewer} />}
      <NewPart more={more} viewer={viewer} />
      {more.things.length < 2 ? '' : <NewEdge part={part} more={more} viewer={viewer} />}
    </section>
  )
}

const isOpen = ({ problems }: MoreForm): boolean => problems.length > 0

interface Props { readonly more: MoreForms, readonly viewer: Viewer }

function Fasteners({ part, more, viewer }: Props & { part: CurrentPart }): JSX.Element {
  const form = more.fastener
  const { values } = form
  const entry = entryOf(form)
  return (
    <details class="folded" open={isOpen(form)} id="fasteners">
      <summary>Fasteners{part.fasteners.length > 0 ? `, ${part.fasteners.length}` : ''}</summary>
      <ul class="logbook plainlist fasteners">
        {part.fasteners.map(({ text, torque, href }) => <li class="as-written"><a href={at(href)} safe>{text}</a> <span class="quiet" safe>{torque}</span></li>)}
      </ul>
      <Form action={form.action} csrfToken={viewer.csrfToken} idempotencyKey={form.key} problems={form.problems} submit="Add fasteners" alone>
        <input type="hidden" name="factoryPartId" value={part.id} />
        <Fields>
          <TextEntry {...entry('count', 'How many')} value={values.count ?? ''} isNumber />
          <ChoiceEntry {...entry('kind', 'Kind')} value={values.kind ?? ''} options={same(more.kinds)} />
          <TextEntry {...entry('size', 'Size', 'M6 × 20.')} value={values.size ?? ''} />
          <ChoiceEntry {...entry('drive', 'Drive')} value={values.drive ?? ''} options={same(more.drives)} none="not noted" />
          <QuantityEntry {...entry('torque', 'Torque', 'Left empty, every sheet says “maker’s manual”.')} value={values.torque ?? ''} unit={more.torqueUnit} />
          <TextEntry {...entry('torqueSource', 'Where that torque stands', 'The maker’s manual with page. Needed with a torque.')} value={values.torqueSource ?? ''} />
          <CheckEntry {...entry('isSingleUse', 'Single-use')} value={values.isSingleUse === 'true'} says="used once, new ones on return" />
          <CheckEntry {...entry('isSafety', 'Belt, seat or airbag', 'By the maker’s manual only; never computed, never substituted.')} value={values.isSafety === 'true'} says="it holds one of these" />
        </Fields>
      </Form>
    </details>
  )
}

function Notes({ part, form, viewer }: { part: CurrentPart, form: MoreForm, viewer: Viewer }): JSX.Element {
  const entry = entryOf(form)
  return (
    <details class="folded" open={isOpen(form)} id="notes">
      <summary>Connectors, condition, note</summary>
      <Form action={form.action} csrfToken={viewer.csrfToken} idempotencyKey={form.key} problems={form.problems} submit="Save" alone>
        <input type="hidden" name="factoryPartId" value={part.id} />
        <input type="hidden" name="_version" value={form.values._version ?? ''} />
        <Fields>
          <LongEntry {...entry('connectors', 'Connectors', 'What has to be unplugged and plugged.')} value={form.values.connectors ?? ''} />
          <TextEntry {...entry('condition', 'Condition')} value={form.values.condition ?? ''} />
          <LongEntry {...entry('note', 'Note')} value={form.values.note ?? ''} />
        </Fields>
      </Form>
      <p class="line"><a href={at(part.href)}>All of {escapeHtml(part.number)}</a></p>
    </details>
  )
}

function NewPart({ more: { part: form, zones, things }, viewer }: Props): JSX.Element {
  const entry = entryOf(form)
  return (
    <details class="folded" open={isOpen(form)} id="new-part">
      <summary>A factory part nobody listed</summary>
      <Form action={form.action} csrfToken={viewer.csrfToken} idempotencyKey={form.key} problems={form.problems} submit="Add the part" alone>
        <Fields>
          <TextEntry {...entry('name', 'Name')} value={form.values.name ?? ''} required />
          <ChoiceEntry {...entry('zoneId', 'Zone')} value={form.values.zoneId ?? ''} options={zones} none="choose" required />
          <ChoiceEntry {...entry('behind', 'It stands in front of')} value={form.values.behind ?? ''} options={things} none="nothing" />
        </Fields>
      </Form>
    </details>
  )
}

function NewEdge({ part, more: { edge: form, things }, viewer }: Props & { part: CurrentPart | null }): JSX.Element {
  const entry = entryOf(form)
  return (
    <details class="folded" open={isOpen(form)} id="new-edge">
      <summary>This stands in front of that</summary>
      <Form action={form.action} csrfToken={viewer.csrfToken} idempotencyKey={form.key} problems={form.problems} submit="Add to the order" alone>
        {part === null ? '' : <input type="hidden" name="factoryPartId" value={part.id} />}
        <Fields>
          <ChoiceEntry {...entry('before', 'This one')} value={form.values.before ?? ''} options={things} none="choose" required />
          <ChoiceEntry {...entry('edgeKind', 'has to')} value={form.values.edgeKind ?? ''} options={[{ value: 'out', label: 'come out before' }, { value: 'loosened', label: 'be loosened before' }]} />
          <ChoiceEntry {...entry('after', 'That one')} value={form.values.after ?? ''} options={things} none="choose" required />
        </Fields>
      </Form>
    </details>
  )
}
