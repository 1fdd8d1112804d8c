import type { Working } from '../../server/calc/amounts.ts'
import { at } from '../shared/asset.ts'
import { Explained, Notes } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Paper, type TitleBlockFields } from '../shared/printSheet.tsx'
import { Saved } from '../shared/saved.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Trail, Turn, type TrailStep } from '../shared/strip.tsx'
import type { Viewer } from '../shared/viewer.ts'
import { CREDIT_NOTES, INVOICE_NOTES, InvoiceTable, type ShownInvoice } from './invoiceTable.tsx'

export interface InvoiceData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  /** Invoice or credit note, and of what build. */
  readonly title: string
  readonly build: string
  readonly customer: string
  readonly vehicle: string
  readonly issued: string
  readonly due: string
  readonly hash: string
  /** Null for a credit note. */
  readonly open: Working | null
  readonly shown: ShownInvoice
  readonly note: string
  readonly related: readonly { readonly href: string, readonly name: string }[]
  readonly deeds: readonly { readonly href: string, readonly name: string }[]
  readonly links: readonly { readonly href: string, readonly name: string }[]
  readonly saved: string | null
}

/** An issued invoice or credit note, and how far it is paid. */
export function InvoicePage({ viewer, data }: { viewer: Viewer, data: InvoiceData }): JSX.Element {
  return (
    <Frame title={`${data.number} ${data.build}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      <Strip>
        <NumberCell label={data.title} number={data.number} />
        <TitleCell label={data.title} title={data.build} isNamed />
        <TextCell label="Customer" width="w4" text={data.customer} />
        <Turn />
        <TextCell label="Vehicle" width="w4" text={data.vehicle} />
        <TextCell label="Issued" text={data.issued} />
        {data.open === null ? '' : <TextCell label="Due" text={data.due} />}
        {data.open === null ? '' : <Cell label="Still open" width="w3"><Explained working={data.open} reader={viewer} /></Cell>}
      </Strip>
      <div class="deed">
        {data.deeds.map(({ href, name }) => <a class="button" href={at(href)} safe>{name}</a>)}
        {data.links.map(({ href, name }) => <a class="link" href={at(href)} safe>{name}</a>)}
      </div>
      <section class="block" aria-labelledby="stands">
        <h2 id="stands">What stands on it</h2>
        {data.note === '' ? '' : <p class="prose" safe>{data.note}</p>}
        <InvoiceTable shown={data.shown} />
        {data.related.length === 0 ? '' : <p>With it: {data.related.map(({ href, name }) => <>{' '}<a class="link" href={at(href)} safe>{name}</a></>)}</p>}
        <p class="quiet">Issued and frozen: it is never changed or removed. Content SHA-256 <span class="prose" safe>{data.hash}</span></p>
      </section>
    </Frame>
  )
}

export interface InvoicePaperData {
  readonly titleBlock: TitleBlockFields
  readonly backHref: string
  readonly customer: readonly string[]
  readonly vehicle: string
  readonly shown: ShownInvoice
  readonly note: string
  /** What a credit note is for, or '' . */
  readonly credits: string
}

/** The same to print. */
export function InvoicePaperPage({ viewer, data }: { viewer: Viewer, data: InvoicePaperData }): JSX.Element {
  return (
    <Paper viewer={viewer} titleBlock={data.titleBlock} backHref={data.backHref}>
      <section class="together">
        <h2>For</h2>
        <p>{data.customer.map((line, index) => <>{index === 0 ? '' : <br />}<span safe>{line}</span></>)}</p>
        <p>Vehicle: <span safe>{data.vehicle}</span></p>
        {data.credits === '' ? '' : <p safe>{data.credits}</p>}
        {data.note === '' ? '' : <p class="prose" safe>{data.note}</p>}
      </section>
      <section>
        <h2>Lines, tax and sums</h2>
        <InvoiceTable shown={withoutHow(data.shown)} onPaper />
      </section>
      <section class="together"><h2>Notes</h2><Notes workings={data.credits === '' ? INVOICE_NOTES : CREDIT_NOTES} reader={viewer} /></section>
    </Paper>
  )
}

// On paper nothing opens: the heads of the columns carry the notes.
function withoutHow(shown: ShownInvoice): ShownInvoice {
  const plain = ({ text }: { readonly text: string }) => ({ text, how: undefined })
  return {
    ...shown, groups: shown.groups.map(({ name, lines }) => ({ name, lines: lines.map((line) => ({ ...line, amount: plain(line.amount) })) })),
    taxes: shown.taxes.map(({ name, rows }) => ({ name, rows: rows.map(({ code, net, tax }) => ({ code, net: plain(net), tax: plain(tax) })) })),
    sums: shown.sums.map((sum) => ({ ...sum, figure: plain(sum.figure) })),
  }
}
