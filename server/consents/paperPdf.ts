import type { FastifyBaseLogger } from 'fastify'
import type { PaperLineView, PaperView } from '../../web/shared/paperData.ts'
import { writeDay } from '../../web/shared/day.ts'
import { LAW_OF_PAPERS } from '../../web/shared/paperWords.ts'
import { capital } from '../../web/shared/text.ts'
import { inGroups } from '../quotes/content.ts'
import { toPaperView } from '../quotes/paperView.ts'
import type { StoredRevision } from '../quotes/revisionStore.ts'
import type { Cell, Piece } from '../shared/pdf/library.ts'
import { makeSheet, type MadeSheet, type PaperSize } from '../shared/pdf/makeSheet.ts'
import { columnHead, heading, note, signatureLines, table, tickBox, titledTable, together } from '../shared/pdf/pieces.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { chosenOf } from './paperData.ts'

const right = (text: string): Cell => ({ text, alignment: 'right' })
const figureHead = (text: string): Cell => ({ text, fontSize: 8, bold: true, alignment: 'right' })

interface Printed {
  readonly paper: PaperSize
  readonly timeZone: string
}

/** A frozen quote or change order as PDF. */
export async function paperPdf(revision: StoredRevision, { paper, timeZone }: Printed, log: FastifyBaseLogger): Promise<Buffer> {
  const { data } = await makePaper(revision, { paper, timeZone }, (signs) => log.warn({ event: 'signs the fonts lack', signs, paper: revision.content.number }, 'pdf'))
  return data
}

function makePaper(revision: StoredRevision, { paper, timeZone }: Printed, onMissing: (signs: readonly string[]) => void): Promise<MadeSheet> {
  const { content, contentHash, consent } = revision
  const view = toPaperView(content, consent ? { chosen: chosenOf(revision) } : {})
  return makeSheet({
    paper,
    titleBlock: {
      owner: content.shop.name, ownerMore: [content.shop.address.replaceAll('\n', ', '), content.shop.phone].filter((word) => word !== '').join(', '), title: `${capital(content.kind)}, ${content.title}`,
      subtitle: `For ${content.customer.name}. ${content.vehicle}`, documentType: capital(content.kind), number: content.number, revision: String(content.revision), dateOfIssue: content.issuedOn, language: 'en',
      createdBy: content.createdBy, approvedBy: '', build: content.build.number, replaces: content.replaces, status: consent ? `${capital(consent.decision)} by ${consent.typedName}` : `Good until ${writeDay(content.validUntil)} (${content.validUntil})`,
    },
    content: [
      ...titledTable('What you get', linesOf(view)),
      ...optionsOf(view, consent !== null), ...sumOf(view), ...depositsOf(view), ...view.said.flatMap(({ name, text }): Piece[] => [together(heading(name), { text })]),
      consentOf(revision, timeZone), note(LAW_OF_PAPERS), note(`SHA-256 of the content of ${content.number}: ${inGroups(contentHash)}`),
    ],
  }, onMissing)
}

/** Quantity and price each only where some line has more or less than one. */
function linesOf({ lines, currency }: PaperView): Parameters<typeof titledTable>[1] {
  const hasQuantities = lines.some(({ quantity }) => quantity !== '')
  return {
    widths: hasQuantities ? ['*', 40, 56, 50, 70] : ['*', 50, 70],
    head: [columnHead('What'), ...(hasQuantities ? [figureHead('Quantity'), figureHead('Each')] : []), columnHead('Tax code'), figureHead(currency)],
    rows: lines.map(({ text, quantity, each, tax, amount }: PaperLineView): Cell[] => [{ text, bold: true }, ...(hasQuantities ? [right(quantity), right(each)] : []), tax, right(amount)]),
  }
}

function optionsOf({ options, currency }: PaperView, isAnswered: boolean): Piece[] {
  if (options.length === 0) return []
  const rows = options.map(({ number, name, note: more, oneOf, lines, net, total, isChosen }): Cell[] => [
    tickBox(isChosen), { stack: [{ text: `${number} ${name}`, bold: true }, ...[oneOf === '' ? '' : `One of “${oneOf}”, or none of them.`, more, lines.map(({ text, amount }) => `${text} ${amount}`).join('; ')].filter((words) => words !== '').map((text): Piece => ({ text, fontSize: 8.5 }))] }, right(net), right(total),
  ])
  return titledTable('Options', { widths: [34, '*', 70, 80], head: [columnHead(isAnswered ? 'Chosen' : 'Yes'), columnHead('Option'), figureHead(currency), figureHead('With tax')], rows })
}

const sumOf = ({ totals, totalsFor, currency }: PaperView): Piece[] => [together(heading('Sum'), note(`${totalsFor}.`), table({
  widths: ['*', 90], head: [columnHead('What'), figureHead(currency)], rows: totals.map(({ name, amount, isTotal }) => [{ text: name, bold: isTotal }, { text: amount, bold: isTotal, alignment: 'right' }]),
}))]

const depositsOf = ({ deposits, currency }: PaperView): Piece[] => (deposits.length === 0 ? [] : [together(heading('Deposits'), table({
  widths: ['*', 60, 90], head: [columnHead('Due'), figureHead('Share'), figureHead(currency)], rows: deposits.map(({ due, share, amount }) => [due, right(share), right(amount)]),
}))])

function consentOf({ content, consent }: StoredRevision, timeZone: string): Piece {
  if (consent) return together(heading('Consent'), { text: `${capital(consent.decision)} by ${consent.typedName}, ${writeDay(calendarDateIn(timeZone, consent.createdAt))} at ${clockTimeIn(timeZone, consent.createdAt)} (${timeZone}), ${consent.way}.${consent.note === '' ? '' : ` ${consent.note}`}` })
  return together(heading('Consent'), { text: `No work beyond what is agreed is done without asking again. ${content.options.length === 0 ? '' : 'Tick the options you want above. '}` }, signatureLines([['Name in full', 'Date', 'Signature', 'For the shop']]))
}
