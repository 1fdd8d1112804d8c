import { asset, at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { ChecksEntry, Fields, Form, LongEntry, problemOf, QuantityEntry, TextEntry } from '../shared/form.tsx'
import { Saved } from '../shared/saved.tsx'
import { Signature } from '../shared/signature.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import type { Viewer } from '../shared/viewer.ts'
import type { CounterForm, IntakeData } from './intakeData.ts'
import { Codes, Facts, Marks } from './parts.tsx'
import { Signing } from './signing.tsx'
import { Walk } from './walk.tsx'

/** How the vehicle came: at the counter, once around it, what was read, and the customer's signature. */
export function IntakePage({ viewer, data }: { viewer: Viewer, data: IntakeData }): JSX.Element {
  return (
    <Frame title={`Intake of ${data.number} ${data.title}`} place="builds" viewer={viewer}>
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Intake of" number={data.number} />
        <TitleCell label="Title" title={data.title} />
        <TextCell label="Vehicle" text={data.vehicle} />
        <Turn />
        <TextCell label="Walk-around" text={data.walked} />
        <TextCell label="Signed" text={data.signed === null ? 'not yet' : `${data.signed.name}, ${data.signed.when}`} />
        <Cell label="Also" width="w3"><div class="row">{data.links.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}</div></Cell>
      </Strip>
      {data.counter === null ? <section class="block"><h2>At the counter</h2><Facts facts={data.facts} /></section> : <Counter viewer={viewer} form={data.counter} />}
      <Walk viewer={viewer} data={data} />
      <section class="block">
        <h2>Damage that was there before</h2>
        <Marks marks={data.marks} withPhotos />
        <p><a class="button" href={at(data.markHref)}>Add a mark from a list</a></p>
      </section>
      <section class="block">
        <h2>Fault codes</h2>
        <Codes codes={data.codes} />
        <p><a class="button" href={at(data.codeHref)}>Add a fault code</a></p>
      </section>
      {data.signed === null ? '' : <section class="block"><h2>Signature</h2><Signature signed={data.signed} /></section>}
      {data.sign === null ? '' : <Signing viewer={viewer} sign={data.sign} />}
      <script src={asset('intake.js')} defer></script>
    </Frame>
  )
}

function Counter({ viewer, form }: { viewer: Viewer, form: CounterForm }): JSX.Element {
  const { values, problems } = form
  const entry = (name: string, label: string, note?: string) => ({ name, label, note, problem: problemOf(problems, name) })
  return (
    <section class="block">
      <h2>At the counter</h2>
      <Form action={form.action} csrfToken={viewer.csrfToken} idempotencyKey={form.key} version={form.version} problems={problems} submit="Save intake">
        <input type="hidden" name="vehicleVersion" value={String(form.vehicleVersion)} />
        <Fields>
          <QuantityEntry {...entry('odometer', 'Odometer')} value={values.odometer} unit={form.distanceUnit} />
          <TextEntry {...entry('energyLevel', 'Fuel or charge', 'As the instrument shows it: 3/4, or 60 %.')} value={values.energyLevel} />
          <ChecksEntry {...entry('warningLights', 'Warning lights lit', 'With the engine running or the vehicle ready. Tick “none” when all go out; nothing ticked means that nobody has looked.')}
            values={form.warningLights} options={form.lights.map((light) => ({ value: light, label: light }))} />
          <TextEntry {...entry('keys', 'Keys handed over', 'How many. Where they hang is kept apart.')} value={values.keys} isNumber />
          <LongEntry {...entry('leftInside', 'Belongings left inside')} value={values.leftInside} />
          <LongEntry {...entry('factoryOptions', 'Factory options that matter', 'Kept with the vehicle: factory amplifier, noise cancelling, driver-assist sensors behind trim, airbags in pillars and seats.')} value={values.factoryOptions} />
          <LongEntry {...entry('note', 'Note')} value={values.note} />
        </Fields>
      </Form>
    </section>
  )
}
