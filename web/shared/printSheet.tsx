import type { Children } from '@kitajs/html'
import { at } from './asset.ts'
import { Frame } from './frame.tsx'
import type { Viewer } from './viewer.ts'

/** The fields of ISO 7200 that a shop's sheet carries. */
export interface TitleBlockFields {
  /** The shop, and its address below. */
  readonly owner: string
  readonly ownerMore: string
  readonly title: string
  readonly subtitle: string
  readonly documentType: string
  /** As R-0147-1. */
  readonly number: string
  readonly revision: string
  /** Document status: what changed since delivery; left out before it. */
  readonly status?: string | undefined
  /** YYYY-MM-DD. */
  readonly dateOfIssue: string
  readonly language: string
  readonly createdBy: string
  readonly approvedBy: string
  readonly build: string
  readonly replaces: string
}

export interface PaperProps {
  readonly viewer: Viewer
  readonly titleBlock: TitleBlockFields
  /** Where "Back to the build" leads. */
  readonly backHref: string
  /** Where the same sheet is as PDF, without the paper; left out where there is none. */
  readonly pdfHref?: string
  readonly children: Children
}

/** A sheet as it is printed, lying on its board; on paper it stands alone with its foot and page numbers. */
export function Paper({ viewer, titleBlock, backHref, pdfHref, children }: PaperProps): JSX.Element {
  return (
    <Frame title={`${titleBlock.number} ${titleBlock.title}`} place="builds" viewer={viewer} kind="paper">
      <div class="paper-deeds">
        <a class="link" href={at(backHref)}>Back to the build</a>
        {pdfHref === undefined ? '' : <><a class="link" href={at(`${pdfHref}?paper=A4`)}>PDF, A4</a><a class="link" href={at(`${pdfHref}?paper=Letter`)}>PDF, Letter</a></>}
        <button class="button" type="button" data-print hidden>Print</button>
        <span class="quiet">Prints on A4 and Letter.</span>
      </div>
      <PaperArticle titleBlock={titleBlock}>{children}</PaperArticle>
    </Frame>
  )
}

/** The sheet itself: title block, what stands on it, foot. */
export function PaperArticle({ titleBlock, children }: Pick<PaperProps, 'titleBlock' | 'children'>): JSX.Element {
  return (
    <article class="paper">
      <TitleBlock fields={titleBlock} />
      {children}
      <Foot fields={titleBlock} />
    </article>
  )
}

function TitleBlock({ fields }: { fields: TitleBlockFields }): JSX.Element {
  return (
    <header class="title-block">
      <div class="s4"><span class="label">Legal owner</span><span safe>{fields.owner}</span><br /><span safe>{fields.ownerMore}</span></div>
      <div class="s8"><span class="label">Title</span><h1 safe>{fields.title}</h1><span safe>{fields.subtitle}</span></div>
      <Cell label="Document type" text={fields.documentType} span="s3" />
      <Cell label="Identification number" text={fields.number} span="s3" isNumber />
      <Cell label="Revision" text={fields.revision} isNumber />
      <Cell label="Date of issue" text={fields.dateOfIssue} />
      <Cell label="Language" text={fields.language} />
      <Cell label="Created by" text={fields.createdBy} span="s3" />
      <Cell label="Approved by" text={fields.approvedBy} span="s3" />
      <Cell label="Build" text={fields.build} isNumber />
      <Cell label="Replaces" text={fields.replaces} span="s4" />
      {fields.status === undefined ? '' : <Cell label="Document status" text={fields.status} span="s12" />}
    </header>
  )
}

function Cell({ label, text, span, isNumber }: { label: string, text: string, span?: 's3' | 's4' | 's12', isNumber?: boolean }): JSX.Element {
  return <div class={[span]}><span class="label" safe>{label}</span><span class={[isNumber === true && 'no large']} safe>{text}</span></div>
}

/** Repeated at the foot of every printed page; the page number beside it comes from the page itself. */
function Foot({ fields }: { fields: TitleBlockFields }): JSX.Element {
  return (
    <div class="foot" aria-hidden="true">
      <span safe>{`${fields.owner} · ${fields.number}, revision ${fields.revision}, ${fields.dateOfIssue}`}</span>
    </div>
  )
}

/** A box to tick with a pen. */
export function TickBox(): JSX.Element {
  return <td class="tick"></td>
}

/** Empty lines for names and dates; `wide` takes two of the four columns. */
export function Signatures({ fields }: { fields: readonly { readonly label: string, readonly wide?: boolean }[] }): JSX.Element {
  return <div class="signatures">{fields.map(({ label, wide }) => <div class={[wide === true && 's2']}><span class="label" safe>{label}</span></div>)}</div>
}
