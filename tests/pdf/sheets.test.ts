import t from 'tap'
import type { Piece } from '../../server/shared/pdf/library.ts'
import { caution, columnHead, heading, note, signatureLines, table, tickBox, titledTable, together } from '../../server/shared/pdf/pieces.ts'
import { innerWidth, makeSheet, PAPERS, type PdfSheet } from '../../server/shared/pdf/makeSheet.ts'
import { inSigns, readCoverage } from '../../server/shared/pdf/signs.ts'
import { factsOfPdf, needsReader, pagesOfPdf, textOfPdf } from '../support/pdfText.ts'

const titleBlock = {
  owner: 'Rivet Lane', ownerMore: 'Unit 4', title: 'Return to stock', subtitle: 'Corvane Tern 2031', documentType: 'Return-to-stock sheet', number: 'R-0231-1',
  revision: 'A', dateOfIssue: '2031-03-03', language: 'en', createdBy: 'C. Oake', approvedBy: '', build: 'B-0231', replaces: '',
}
const refuse = (signs: readonly string[]): void => {
  throw new Error(`the fonts lack ${signs.join(' ')}`)
}

function sheetOf(rowCount: number, words = 'Door panel left', paper: PdfSheet['paper'] = 'A4'): PdfSheet {
  const rows = Array.from({ length: rowCount }, (_, index) => [tickBox(index % 2 === 0), String(index + 1), { text: `${words} ${index + 1} `.repeat(12) }])
  return {
    paper, titleBlock,
    content: [
      heading('Cautions'), caution({ number: 'C1', signal: 'warning', title: 'Airbags', text: 'Disconnect the battery.' }, innerWidth(paper)),
      heading('Steps'), table({ widths: [24, 20, '*'], head: [columnHead('Done'), columnHead('No.'), columnHead('What to do')], rows }),
      together(heading('Done and tested'), signatureLines([['Work done by', 'Date']])),
    ],
  }
}

t.test('a sheet carries its title block once, and its foot with number, date and place on every page', needsReader, async (t) => {
  for (const paper of PAPERS) {
    const { data, pageCount } = await makeSheet(sheetOf(60, 'Door panel left', paper), refuse)
    const pages = pagesOfPdf(data)
    t.equal(pages.length, pageCount)
    t.ok(pageCount > 2)
    t.match(pages[0], `SHEET 1 of ${pageCount}`)
    pages.forEach((page, index) => {
      t.match(page, `Rivet Lane · R-0231-1, revision A, 2031-03-03 sheet ${index + 1} of ${pageCount}`)
      t.equal(page.includes('LEGAL OWNER'), index === 0)
    })
    const withRows = pages.filter((page) => page.includes('Door panel left'))
    for (const page of withRows) t.match(page, /Done No\. What to do/, 'the head of the table stands on each of its pages')
    for (let row = 1; row <= 60; row += 1) {
      t.equal(pages.filter((page) => page.includes(`Door panel left ${row} `)).length, 1, `row ${row} stands whole on one page`)
    }
    t.match(factsOfPdf(data).get('Page size'), paper === 'A4' ? /595\.28 x 841\.89/ : /612 x 792/)
    t.equal(factsOfPdf(data).get('Title'), 'R-0231-1 Return to stock')
  }
})

t.test('no heading stands alone at the foot of a page, whatever it stands over', needsReader, async (t) => {
  const words = 'as it was noted '.repeat(30)
  const under: Readonly<Record<string, readonly Piece[]>> = {
    'words': [heading('Notes'), note(words)], 'a table': titledTable('Notes', { widths: [40, '*'], head: ['No.', 'What'].map(columnHead), rows: [['1', words]] }),
  }
  for (const [kind, pieces] of Object.entries(under)) {
    const first = new Set<number>()
    for (let above = kind === 'words' ? 527 : 443; above <= 576; above += kind === 'words' ? 7 : 19) {
      const content: Piece[] = [{ canvas: [{ type: 'line', x1: 0, y1: 0, x2: 0, y2: above }] }, ...pieces]
      const pages = pagesOfPdf((await makeSheet({ paper: 'A4', titleBlock, content }, refuse)).data)
      const at = pages.findIndex((page) => page.includes('Notes'))
      first.add(at)
      t.notMatch(pages[at], /Notes (?:No\. What )?Rivet Lane/, `${kind} below a heading ${above} points down`)
    }
    t.same([...first], [0, 1], 'the heading went over to the next page on the way')
  }
})

t.test('signs of the trade and names with accents come back from the paper as they went in', needsReader, async (t) => {
  const words = 'Ω ≤ √ × ½ − N·m lbf·ft “maker’s manual” — Łódź Ősz Çağla Škoda-free fi ffl office'
  t.match(textOfPdf((await makeSheet(sheetOf(1, words), refuse)).data), `${words} 1`)
})

t.test('the same sheet gives the same bytes', async (t) => {
  const first = await makeSheet(sheetOf(30), refuse)
  await new Promise((resolve) => setTimeout(resolve, 1100))
  t.ok(first.data.equals((await makeSheet(sheetOf(30), refuse)).data))
})

t.test('a sign that the fonts lack stands as its code and is named, never as an empty box', async (t) => {
  const missing: string[] = []
  await makeSheet(sheetOf(1, 'tick ☑ here'), (signs) => void missing.push(...signs))
  t.same(missing, ['☑'])
  const { Text, Lettering } = await readCoverage()
  const seen = new Set<string>()
  t.equal(inSigns('a ☑ b\u2011c', Text, seen), 'a [U+2611] b-c')
  t.equal(inSigns('4 Ω', Lettering, seen), '4 [U+03A9]', 'the lettering knows fewer signs than the text')
  t.equal(inSigns('o\u0302', Text, new Set()), 'ô')
  await t.rejects(makeSheet(sheetOf(1, '☑'), refuse), /the fonts lack ☑/)
})
