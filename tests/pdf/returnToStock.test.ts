import t from 'tap'
import sharp from 'sharp'
import { toChecklist } from '../../server/calc/restoration/checklist.ts'
import { writeTorque } from '../../server/calc/figures.ts'
import { toVerdict } from '../../server/calc/restoration/verdict.ts'
import { makePaperPdf } from '../../server/sheets/paperPdf.ts'
import { PAPERS } from '../../server/shared/pdf/makeSheet.ts'
import { ReturnToStockSheet, type ReturnToStockData } from '../../web/restoration/returnToStock.tsx'
import { toHtml } from '../../web/shared/page.ts'
import { alteration, DOOR, fastener, getPlan, item, part, restorationOf } from '../support/restorationWorld.ts'
import { factsOfPdf, needsReader, pagesOfPdf, textOfPdf } from '../support/pdfText.ts'

const READER = { units: 'metric', currency: 'USD' } as const

// A door with a neighborhood: signs of the trade and names with accents stand in what people typed.
const input = restorationOf({
  ...DOOR,
  factoryParts: [
    ...DOOR.factoryParts,
    part(30, 'belt reel', { state: 'out and stored', place: 'Łódź shelf, ½ way up', zoneName: 'Ősz pillar', fasteners: [fastener('bolt', 1, { size: 'M10 × 25', torqueMnm: 45_000, torqueSource: 'workshop manual 72-10', isSafety: true }), fastener('nut', 2, { size: 'M8', isSafety: true })] }),
    part(31, 'antenna plate', { state: 'out with the customer', place: 'Çağla Škoda', connectors: 'lead ≤ 2 m, 75 Ω' }),
    ...Array.from({ length: 24 }, (_, index) => part(40 + index, `trim strip ${index + 1}`, { state: 'out and stored', place: `bin A-${index + 10}`, zoneName: index % 2 === 0 ? 'left front door' : 'Ősz pillar', fasteners: [fastener('clip', index + 3), fastener('screw', 2, { size: 'M4 × 12', torqueMnm: 1000 + 111 * index, torqueSource: `sheet ${index + 1}` })] })),
  ],
  installedItems: [...DOOR.installedItems, item('E-09', 'amplifier √(P·R)')],
  alterations: [alteration('X-001', { what: 'four holes 6 mm − deburred', partsToBuy: [{ name: 'plug 6 mm', count: 4, priceMinor: 30, leadDays: 2 }] })],
})
const plan = getPlan(input)
const checklist = toChecklist(input, plan, { energy: 'electric', batteryWaitS: 180 })

function dataOf(showsMoney: boolean): Omit<ReturnToStockData, 'backHref'> {
  return {
    titleBlock: {
      owner: 'Sallow Creek', ownerMore: '41 Tannery Row', title: 'Return to stock', subtitle: 'Wagon', documentType: 'Return-to-stock sheet', number: 'R-0147-1', revision: 'A',
      dateOfIssue: '2031-03-03', language: 'en', createdBy: 'C. Oake', approvedBy: '', build: 'B-0147', replaces: '',
    },
    scope: 'the whole vehicle', verdict: toVerdict(input, plan, 9000), checklist, showsMoney,
    whereabouts: { body: 'wagon', zones: [{ number: 1, name: 'Ősz pillar', place: 'pillars' }], places: [{ place: 'bin A-07', holds: 'F-022' }], tools: ['hex for M8', 'torque wrench, 1 N·m to 45 N·m'] },
    factoryOptions: 'Airbag in the Ősz pillar', outOfUse: ['Until they are plugged in again: F-020 window switch (switch plug).'], openPoints: ['X-001: nobody is recorded as having consented.'], standing: 'Frozen on Mon 3 Mar 2031.',
  }
}
const picture = await sharp({ create: { width: 90, height: 60, channels: 3, background: '#457' } }).jpeg().toBuffer()
const order = (paper: (typeof PAPERS)[number], showsMoney = true) => ({
  paper, data: dataOf(showsMoney), reader: READER, pictures: new Map([['F-021', [{ hash: 'a'.repeat(64), says: 'panel', width: 90, height: 60 }]]]),
  readPicture: async () => picture, onMissing: (signs: readonly string[]) => { throw new Error(`the fonts lack ${signs.join(' ')}`) },
})
// A word with a hyphen may go on in the next line.
const unbroken = (text: string): string => text.replaceAll(/(\w)- (?=\w)/g, '$1-')
const tidy = (text: string): string => text.replaceAll(/\s+/g, ' ').trim()

