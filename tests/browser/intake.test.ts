import t from 'tap'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { hashPassword } from '../../server/people/passwords.ts'
import { accessibilityFaults } from '../support/axe.ts'
import { aBuild } from '../support/aBuild.ts'
import { browserMissing, launch, openWindow, PHONE, signInAs } from '../support/browser.ts'
import { CAMERA, phonePicture } from '../support/pictures.ts'
import { openShop } from '../support/shop.ts'

const PASSWORD = 'grain along the sheet'
const missing = browserMissing()

t.test('on a phone a vehicle is taken in: facts, once around it, a scratch with its photo, and the signature', { skip: missing ?? false, timeout: 120_000 }, async (t) => {
  const shop = await openShop(t)
  const { build } = await aBuild(shop)
  const passwordHash = await hashPassword(PASSWORD)
  await shop.database.write((write) => write.person.updateMany({ data: { passwordHash } }))
  const address = await shop.app.listen({ host: '127.0.0.1', port: 0 })
  const browser = await launch()
  t.teardown(() => browser.close())
  const page = await (await openWindow(browser, PHONE, true)).newPage()
  await signInAs(page, address, 'test.technician', PASSWORD)

  const intake = `${address}/builds/${build.id}/intake`
  await page.goto(intake)
  await page.getByLabel('Odometer').fill('41,000 km')
  await page.getByLabel('Fuel or charge').fill('1/2')
  await page.getByLabel('none', { exact: true }).check()
  await page.getByLabel('Keys handed over').fill('2')
  t.same(await accessibilityFaults(page), [])
  await page.getByRole('button', { name: 'Save intake' }).click()
  await page.waitForURL(/saved=/)

  for (const place of await page.locator('#walk input[type=checkbox]').all()) await place.check()
  const outline = page.locator('#walk svg')
  const { width, height } = (await outline.boundingBox())!
  await outline.click({ position: { x: width / 2, y: height / 2 } })
  await page.waitForURL(/marks\/new/)
  await page.getByLabel('What', { exact: true }).selectOption('scratch')
  await page.getByLabel('Size').fill('4 cm')
  await page.locator('input[type=file]').first().setInputFiles({ name: 'scratch.jpg', mimeType: 'image/jpeg', buffer: await phonePicture() })
  t.same(await accessibilityFaults(page), [])
  await page.getByRole('button', { name: 'Save the mark' }).click()
  await page.waitForURL(/\/intake/)
  await page.getByRole('link', { name: 'D-001', exact: true }).waitFor()

  const { x, y } = await shop.database.reads.conditionMark.findFirstOrThrow()
  t.ok(Math.abs(x - 500) < 30 && Math.abs(y - 500) < 30, `the mark is where the outline was tapped: ${x}, ${y}`)
  const { hash } = await shop.database.reads.photo.findFirstOrThrow()
  const stored = readFileSync(join(shop.config.photosDir, hash.slice(0, 2), `${hash}.jpg`))
  t.notOk(stored.includes('Exif') || stored.includes(CAMERA), 'camera and position are gone from the stored picture')

  await page.getByLabel('Name').fill('Odile Quill')
  const paper = page.locator('[data-sign] svg')
  await paper.scrollIntoViewIfNeeded()
  const box = (await paper.boundingBox())!
  await page.mouse.move(box.x + 20, box.y + 40)
  await page.mouse.down()
  await page.mouse.move(box.x + 90, box.y + 20)
  await page.mouse.up()
  await page.getByRole('button', { name: 'Sign how the vehicle came' }).click()
  await page.getByText('Odile Quill').first().waitFor()
  const { signedName, signature } = await shop.database.reads.intake.findFirstOrThrow()
  t.equal(signedName, 'Odile Quill')
  t.match(signature, /^M\d+ \d+L/, 'the drawn signature is kept')
  t.same(await accessibilityFaults(page), [])
})
