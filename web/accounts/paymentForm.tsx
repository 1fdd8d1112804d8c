import type { Working } from '../../server/calc/amounts.ts'
import { Explained } from '../shared/figure.tsx'
import { CheckEntry, ChoiceEntry, DateEntry, Fields, Form, LongEntry, problemOf, TextEntry, type Option } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Cell, Strip, TitleCell, Trail, type TrailStep } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export const METHODS = ['cash', 'card', 'bank transfer', 'check'] as const
export const DIRECTIONS = ['received', 'paid back'] as const

/** As it was typed; nothing of it is checked yet. */
export interface PaymentTyped {
  readonly direction: (typeof DIRECTIONS)[number]
  readonly amount: string | number
  readonly paidOn: string
  readonly method: string
  readonly reference: string
  /** '' where it is for no invoice. */
  readonly invoiceId: string
  readonly note: string
  readonly confirmed: boolean
}

export interface PaymentFormData {
  readonly trail: readonly TrailStep[]
  readonly build: string
  /** What is still to be paid, in words. */
  readonly balance: Working
  readonly typed: PaymentTyped
  readonly invoices: readonly Option[]
  readonly problems: readonly FieldProblem[]
  readonly action: string
  readonly key: string
  readonly cancelHref: string
}

/** One payment, in or out. */
export function PaymentFormPage({ viewer, data }: { viewer: Viewer, data: PaymentFormData }): JSX.Element {
  const { typed, problems } = data
  const entry = (name: string, label: string, note?: string) => ({ name, label, note, problem: problemOf(problems, name) })
  const question = problems.find(({ field }) => field === 'confirmed')
  return (
    <Frame title={`A payment, ${data.build}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip><TitleCell label={data.build} title="A payment" /><Cell label="Still to be paid" width="w4"><Explained working={data.balance} reader={viewer} /></Cell></Strip>
      <section class="block">
        <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={problems} submit="Enter the payment" cancelHref={data.cancelHref} note="An entry is never changed: one made in error is taken back by another.">
          <Fields>
            <ChoiceEntry {...entry('direction', 'It was')} value={typed.direction} options={DIRECTIONS.map((value) => ({ value, label: value }))} />
            <TextEntry {...entry('amount', 'Amount', viewer.currency)} value={String(typed.amount)} required isNumber />
            <DateEntry {...entry('paidOn', 'Paid on')} value={typed.paidOn} required />
            <ChoiceEntry {...entry('method', 'How')} value={typed.method} options={METHODS.map((value) => ({ value, label: value }))} />
            <ChoiceEntry {...entry('invoiceId', 'For')} value={typed.invoiceId} options={data.invoices} none="no invoice: paid ahead" />
            <TextEntry {...entry('reference', 'Reference', 'Of the bank or the card, if there is one.')} value={typed.reference} />
            <LongEntry {...entry('note', 'Note')} value={typed.note} />
            {question === undefined && !typed.confirmed ? '' : <CheckEntry {...entry('confirmed', 'Is it right?')} value={typed.confirmed} says="Yes, it is right as it stands" />}
          </Fields>
        </Form>
      </section>
    </Frame>
  )
}

export interface TakeBackData {
  readonly trail: readonly TrailStep[]
  readonly build: string
  /** What is taken back, in words. */
  readonly entry: string
  readonly note: string
  readonly action: string
  readonly key: string
  readonly cancelHref: string
}

/** An entry made in error: why, and that it is taken back. */
export function TakeBackPage({ viewer, data }: { viewer: Viewer, data: TakeBackData }): JSX.Element {
  return (
    <Frame title={`Take an entry back, ${data.build}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip><TitleCell label={data.build} title="Take an entry back" /></Strip>
      <section class="block">
        <p safe>{data.entry}</p>
        <p class="quiet">For an entry made in error. Both stay in the list, and together they come to nothing. Money that was given back to the customer is a payment of its own: paid back.</p>
        <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} submit="Take the entry back" cancelHref={data.cancelHref}>
          <Fields><LongEntry name="note" label="Why" value={data.note} /></Fields>
        </Form>
      </section>
    </Frame>
  )
}
