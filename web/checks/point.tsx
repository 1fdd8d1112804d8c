import { at } from '../shared/asset.ts'
import { Cautions } from '../shared/caution.tsx'
import { GroupField } from '../shared/field.tsx'
import { Explained } from '../shared/figure.tsx'
import { Fields, Form, LongEntry, problemOf, QuantityEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'
import type { PointData, PointForm } from './checkData.ts'

/** One point of a final check: how it is looked at, what was found before, and the answer. */
export function PointPage({ viewer, data }: { viewer: Viewer, data: PointData }): JSX.Element {
  return (
    <Frame title={data.title} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip>
        <TitleCell label={data.group} title={data.title} />
        <Turn />
        <TextCell label="State" text={data.words} />
        <TextCell label="Asked because" text={data.why} />
        {data.limit === '' ? '' : <TextCell label="Right when" width="w4" text={data.limit} more={data.limitSource} />}
      </Strip>
      <Cautions cautions={data.cautions} />
      <section class="block"><h2>How</h2><p class="prose" safe>{data.how}</p>{data.target === null ? '' : <p>Target: <Explained working={data.target} reader={viewer} inRow /></p>}</section>
      {data.open.length === 0 ? '' : <section class="block"><h2>Open in the records</h2><ul>{data.open.map((item) => <li safe>{item}</li>)}</ul></section>}
      {data.codes === null ? '' : <Codes codes={data.codes} addHref={data.addCodeHref} />}
      {data.form === null ? '' : <section class="block"><h2>What was found</h2><Answer viewer={viewer} form={data.form} /></section>}
      <Given given={data.given} />
    </Frame>
  )
}

function Answer({ viewer, form }: { viewer: Viewer, form: PointForm }): JSX.Element {
  const { values, problems } = form
  const entry = (name: string, label: string, note?: string) => ({ name, label, note, problem: problemOf(problems, name) })
  return (
    <>
      {!form.isGain ? '' : (
        <form class="row" action={at(form.action.replace('/check-results', `/final-check/${form.point}`))}>
          <label>Rated power of one channel <input class="count short" type="text" name="power" value={values.power} /></label>
          <label>Nominal load <input class="count short" type="text" name="load" value={values.load} /></label>
          <button class="button" type="submit">Work out the target</button>
        </form>
      )}
      <Form action={form.action} csrfToken={viewer.csrfToken} idempotencyKey={form.key} problems={problems} submit="Save the answer" cancelHref={form.cancelHref}
        note="Answers are never changed: a newer one stands above the older.">
        <input type="hidden" name="point" value={form.point} />
        <Fields>
          <GroupField entry={entry('outcome', 'Found')}>
            <div class="ways">{form.outcomes.map((outcome) => <label><input type="radio" name="outcome" value={outcome} checked={values.outcome === outcome} /><span safe>{outcome}</span></label>)}</div>
          </GroupField>
          {form.isGain ? <QuantityEntry {...entry('power', 'Rated power of one channel', 'By the amplifier’s maker, into this load.')} value={values.power} unit="W" /> : ''}
          {form.isGain ? <QuantityEntry {...entry('load', 'Nominal load of that channel')} value={values.load} unit="Ω" /> : ''}
          {form.measures === null ? '' : <QuantityEntry {...entry('value', 'Measured')} value={values.value} unit={form.measures.unit} />}
          <LongEntry {...entry('note', 'Note', 'Needed for all but “right”: what is wrong, or why.')} value={values.note} />
        </Fields>
      </Form>
    </>
  )
}

const CODE_COLUMNS = [{ name: 'Code' }, { name: 'In words' }, { name: 'Read' }] as const

function Codes({ codes, addHref }: { codes: NonNullable<PointData['codes']>, addHref: string }): JSX.Element {
  return (
    <section class="block">
      <h2>Fault codes, intake and now</h2>
      {codes.length === 0 ? <p class="quiet">None recorded, neither at intake nor now.</p> : (
        <Table columns={CODE_COLUMNS} caption="Fault codes">
          {codes.map(({ code, words, when, isNew }) => (
            <tr class={[isNew && 'stands-out']}><th scope="row"><strong safe>{code}</strong>{isNew ? <span class="sub">new since intake, not cleared</span> : ''}</th><WordCell is="in words" text={words} /><WordCell is="read" text={when} /></tr>
          ))}
        </Table>
      )}
      {addHref === '' ? '' : <p><a class="button" href={at(addHref)}>Add a code read now</a></p>}
    </section>
  )
}

const GIVEN_COLUMNS = [{ name: 'Found' }, { name: 'Measured' }, { name: 'Note' }, { name: 'By' }] as const

function Given({ given }: { given: PointData['given'] }): JSX.Element {
  if (given.length === 0) return ''
  return (
    <section class="block">
      <h2>Answers, newest first</h2>
      <Table columns={GIVEN_COLUMNS} caption="Answers">
        {given.map(({ outcome, found, note, by }) => <tr><th scope="row" safe>{outcome}</th><WordCell is="measured" text={found} /><WordCell is="note" text={note} /><WordCell is="by" text={by} quiet /></tr>)}
      </Table>
    </section>
  )
}
