import { at } from '../shared/asset.ts'
import { FirstSteps } from '../shared/empty.tsx'
import type { Option } from '../shared/form.tsx'
import { CheckEntry, ChoiceEntry, DateEntry, Fields, Form, LongEntry, problemOf, QuantityEntry, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'
import { BODIES } from '../shared/zonePlaces.ts'

export interface CounterJobData {
  readonly action: string
  readonly key: string
  readonly problems: readonly FieldProblem[]
  /** What stands in an entry. */
  value(name: string): string
  readonly vehicles: readonly Option[]
  readonly customers: readonly Option[]
  readonly fittings: readonly Option[]
  readonly items: readonly string[]
  readonly bays: readonly Option[]
  /** More are on record than the lists offer. */
  readonly isCut: boolean
  readonly lines: readonly number[]
  /** Something is odd, and may be entered all the same. */
  readonly isAsked: boolean
  readonly currency: string
}

const BODY_OPTIONS: readonly Option[] = BODIES.map((body) => ({ value: body, label: body }))
const ENERGY_OPTIONS: readonly Option[] = ['fuel', 'hybrid', 'electric'].map((energy) => ({ value: energy, label: energy }))
const SUPPLIERS: readonly Option[] = [{ value: 'shop', label: 'the shop' }, { value: 'customer', label: 'the customer' }]

/** A counter job in one form, from whoever stands at the counter to what is fitted and when. */
export function CounterJobPage({ viewer, data }: { viewer: Viewer, data: CounterJobData }): JSX.Element {
  return (
    <Frame title="New counter job" place="builds" viewer={viewer}>
      <Trail steps={[{ name: 'builds', href: '/builds' }, { name: 'New counter job' }]} />
      <Strip>
        <TitleCell label="New" title="Counter job" />
        <TextCell label="Is it one?" width="w5" text="One to three lines, nothing made here." more="Hours come from the standard fittings." />
      </Strip>
      <section class="block">{data.fittings.length === 0 ? <NoFittings /> : <JobForm viewer={viewer} data={data} />}</section>
    </Frame>
  )
}

function NoFittings(): JSX.Element {
  return <FirstSteps steps={[{
    title: 'The first standard fitting', why: 'Counter jobs take their hours from the shop’s own list.',
    example: 'Speaker in a front door: set-up 0.5 h, run 0.75 h each.', href: '/standard-fittings/new', button: 'Add a standard fitting',
  }]} />
}

function JobForm({ viewer, data }: { viewer: Viewer, data: CounterJobData }): JSX.Element {
  return (
    <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={data.problems} submit="Enter counter job" cancelHref="/builds"
      note="Then its page opens, with the way to the timer.">
      <Whose data={data} />
      <Fields legend="What is fitted">
        {data.lines.slice(0, 1).map((line) => <Line data={data} at={line} />)}
        <details class="more-lines" open={data.lines.slice(1).some((line) => isTyped(data, line))}>
          <summary>A second and a third line</summary>
          {data.lines.slice(1).map((line) => <Line data={data} at={line} />)}
        </details>
        <p class="quiet">More than three lines, or something made here? That is a build, no counter job: enter what fits here, then change its kind and go on there. Nothing is lost.</p>
      </Fields>
      <datalist id="items">{data.items.map((item) => <option value={item}></option>)}</datalist>
      <Fields legend="When and where">
        <DateEntry {...entry(data, 'promisedOn', 'Promised')} />
        {data.bays.length === 0 ? '' : <ChoiceEntry {...entry(data, 'bayId', 'Bay')} options={data.bays} none="none yet" />}
        <LongEntry {...entry(data, 'note', 'Note')} />
      </Fields>
      {data.isAsked ? <Fields legend="It is meant so"><CheckEntry name="isMeant" label="Looked at" value={data.value('isMeant') === 'true'} says="Enter it as it is typed." /></Fields> : ''}
    </Form>
  )
}

const isTyped = ({ value, problems }: CounterJobData, line: number): boolean =>
  value(`fittingId${line}`) !== '' || value(`equipment${line}`) !== '' || problems.some(({ field }) => field.endsWith(String(line)))

const entry = (data: CounterJobData, name: string, label: string) => ({ name, label, value: data.value(name), problem: problemOf(data.problems, name) })

const needed = (isAlways: boolean, requiredWhen: string) => (isAlways ? { required: true } : { requiredWhen })

function Whose({ data }: { data: CounterJobData }): JSX.Element {
  const ofCustomer = needed(data.customers.length + data.vehicles.length === 0, 'if new')
  const ofVehicle = needed(data.vehicles.length === 0, 'if new')
  return (
    <Fields legend="Who, and which vehicle">
      {data.vehicles.length === 0 ? '' : <ChoiceEntry {...entry(data, 'vehicleId', 'Vehicle on record')} options={data.vehicles} none="none: typed below" note="Its owner comes with it, and the next six entries stay empty." />}
      {data.customers.length === 0 ? '' : <ChoiceEntry {...entry(data, 'customerId', 'Customer on record')} options={data.customers} none="none: typed below" note="For a new vehicle of theirs." />}
      {data.isCut ? <p class="quiet">The lists hold the latest ones. For an older one begin from <a class="link" href={at('/customers')}>the customer’s page</a>.</p> : ''}
      <TextEntry {...entry(data, 'customerName', 'New customer')} {...ofCustomer} autocomplete="off" />
      <TextEntry {...entry(data, 'phone', 'Phone')} type="tel" />
      <TextEntry {...entry(data, 'make', 'Make')} {...ofVehicle} />
      <TextEntry {...entry(data, 'model', 'Model')} {...ofVehicle} />
      <ChoiceEntry {...entry(data, 'body', 'Body')} {...ofVehicle} options={BODY_OPTIONS} none="choose" />
      <ChoiceEntry {...entry(data, 'energy', 'Runs on')} options={ENERGY_OPTIONS} />
    </Fields>
  )
}

function Line({ data, at: line }: { data: CounterJobData, at: number }): JSX.Element {
  return (
    <div class="job-line" role="group" aria-label={`Line ${line}`}>
      <ChoiceEntry {...entry(data, `fittingId${line}`, `Fitting ${line}`)} required={line === 1} options={data.fittings} none={line === 1 ? 'choose' : 'nothing more'} />
      <TextEntry {...entry(data, `quantity${line}`, 'How many')} isNumber />
      <TextEntry {...entry(data, `equipment${line}`, 'What')} list="items" note={line === 1 ? 'Left empty: what is usually fitted. From the catalog, or in words.' : undefined} />
      <QuantityEntry {...entry(data, `price${line}`, 'Price each')} unit={data.currency} note={line === 1 ? 'Left empty: that of the catalog.' : undefined} />
      <ChoiceEntry {...entry(data, `suppliedBy${line}`, 'Supplied by')} options={SUPPLIERS} />
    </div>
  )
}
