import { asset, at } from '../shared/asset.ts'
import { Explained } from '../shared/figure.tsx'
import { ChoiceEntry, Fields, Form, LongEntry, problemOf, QuantityEntry, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Saved } from '../shared/saved.tsx'
import { Signature, SignatureEntry } from '../shared/signature.tsx'
import { NumberCell, Strip, TextCell, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'
import type { DeliveryData, DeliveryForm } from './deliveryData.ts'

/** What the customer is told and takes home, and who received the vehicle. */
export function DeliveryPage({ viewer, data }: { viewer: Viewer, data: DeliveryData }): JSX.Element {
  return (
    <Frame title={`Delivery of ${data.number} ${data.title}`} place="builds" viewer={viewer}>
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Delivery of" number={data.number} />
        <TitleCell label="Title" title={data.title} />
        <TextCell label="Vehicle" text={data.vehicle} more={data.customer} />
        <Turn />
        <TextCell label="Stage" text={data.stage} />
        <TextCell label="Received" text={data.received === null ? 'not yet' : `${data.received.name}, ${data.received.when}`} />
      </Strip>
      <section class="block"><h2>Final check</h2><p><span safe>{data.checkWords}</span> <a class="link" href={at(data.checkHref)}>Open the final check</a></p></section>
      <section class="block">
        <h2>Load</h2>
        <p>Added mass: <Explained working={data.added} reader={viewer} inRow /></p>
        {data.remaining === null ? <p class="quiet">Enter the load on the tire placard to see what remains for occupants and cargo.</p> : <p>Remains for occupants and cargo: <Explained working={data.remaining} reader={viewer} inRow /></p>}
        {data.unknown.length === 0 ? '' : <p>No mass is recorded of <span safe>{data.unknown.join(', ')}</span>: the true figure is lower.</p>}
      </section>
      {data.form === null ? <section class="block"><h2>What was said</h2><dl class="facts">{data.facts.map(({ label, text }) => <div><dt safe>{label}</dt><dd class="prose" safe>{text === '' ? 'not recorded' : text}</dd></div>)}</dl></section>
        : <section class="block"><h2>What is said and handed over</h2><DeliveryEntries viewer={viewer} form={data.form} /></section>}
      <Kept kept={data.kept} />
      {data.received === null ? '' : (
        <section class="block"><h2>Received by</h2>
          <Signature signed={data.received} />
        </section>
      )}
      {data.receive === null ? '' : <Receive viewer={viewer} receive={data.receive} />}
      <section class="block"><h2>Delivery pack</h2><div class="deed">{data.files.map(({ name, href }) => <a class="button" href={at(href)} safe>{name}</a>)}</div>
        <p class="note">The archive opens in any browser without a network. No channel map and no circuits are recorded yet, and the pack says so.</p></section>
      <script src={asset('intake.js')} defer></script>
    </Frame>
  )
}

function DeliveryEntries({ viewer, form }: { viewer: Viewer, form: DeliveryForm }): JSX.Element {
  const { values, problems } = form
  const entry = (name: string, label: string, note?: string) => ({ name, label, note, problem: problemOf(problems, name) })
  return (
    <Form action={form.action} csrfToken={viewer.csrfToken} idempotencyKey={form.key} version={form.version} problems={problems} submit="Save the delivery"
      {...(form.isSuggested ? { note: 'The texts are what is usually said: go over them, nothing is saved yet.' } : {})}>
      <Fields>
        <QuantityEntry {...entry('odometer', 'Odometer')} value={values.odometer} unit={form.distanceUnit} />
        <QuantityEntry {...entry('placardLoad', 'Occupants and cargo by the tire placard', 'As it stands on the door pillar.')} value={values.placardLoad} unit={form.massUnit} />
        <LongEntry {...entry('careAndUse', 'Care and use')} value={values.careAndUse} />
        <LongEntry {...entry('beforeSale', 'Before a sale, a lease return or a dealer visit')} value={values.beforeSale} />
        <ChoiceEntry {...entry('explainedById', 'Explained by')} value={values.explainedById} options={form.people} none="nobody yet" />
        <LongEntry {...entry('note', 'Note')} value={values.note} />
      </Fields>
    </Form>
  )
}

const KEPT_COLUMNS = [{ name: 'No.' }, { name: 'Factory part' }, { name: 'State' }, { name: 'Where' }] as const

function Kept({ kept }: { kept: DeliveryData['kept'] }): JSX.Element {
  return (
    <section class="block">
      <h2>Factory parts that are not in the vehicle</h2>
      {kept.length === 0 ? <p class="quiet">None.</p> : (
        <Table columns={KEPT_COLUMNS} caption="Factory parts that are not in the vehicle">
          {kept.map(({ number, name, state, where }) => <tr><td class="no" safe>{number}</td><th scope="row" safe>{name}</th><WordCell is="state" text={state} /><WordCell is="where" text={where} /></tr>)}
        </Table>
      )}
    </section>
  )
}

function Receive({ viewer, receive }: { viewer: Viewer, receive: NonNullable<DeliveryData['receive']> }): JSX.Element {
  return (
    <section class="block" id="receipt">
      <h2>Signature of whoever receives it</h2>
      <Form action={receive.action} csrfToken={viewer.csrfToken} idempotencyKey={receive.key} version={receive.version} submit="Sign for the vehicle" note="What is signed stays as it is.">
        <Fields>
          <TextEntry name="receivedBy" label="Name" note="Of whoever takes the vehicle. A typed name is enough." value="" required autocomplete="name" />
          <SignatureEntry />
        </Fields>
      </Form>
    </section>
  )
}
