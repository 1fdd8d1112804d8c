import type { TitleBlockFields } from '../../../web/shared/printSheet.tsx'
import type { Definition, Piece } from './library.ts'
import { readCoverage, writeInSigns } from './signs.ts'
import { footOf, IN_FOOT, titleBlockOf } from './titleBlock.ts'
import { maker } from './typefaces.ts'

export const PAPERS = ['A4', 'Letter'] as const
export type PaperSize = (typeof PAPERS)[number]

/** What stands on a sheet, below its title block and above its foot. */
export interface PdfSheet {
  readonly paper: PaperSize
  readonly titleBlock: TitleBlockFields
  readonly content: readonly Piece[]
  /** Pictures by the name that `image` gives, JPEG or PNG. */
  readonly pictures?: ReadonlyMap<string, Buffer>
}

export interface MadeSheet {
  readonly data: Buffer
  readonly pageCount: number
}

const MM = 72 / 25.4
/** Filing margin on the left. */
const MARGINS: Definition['pageMargins'] = [20 * MM, 10 * MM, 10 * MM, 16 * MM]
const WIDTHS: Readonly<Record<PaperSize, number>> = { A4: 210 * MM, Letter: 8.5 * 72 }

/** Points between the margins. */
export const innerWidth = (paper: PaperSize): number => WIDTHS[paper] - MARGINS[0] - MARGINS[2]

/**
 * A sheet as PDF: the same sheet gives the same bytes. Signs that the fonts lack stand as their codes
 * and are named to `onMissing`, which logs them, and throws in tests.
 */
export async function makeSheet(sheet: PdfSheet, onMissing: (signs: readonly string[]) => void): Promise<MadeSheet> {
  const coverage = await readCoverage()
  const missing = new Set<string>()
  const written = (content: readonly Piece[]): Piece[] => writeInSigns(content, coverage, missing) as Piece[]
  const drawn = async (pageCount: number): Promise<MadeSheet> => {
    let pages = 0
    const content = written([titleBlockOf(sheet.titleBlock, pageCount), ...sheet.content])
    const definition = definitionOf(sheet, content, (page, count) => {
      pages = count
      return written([footOf(sheet.titleBlock, page, count)])
    })
    return { data: await maker.createPdf(definition).getBuffer(), pageCount: pages }
  }
  const first = await drawn(FIRST_GUESS)
  const made = first.pageCount === FIRST_GUESS ? first : await drawn(first.pageCount)
  if (missing.size > 0) onMissing([...missing])
  return made
}

// How many pages there are is known when they are laid out, and the title block on the first says it.
const FIRST_GUESS = 3

function definitionOf({ paper, titleBlock, pictures }: PdfSheet, content: Piece[], foot: (page: number, count: number) => Piece[]): Definition {
  const issued = new Date(`${titleBlock.dateOfIssue}T00:00:00Z`)
  return {
    pageSize: paper === 'A4' ? 'A4' : 'LETTER', pageMargins: MARGINS, version: '1.7', language: 'en-US', displayTitle: true,
    info: { title: `${titleBlock.number} ${titleBlock.title}`, author: titleBlock.owner, subject: titleBlock.subtitle, creator: 'Putback', producer: 'Putback', creationDate: issued, modDate: issued },
    defaultStyle: { font: 'Text', fontSize: 9.5, lineHeight: 1.12, fontFeatures: FIGURES },
    images: Object.fromEntries([...pictures ?? []].map(([name, data]) => [name, `data:${isPng(data) ? 'image/png' : 'image/jpeg'};base64,${data.toString('base64')}`])),
    pageBreakBefore: startsPage, content, footer: (page, count) => foot(page, count),
  }
}

// Lining figures of one width, as on the screens.
const FIGURES = ['lnum', 'tnum']

// No heading stands alone at the foot of a page. What frames a table begins there even where its first words do not, and the foot itself is no text under it.
const startsPage: NonNullable<Definition['pageBreakBefore']> = (node, { getFollowingNodesOnPage }) =>
  node.headlineLevel === 1 && getFollowingNodesOnPage().every(({ text, style }) => text === undefined || style === IN_FOOT)

const isPng = (data: Buffer): boolean => data[0] === 0x89
