import t from 'tap'
import { hashPassword } from '../../server/people/passwords.ts'
import { aDoor, buildDoor } from '../support/aDoor.ts'
import { accessibilityFaults } from '../support/axe.ts'
import { browserMissing, launch, openWindow, PHONE, signInAs } from '../support/browser.ts'
import { openShop } from '../support/shop.ts'

const PASSWORD = 'grain along the sheet'
const missing = browserMissing()

t.test('on a phone without a network ticks are kept, said to be unsent, and sent once when it is back; another phone sees them', { skip: missing ?? false, timeout: 170_000 }, async (t) => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await buildDoor(shop, door)
  const passwordHash = await hashPassword(PASSWORD)
  await shop.database.write((write) => write.person.updateMany({ data: { passwordHash } }))
  const { id, steps } = (await shop.as('manager').api.post(`/api/builds/${door.build.id}/restorations`, {})).json<{ id: string, steps: { key: string, phase: string, itemNumber: string }[] }>()
  const address = await shop.app.listen({ host: '127.0.0.1', port: 0 })
  const browser = await launch()
  t.teardown(() => browser.close())
  const window = await openWindow(browser, PHONE, true)
  const page = await window.newPage()
  await signInAs(page, address, 'test.technician', PASSWORD)
  await page.goto(`${address}/restorations/${id}?part=2`)
  t.same(await accessibilityFaults(page), [])
  t.equal(await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth'), 0)
  const { reads } = shop.database
  const step = (key: string) => page.locator(`[data-step="${key}"]`)
  const tick = (key: string) => step(key).locator('.put').click()

  await tick('2')
  await step('2').getByText('Not ticked yet: step 1 should be done first').waitFor()
  t.equal(await reads.sheetMark.count(), 0, 'a step that waits for another is not ticked by one press')
  await step('2').getByLabel('In words').fill('read aloud yesterday')
  await tick('2')
  await step('2').getByText('done: Test technician').waitFor()
  t.match(await reads.sheetMark.findFirst(), { step: '2', kind: 'done', text: 'read aloud yesterday' })

  await window.setOffline(true)
  await tick('3')
  if (await step('3').locator('.mend').isVisible()) await tick('3')
  await step('3').getByText('done; not yet sent').waitFor()
  await page.getByText('1 mark is not yet sent').waitFor()
  await tick('2')
  await page.getByText('2 marks are not yet sent').waitFor()
  t.equal(await reads.sheetMark.count(), 1, 'the shop knows nothing of them yet')
  await window.setOffline(false)
  await step('3').getByText('done: Test technician').waitFor()
  await page.locator('[data-unsent]').waitFor({ state: 'hidden' })
  const marks = await reads.sheetMark.findMany({ orderBy: { at: 'asc' } })
  t.same(marks.map((mark) => [mark.step, mark.kind]), [['2', 'done'], ['3', 'done'], ['2', 'not done']], 'each is there once, in the order of the hand')

  const speaker = steps.find(({ phase, itemNumber }) => phase === 'reinstall' && itemNumber === 'F-013')!.key
  await page.goto(`${address}/restorations/${id}?step=${speaker}`)
  await step(speaker).getByLabel('Torque applied').fill('9')
  await tick(speaker)
  await step(speaker).getByText('Write the unit of the wrench with it: 9 N·m, 9 lbf·ft or 9 lbf·in.').waitFor()
  await step(speaker).getByLabel('Torque applied').fill('80 lbf·in')
  await tick(speaker)
  await tick(speaker)
  await step(speaker).getByText('done: Test technician').waitFor()
  t.match(await reads.sheetMark.findFirst({ where: { kind: 'torque' } }), { step: `${speaker}.1`, torque: 9039 })

  const other = await (await openWindow(browser, PHONE)).newPage()
  await signInAs(other, address, 'test.manager', PASSWORD)
  await other.goto(`${address}/restorations/${id}?part=2`)
  await other.locator('[data-step="3"]').getByText(/done: Test technician/).waitFor()
  await other.locator('[data-step="2"]').getByText(/not done, taken back: Test technician/).waitFor()

  const sign = steps.find(({ phase }) => phase === 'signature')!.key
  await page.goto(`${address}/restorations/${id}?step=${sign}`)
  await step(sign).getByLabel('Name').fill('S. Penhale')
  const paper = step(sign).locator('[data-sign] svg')
  await paper.scrollIntoViewIfNeeded()
  const box = (await paper.boundingBox())!
  await page.mouse.move(box.x + 20, box.y + 40)
  await page.mouse.down()
  await page.mouse.move(box.x + 90, box.y + 20)
  await page.mouse.up()
  await tick(sign)
  await tick(sign)
  await step(sign).getByText('done: S. Penhale').waitFor()
  t.match((await reads.sheetMark.findFirst({ where: { kind: 'signature' } }))?.signature, /^M\d+ \d+L/)
})
