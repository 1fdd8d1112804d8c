import t from 'tap'
import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { browserMissing, DESK, launch, openWindow, signInAs } from '../support/browser.ts'
import { serveDemo } from '../support/servedDemo.ts'

const missing = browserMissing() ?? (spawnSync('pdftotext', ['-v']).error ? 'pdftotext is missing: install the package poppler-utils' : null)

const folder = mkdtempSync(join(tmpdir(), 'putback-print-'))
t.teardown(() => rmSync(folder, { recursive: true, force: true }))

interface Word { readonly text: string; readonly page: number; readonly x: number; readonly right: number; readonly y: number; readonly bottom: number }

const MM = 25.4 / 72

/** Words of a PDF with their boxes in mm from the paper’s upper left, and the size of its pages. */
function readPdf(data: Buffer): { readonly words: readonly Word[]; readonly pages: readonly (readonly [number, number])[] } {
  const file = join(folder, 'sheet.pdf')
  writeFileSync(file, data)
  const html = execFileSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8' })
  const pages = html.split('<page ').slice(1)
  const number = (text: string, name: string): number => Number(new RegExp(`${name}="([\\d.]+)"`).exec(text)![1]) * MM
  return {
    pages: pages.map((page) => [number(page, 'width'), number(page, 'height')] as const),
    words: pages.flatMap((page, index) => [...page.matchAll(/<word ([^>]*)>([^<]*)</g)].map(([, box, text]) => ({
      text: text!, page: index, x: number(box!, 'xMin'), right: number(box!, 'xMax'), y: number(box!, 'yMin'), bottom: number(box!, 'yMax'),
    }))),
  }
}

// Written by hand from the sizes in the names of the sheets; the fifth place is the first that is free.
const SHEETS = [
  { key: 'a4-3x8', paper: [210, 297], columns: 3, first: [70, 37.5], label: [70, 37], across: 70, down: 37 },
  { key: 'a4-2x7', paper: [210, 297], columns: 2, first: [4.65, 91.35], label: [99.1, 38.1], across: 101.6, down: 38.1 },
  { key: 'letter-3x10', paper: [215.9, 279.4], columns: 3, first: [74.6125, 38.1], label: [66.675, 25.4], across: 69.85, down: 25.4 },
  { key: 'a4-plain', paper: [210, 297], columns: 2, first: [15, 103.5], label: [90, 45], across: 90, down: 45 },
  { key: 'letter-plain', paper: [215.9, 279.4], columns: 2, first: [19.05, 114.3], label: [88.9, 50.8], across: 88.9, down: 50.8 },
] as const

type Near = (found: number, wanted: number, words: string) => void

function check(t: { ok(value: unknown, words: string): void }, near: Near, name: string, sheet: typeof SHEETS[number], data: Buffer): void {
  const { words, pages } = readPdf(data)
  near(pages[0]![0], sheet.paper[0], `${name}: width of the paper`)
  near(pages[0]![1], sheet.paper[1], `${name}: height of the paper`)
  const numbers = words.filter(({ text }) => /^A-\d{3}$/.test(text)).sort((a, b) => a.text.localeCompare(b.text))
  t.ok(numbers.length >= 6, `${name}: ${numbers.length} labels`)
  const [one, two] = numbers
  const place = (index: number): readonly [row: number, column: number] => [Math.floor((4 + index) / sheet.columns), (4 + index) % sheet.columns]
  const cornerOf = (index: number): readonly [number, number] => {
    const [[row, column], [firstRow, firstColumn]] = [place(index), place(0)]
    return [sheet.first[0] + (column - firstColumn) * sheet.across, sheet.first[1] + (row - firstRow) * sheet.down]
  }
  const onFirst = numbers.filter(({ page }) => page === 0)
  onFirst.forEach((word, index) => {
    const [x, y] = cornerOf(index)
    near(word.x - x, one!.x - sheet.first[0], `${name}: ${word.text} stands across as far in its label as the first`)
    t.ok(word.y > y && word.bottom < y + sheet.label[1] && word.x > x && word.right < x + sheet.label[0], `${name}: ${word.text} lies in its label`)
  })
  t.ok(two, name)
  const under = onFirst.find((_, index) => index > 0 && place(index)[1] === place(0)[1])
  if (name.endsWith('PDF')) near(under!.y - one!.y, sheet.down * (place(onFirst.indexOf(under!))[0] - place(0)[0]), `${name}: rows are ${sheet.down} mm apart`)
  // Every word of a label, names and vehicle too, stays inside one.
  const inside = (word: Word): boolean => onFirst.some((_, index) => {
    const [x, y] = cornerOf(index)
    return word.x >= x && word.right <= x + sheet.label[0] && word.y >= y - 0.1 && word.bottom <= y + sheet.label[1] + 0.1
  })
  const astray = words.filter((word) => word.page === 0 && !inside(word)).map(({ text, x, y }) => `${text} at ${x.toFixed(1)}, ${y.toFixed(1)}`)
  t.ok(astray.length === 0, `${name}: ${astray.join('; ') || 'nothing runs over an edge'}`)
}

t.test('printed at 100 %, every label lies on its millimeter, on the page and in the PDF alike', { skip: missing ?? false, timeout: 150_000 }, async (t) => {
  const demo = await serveDemo()
  const browser = await launch()
  t.teardown(async () => {
    await browser.close()
    await demo.close()
  })
  const near: Near = (found, wanted, words) => t.ok(Math.abs(found - wanted) < 0.15, `${words}: ${found.toFixed(2)} mm, wanted ${wanted}`)
  const { id } = await demo.database.reads.build.findFirstOrThrow({ where: { kind: 'show build' } })
  const page = await (await openWindow(browser, DESK)).newPage()
  await signInAs(page, demo.address, 'n.corvane', 'put-it-back')
  for (const sheet of SHEETS) {
    const address = `${demo.address}/builds/${id}/labels`
    const query = `what=bins&sheet=${sheet.key}&start=5`
    await page.goto(`${address}?${query}`, { waitUntil: 'networkidle' })
    check(t, near, `${sheet.key}, printed`, sheet, await page.pdf({ preferCSSPageSize: true, printBackground: true }))
    const made = await page.context().request.get(`${address}/pdf?${query}`)
    t.equal(made.headers()['content-type'], 'application/pdf')
    check(t, near, `${sheet.key}, PDF`, sheet, await made.body())
  }
})
