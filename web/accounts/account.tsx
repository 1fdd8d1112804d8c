import type { Working } from '../../server/calc/amounts.ts'
import { at } from '../shared/asset.ts'
import { Explained } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Saved } from '../shared/saved.tsx'
import { Cell, NumberCell, Strip, TitleCell, Trail, Turn, type TrailStep } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

export interface AccountDocumentRow {
  readonly number: string
  readonly href: string
  readonly what: string
  readonly issued: string
  readonly due: string
  readonly isLate: boolean
  readonly total: { readonly text: string, readonly how: string }
  /** Of an invoice; '' of a credit note. */
  readonly open: { readonly text: string, readonly how: string | undefined }
}

export interface AccountPaymentRow {
  readonly day: string
  readonly what: string
  readonly more: string
  readonly reference: string
  readonly by: string
  readonly amount: string
  readonly takeBackHref: string | null
}

export interface AccountData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  readonly accepted: Working | null
  readonly figures: Readonly<Record<'invoiced' | 'credited' | 'paid' | 'balance' | 'ahead', Working>>
  readonly documents: readonly AccountDocumentRow[]
  readonly payments: readonly AccountPaymentRow[]
  readonly deposits: readonly { readonly due: string, readonly share: string, readonly amount: { readonly text: string, readonly how: string }, readonly open: { readonly text: string, readonly how: string }, readonly standing: string }[]
  readonly deeds: readonly { readonly href: string, readonly name: string }[]
  readonly links: readonly { readonly href: string, readonly name: string }[]
  readonly saved: string | null
}

/** What a customer owes on one build: agreed, invoiced, credited, paid, and what is left. */
export function AccountPage({ viewer, data }: { viewer: Viewer, data: AccountData }): JSX.Element {
  const { figures } = data
  return (
    <Frame title={`Account of ${data.number}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      <Strip>
        <NumberCell label="Build" number={data.number} />
        <TitleCell label={data.title} title="Account" />
        <Turn />
        <Cell label="Accepted, with tax" width="w3">{data.accepted === null ? <span class="quiet">nothing yet</span> : <Explained working={data.accepted} reader={viewer} />}</Cell>
        <Cell label="Invoiced" width="w3"><Explained working={figures.invoiced} reader={viewer} /></Cell>
        <Cell label="Credited" width="w3"><Explained working={figures.credited} reader={viewer} /></Cell>
        <Cell label="Paid" width="w3"><Explained working={figures.paid} reader={viewer} /></Cell>
        <Cell label={figures.balance.result.value < 0 ? 'Balance: in the customer’s favor' : 'Balance: still to be paid'} width="w4"><Explained working={figures.balance} reader={viewer} /></Cell>
        {figures.ahead.result.value === 0 ? '' : <Cell label="Of it paid ahead" width="w3"><Explained working={figures.ahead} reader={viewer} /></Cell>}
      </Strip>
      <div class="deed">{data.deeds.map(({ href, name }, index) => <a class={['button', index === 0 && 'first']} href={at(href)} safe>{name}</a>)}</div>
      <Documents rows={data.documents} />
      <Payments rows={data.payments} />
      <Deposits data={data} />
      <div class="deed">{data.links.map(({ href, name }) => <a class="link" href={at(href)} safe>{name}</a>)}</div>
      <section class="block" aria-label="Law"><p class="quiet">What an invoice must say, when one is due, and how deposits are taxed is for local law.</p></section>
    </Frame>
  )
}

function Documents({ rows }: { rows: readonly AccountDocumentRow[] }): JSX.Element {
  return (
    <section class="block" aria-labelledby="documents">
      <h2 id="documents">Invoices and credit notes</h2>
      {rows.length === 0 ? <p class="quiet">None issued yet. An invoice takes its number when it is issued and stays as it is from then on.</p> : (
        <Table columns={[{ name: 'No.' }, { name: 'What' }, { name: 'Issued' }, { name: 'Due' }, { name: 'Total with tax', isFigure: true }, { name: 'Still open', isFigure: true }]} caption="Invoices and credit notes in the order of their numbers">
          {rows.map((row) => (
            <tr>
              <th scope="row" class="no"><a href={at(row.href)} safe>{row.number}</a></th>
              <WordCell text={row.what} />
              <WordCell is="issued" text={row.issued} />
              <td data-is="due"><span safe>{row.due}</span>{row.isLate ? <strong class="sub">overdue</strong> : ''}</td>
              <FigureCell is="total" text={row.total.text} how={row.total.how} />
              <FigureCell is="open" text={row.open.text} how={row.open.how} />
            </tr>
          ))}
        </Table>
      )}
    </section>
  )
}

function Payments({ rows }: { rows: readonly AccountPaymentRow[] }): JSX.Element {
  return (
    <section class="block" aria-labelledby="payments">
      <h2 id="payments">Payments</h2>
      {rows.length === 0 ? <p class="quiet">Nothing paid yet. A deposit can be entered before there is an invoice.</p> : (
        <Table columns={[{ name: 'Day' }, { name: 'What' }, { name: 'Reference' }, { name: 'Entered by' }, { name: 'Amount', isFigure: true }, { name: 'Take back', isUnseen: true }]} caption="Payments in the order they were entered">
          {rows.map((row) => (
            <tr>
              <WordCell text={row.day} />
              <th scope="row"><span safe>{row.what}</span>{row.more === '' ? '' : <span class="sub prose" safe>{row.more}</span>}</th>
              <WordCell is="reference" text={row.reference} quiet />
              <WordCell is="entered by" text={row.by} quiet />
              <FigureCell is="amount" text={row.amount} how="recorded" />
              <td>{row.takeBackHref === null ? '' : <a class="link" href={at(row.takeBackHref)} aria-label={`Take back ${row.what}, ${row.amount}`}>Take back</a>}</td>
            </tr>
          ))}
        </Table>
      )}
    </section>
  )
}

function Deposits({ data: { deposits } }: { data: AccountData }): JSX.Element {
  if (deposits.length === 0) return ''
  return (
    <section class="block" aria-labelledby="deposits">
      <h2 id="deposits">Deposit plan</h2>
      <Table columns={[{ name: 'Due' }, { name: 'Share', isFigure: true }, { name: 'Amount', isFigure: true }, { name: 'Still open', isFigure: true }, { name: 'Paid' }]} caption="What is to be paid ahead, and when">
        {deposits.map(({ due, share, amount, open, standing }) => (
          <tr><th scope="row" safe>{due}</th><FigureCell is="share" text={share} how="recorded" /><FigureCell is="amount" text={amount.text} how={amount.how} /><FigureCell is="still open" text={open.text} how={open.how} /><WordCell is="paid" text={standing} /></tr>
        ))}
      </Table>
      <p class="quiet">A deposit is entered as a payment for no invoice; the next invoice shows it as paid ahead.</p>
    </section>
  )
}
