import { at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { CheckEntry, Fields, Form, LongEntry, problemOf } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Cell, Strip, TextCell, TitleCell, Trail, type TrailStep } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'
import { InvoiceTable, type ShownInvoice } from './invoiceTable.tsx'

export interface Offer {
  readonly offer: string
  readonly text: string
  readonly amount: string
  readonly isChosen: boolean
}

export interface DraftData {
  readonly trail: readonly TrailStep[]
  readonly build: string
  readonly title: string
  readonly basis: string
  readonly address: string
  /** What could stand on it; none where all of it does. */
  readonly offers: readonly { readonly name: string, readonly offers: readonly Offer[] }[]
  readonly shown: ShownInvoice
  readonly isEmpty: boolean
  readonly points: readonly string[]
  /** Why it was not issued when that was asked for. */
  readonly refused: { readonly title: string, readonly text: string } | null
  readonly problems: readonly FieldProblem[]
  /** More is charged than was accepted: that has to be said. */
  readonly isOver: boolean
  readonly isConfirmed: boolean
  readonly total: string
  readonly due: string
  readonly note: string
  readonly chosen: readonly string[]
  readonly fingerprint: string
  readonly action: string
  readonly key: string
  readonly cancelHref: string
}

/** An invoice before it is issued: what stands on it, and what it comes to. */
export function DraftPage({ viewer, data }: { viewer: Viewer, data: DraftData }): JSX.Element {
  return (
    <Frame title={`${data.title}, ${data.build}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip>
        <TitleCell label={data.build} title={data.title} />
        <TextCell label="Number" width="w4" text="given when it is issued" />
        <Cell label="Total with tax"><RowFigure text={data.total} how="total" on={data.address} /></Cell>
      </Strip>
      {data.refused === null ? '' : <section class="block" role="alert" aria-labelledby="refused"><h2 id="refused" safe>{data.refused.title}</h2><p safe>{data.refused.text}</p></section>}
      {data.points.length === 0 ? '' : <section class="block" aria-labelledby="points"><h2 id="points">Before it is issued</h2>{data.points.map((point) => <p safe>{point}</p>)}</section>}
      <Choice data={data} />
      <section class="block" aria-labelledby="draft">
        <h2 id="draft">The invoice as it would stand</h2>
        {data.isEmpty ? <p class="quiet">Nothing is chosen, or all of it was invoiced already.</p> : <InvoiceTable shown={data.shown} on={data.address} />}
      </section>
      {data.isEmpty ? '' : (
        <section class="block" aria-labelledby="issue">
          <h2 id="issue">Issue it</h2>
          <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={data.problems} submit="Issue the invoice" cancelHref={data.cancelHref} note={`It takes the next number, is due ${data.due}, and is never changed: a mistake is put right by a credit note.`}>
            <input type="hidden" name="basis" value={data.basis} />
            <input type="hidden" name="fingerprint" value={data.fingerprint} />
            {data.chosen.map((offer) => <input type="hidden" name="line" value={offer} />)}
            <Fields>
              <LongEntry name="note" label="A word on the paper" value={data.note} />
              {data.isOver ? <CheckEntry name="confirmed" label="More than was accepted" value={data.isConfirmed} says="Yes, it is meant" problem={problemOf(data.problems, 'confirmed')} /> : ''}
            </Fields>
          </Form>
        </section>
      )}
    </Frame>
  )
}

function Choice({ data: { offers, basis, action } }: { data: DraftData }): JSX.Element {
  if (offers.length === 0) return ''
  return (
    <section class="block" aria-labelledby="choice">
      <h2 id="choice">What is invoiced</h2>
      <form method="get" action={at(`${action}/new`)}>
        <input type="hidden" name="basis" value={basis} />
        <input type="hidden" name="chosen" value="yes" />
        {offers.map(({ name, offers: own }) => (
          <fieldset class="fields">
            <legend safe>{name}</legend>
            <div class="ways">
              {own.map(({ offer, text, amount, isChosen }) => <label><input type="checkbox" name="line" value={offer} checked={isChosen} /><span safe>{`${text}: ${amount}`}</span></label>)}
            </div>
          </fieldset>
        ))}
        <div class="deed"><button class="button" type="submit">Work it out again</button></div>
      </form>
    </section>
  )
}
