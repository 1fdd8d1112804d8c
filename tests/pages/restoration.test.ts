import t from 'tap'
import { RemovalPage } from '../../web/restoration/removal.tsx'
import { RestorationPage } from '../../web/restoration/restoration.tsx'
import { ReturnToStockPage } from '../../web/restoration/returnToStock.tsx'
import { toHtml } from '../../web/shared/page.ts'
import { removal } from './samples/removal.ts'
import { restoration } from './samples/restoration.ts'
import { returnToStock } from './samples/returnToStock.ts'
import { manager, technician } from './samples/viewer.ts'

const wordsOf = (page: JSX.Element): string => toHtml(page).replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ')

t.test('who may not see money finds no price on the sheet, nor a note that one could be worked out from', async t => {
  const line = { name: 'M8 × 25 bolt', count: 4, priceMinor: 123_45, leadDays: 0, reason: 'single-use' as const, forNumbers: ['F-011'], from: [] }
  const data = { ...returnToStock, verdict: { ...returnToStock.verdict, partsToBuy: [line] } }
  t.match(wordsOf(ReturnToStockPage({ viewer: manager, data: { ...data, showsMoney: true } })), /493\.80/, 'four at 123.45')
  const without = wordsOf(ReturnToStockPage({ viewer: technician, data: { ...data, showsMoney: false } }))
  t.notMatch(without, /493\.80|123\.45|Cost of the restoration/)
  t.match(without, /M8 × 25 bolt F-011 single-use 4/, 'but what to buy, and how many')
})

t.test('a clip that forty parts need names a few of them and counts the rest', async t => {
  const forNumbers = Array.from({ length: 40 }, (_, index) => `F-${String(index + 11).padStart(3, '0')}`)
  const line = { name: 'clip', count: 49, priceMinor: null, leadDays: 0, reason: 'breaks' as const, forNumbers, from: [] }
  const page = wordsOf(ReturnToStockPage({ viewer: technician, data: { ...returnToStock, showsMoney: false, verdict: { ...returnToStock.verdict, partsToBuy: [line] } } }))
  t.match(page, /F-016 and 34 more/)
})

t.test('many bins are all on the sheet, each with what lies in it', async t => {
  const places = Array.from({ length: 14 }, (_, index) => ({ place: `bin A-0${index + 10}, rack C`, holds: `F-${index + 100}` }))
  const page = wordsOf(ReturnToStockPage({ viewer: technician, data: { ...returnToStock, whereabouts: { ...returnToStock.whereabouts, places } } }))
  for (const { place, holds } of places) t.match(page, new RegExp(`${place} : ${holds}`))
})

t.test('hundreds of steps stay on the sheet; the page says how many there are', async t => {
  const { result } = restoration
  if (!result) throw new Error('the sample has a result')
  const [step] = result.checklist.steps
  if (!step) throw new Error('the sample has steps')
  const steps = Array.from({ length: 300 }, (_, index) => ({ ...step, number: index + 1, text: `Step of many ${index + 1}.` }))
  const page = wordsOf(RestorationPage({ viewer: manager, data: { ...restoration, result: { ...result, checklist: { ...result.checklist, steps } } } }))
  t.match(page, /300 steps: they stand on the sheet/)
  t.notMatch(page, /Step of many/)
})

t.test('what is not settled stands above what can come out next', async t => {
  const page = wordsOf(RemovalPage({ viewer: technician, data: { ...removal, open: ['F-020 Grille is out, and no bin or place is recorded for it.'] } }))
  t.ok(page.indexOf('no bin or place') > 0 && page.indexOf('no bin or place') < page.indexOf('Next to come out'))
})