t.test('the PDF holds what the page holds: every step, fastener, torque and caution, once and in order, on A4 and Letter', needsReader, async (t) => {
  for (const paper of PAPERS) {
    const { data, pageCount } = await makePaperPdf(order(paper))
    const text = unbroken(textOfPdf(data))
    let from = text.indexOf('Cautions, before anything else')
    t.ok(from > 0)
    for (const { number, signalWord, title, text: words } of checklist.cautions) {
      const at = text.indexOf(`${number} ${signalWord.toUpperCase()}: ${title}`, from)
      t.ok(at > from, `${paper}: caution ${number} ${title}`)
      t.ok(text.includes(tidy(words)), `${paper}: what ${number} asks for`)
      from = at
    }
    from = text.indexOf('Steps, in this order')
    for (const step of checklist.steps.filter(({ phase }) => phase !== 'signature')) {
      const start = `${step.number} ${tidy(step.text)}`
      const at = text.indexOf(start, from)
      t.ok(at >= from, `${paper}: step ${start}`)
      t.equal(text.indexOf(start, at + 1), -1, `${paper}: step ${step.number} stands once`)
      from = at
      for (const { text: what, torque } of step.fasteners) {
        const tail = typeof torque === 'string' ? (torque === 'none applies' ? 'no torque' : torque === 'not used again' ? '' : torque) : `${writeTorque(torque.mNm)} ${torque.source}`
        const found = text.indexOf(tidy(`${what} ${tail}`), from)
        t.ok(found > from, `${paper}: step ${step.number}, ${what}, ${tail}`)
        from = found
      }
    }
    for (const words of ['lead ≤ 2 m, 75 Ω', '√(P·R)', 'Łódź shelf, ½ way up', 'Çağla Škoda', 'four holes 6 mm − deburred', 'Ősz pillar', 'What does not work meanwhile', 'Until they are plugged in again: F-020 window switch (switch plug).', '45 N·m, 33.2 lbf·ft workshop manual 72-10', 'M8 nut maker\'s manual']) t.ok(text.includes(words), `${paper}: ${words}`)
    t.equal(pagesOfPdf(data).length, pageCount)
    t.equal(factsOfPdf(data).get('Title'), 'R-0147-1 Return to stock')
    const pages = pagesOfPdf(data)
    for (const head of ['Verdict', 'Parts to buy before you begin', 'Where things are, and what you need', 'Function tests', 'Notes']) {
      t.notOk(pages.some((page) => new RegExp(`${head} Sallow Creek · R-0147-1`).test(page)), `${paper}: “${head}” does not stand alone at the foot of a page`)
    }
  }
})

t.test('the page that prints says the same in the same order', needsReader, async (t) => {
  const html = toHtml(ReturnToStockSheet({ reader: READER, data: dataOf(true) }))
  const page = tidy(html.replaceAll(/<[^>]+>/g, ' ').replaceAll('&#39;', '\'').replaceAll('&amp;', '&').replaceAll('&lt;', '<'))
  const pdf = textOfPdf((await makePaperPdf(order('A4'))).data)
  const squeezed = (text: string): string => text.replaceAll(/[\s.,]/g, '')
  let from = 0
  for (const { number, text } of checklist.steps.filter(({ phase }) => phase !== 'signature')) {
    const at = squeezed(page).indexOf(squeezed(`${number} ${text}`), from)
    t.ok(at >= from, `page: step ${number}`)
    from = at
    t.ok(squeezed(pdf).includes(squeezed(`${number} ${text}`)), `PDF: step ${number}`)
  }
  for (const text of [page, pdf]) t.ok(squeezed(text).includes(squeezed('Until they are plugged in again: F-020 window switch')), 'what does not work meanwhile')
  for (const { name, count } of dataOf(true).verdict.partsToBuy) for (const text of [page, pdf]) t.ok(squeezed(text).includes(squeezed(name)), `${name}, ${count}`)
})

t.test('prices stand on the sheet for those who see them and for nobody else', needsReader, async (t) => {
  t.match(textOfPdf((await makePaperPdf(order('A4'))).data), /\d USD/)
  const { verdict } = dataOf(false)
  const data = { ...dataOf(false), verdict: { ...verdict, partsToBuy: verdict.partsToBuy.map((line) => ({ ...line, priceMinor: null })) } }
  t.notMatch(textOfPdf((await makePaperPdf({ ...order('A4'), data })).data), /USD/)
})

t.test('pictures stand in the PDF itself, and the same sheet gives the same bytes', async (t) => {
  const [first, second] = [await makePaperPdf(order('A4')), await makePaperPdf(order('A4'))]
  t.ok(first.data.includes(picture.subarray(20, 120)), 'the JPEG is embedded as it is')
  t.ok(first.data.equals(second.data))
  const without = await makePaperPdf({ ...order('A4'), readPicture: async () => null })
  t.equal(without.pageCount > 0, true, 'a picture whose file is missing leaves its place empty')
  t.notOk(without.data.includes(picture.subarray(20, 120)))
})
