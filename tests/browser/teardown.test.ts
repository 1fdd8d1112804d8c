import t from 'tap'
import { hashPassword } from '../../server/people/passwords.ts'
import { aBuild } from '../support/aBuild.ts'
import { accessibilityFaults } from '../support/axe.ts'
import { browserMissing, launch, openWindow, signInAs, tooSmall } from '../support/browser.ts'
import { chanceFrom } from '../support/chance.ts'
import { largePhonePicture, phonePicture } from '../support/pictures.ts'
import { openShop, type Json } from '../support/shop.ts'

const PASSWORD = 'grain along the sheet'
const HAND = { width: 360, height: 740 }
const missing = browserMissing()

// As a tradesman takes out a front door and the trim behind it: what stands in front of what.
const PARTS = ['Handle cap', 'Window switch', 'Door panel', 'Vapor barrier', 'Door speaker', 'Sill trim', 'Kick panel', 'Pillar trim'] as const
const IN_FRONT = [[0, 2], [1, 2], [2, 3], [3, 4], [5, 6], [6, 7]] as const

t.test('on a phone whose network is cut at random eight parts come out, each recorded once with its photo and its bin', { skip: missing ?? false, timeout: 160_000 }, async (t) => {
  const shop = await openShop(t)
  const { build, zone } = await aBuild(shop)
  const { api } = shop.as('technician')
  const parts: (Json & { id: string })[] = []
  for (const name of PARTS) parts.push(await api.create('/api/factory-parts', { buildId: build.id, zoneId: zone.id, name, takeOut: '3 min' }))
  for (const [before, after] of IN_FRONT) await api.create('/api/order-edges', { buildId: build.id, graph: 'as found', beforeId: parts[before]!.id, afterId: parts[after]!.id })
  const passwordHash = await hashPassword(PASSWORD)
  await shop.database.write((write) => write.person.updateMany({ data: { passwordHash } }))
  const address = await shop.app.listen({ host: '127.0.0.1', port: 0 })
  const browser = await launch()
  t.teardown(() => browser.close())
  const context = await openWindow(browser, HAND, true)
  const page = await context.newPage()
  const broken: string[] = []
  page.on('pageerror', (error) => broken.push(error.message))
  await signInAs(page, address, 'test.technician', PASSWORD)

  const teardown = `${address}/builds/${build.id}/teardown`
  await page.goto(teardown)
  t.same(await accessibilityFaults(page), [])
  t.same(await tooSmall(page), [], 'nothing to tap is under 44 px')
  t.equal(await page.evaluate('document.documentElement.scrollWidth'), HAND.width, 'nothing is wider than the hand')

  const chance = chanceFrom(360740)
  const fates = { lost: 0, unheard: 0, through: 0 }
  let isSound = false
  await page.route(/\/api\//, async (route) => {
    const fate = isSound ? 1 : chance()
    if (fate < 0.3) {
      fates.lost += 1
      return route.abort('internetdisconnected')
    }
    // It reaches the shop, and the phone never hears of it.
    if (fate < 0.6) {
      fates.unheard += 1
      await route.fetch().catch(() => undefined)
      return route.abort('connectionreset')
    }
    fates.through += 1
    return route.continue().catch(() => undefined)
  })

  for (let index = 0; index < PARTS.length; index += 1) {
    await context.setOffline(chance() < 0.4)
    const name = await page.locator('[data-name]').first().textContent()
    await page.locator('.from-gallery input').setInputFiles({ name: 'a.jpg', mimeType: 'image/jpeg', buffer: await phonePicture(30 + index * 25) })
    await page.getByText(/^Taken/).waitFor()
    if (index === 0) {
      await page.getByLabel('Number').fill('12')
      await page.getByRole('button', { name: 'Into the new bin' }).tap()
    } else await page.getByRole('button', { name: 'Into A-012' }).tap({ timeout: 10_000 })
    if (index < PARTS.length - 1) await page.waitForFunction(`document.querySelector('[data-name]')?.textContent !== ${JSON.stringify(name)}`)
    await page.waitForTimeout(850)
    if (index === 4) {
      // The page is closed and opened again while pieces still wait.
      await context.setOffline(false)
      await page.reload()
      await page.locator('[data-name]').first().waitFor()
    }
  }
  t.ok(fates.lost > 2 && fates.unheard > 2, JSON.stringify(fates))
  isSound = true
  await context.setOffline(false)
  await page.goto(teardown)
  const queue = page.locator('[data-queue-box]')
  if (await queue.isVisible()) await page.getByRole('button', { name: 'Try now' }).click({ timeout: 2000 }).catch(() => undefined)
  await queue.waitFor({ state: 'hidden' })
  await page.getByText('All of it is out, loose or stays').waitFor()

  const { reads } = shop.database
  const removals = await reads.removal.findMany({ where: { buildId: build.id, removedAt: null }, include: { bin: true } })
  t.equal(removals.length, PARTS.length)
  for (const part of parts) {
    const own = removals.filter(({ factoryPartId }) => factoryPartId === part.id)
    t.same(own.map(({ kind, bin }) => [kind, bin?.number]), [['came out', 12]], `${String(part.name)} is recorded once, with its bin`)
    t.equal(await reads.photo.count({ where: { subjectKind: 'factory part', subjectId: part.id, moment: 'during' } }), 1, `${String(part.name)} has its one photo`)
    t.equal((await reads.factoryPart.findUniqueOrThrow({ where: { id: part.id } })).state, 'out and stored')
  }
  t.equal(await reads.bin.count(), 1)
  t.equal(new Set((await reads.photo.findMany()).map(({ hash }) => hash)).size, PARTS.length, 'and no picture went to another part')
  t.same(broken, [], 'no script failed')
})

t.test('what was put down without a network is taken back before it is sent, and pictures of a record come one by one', { skip: missing ?? false, timeout: 120_000 }, async (t) => {
  const shop = await openShop(t)
  const { build, zone } = await aBuild(shop)
  const { api } = shop.as('technician')
  const part = await api.create('/api/factory-parts', { buildId: build.id, zoneId: zone.id, name: 'Glovebox' })
  await api.create('/api/factory-parts', { buildId: build.id, zoneId: zone.id, name: 'Console' })
  await api.create('/api/bins', { buildId: build.id, place: 'rack C' })
  const passwordHash = await hashPassword(PASSWORD)
  await shop.database.write((write) => write.person.updateMany({ data: { passwordHash } }))
  const address = await shop.app.listen({ host: '127.0.0.1', port: 0 })
  const browser = await launch()
  t.teardown(() => browser.close())
  const context = await openWindow(browser, HAND, true)
  const page = await context.newPage()
  await signInAs(page, address, 'test.technician', PASSWORD)
  await page.goto(`${address}/builds/${build.id}/teardown`)
  await context.setOffline(true)
  await page.getByRole('button', { name: 'Into A-001' }).tap()
  await page.getByRole('button', { name: 'Into A-001' }).tap()
  await page.getByText('On this phone, not sent yet').waitFor()
  t.equal(await page.locator('[data-queue] li').count(), 1, 'a second tap meant for the same part is none for the next')
  await page.locator('#last').getByRole('button', { name: 'Undo' }).click()
  await page.locator('[data-name]', { hasText: 'Glovebox' }).waitFor()
  await context.setOffline(false)
  await page.locator('[data-queue-box]').waitFor({ state: 'hidden' })
  t.equal(await shop.database.reads.removal.count(), 0)

  await page.waitForTimeout(850)
  await page.getByRole('button', { name: 'Into A-001' }).tap()
  await page.locator('[data-name]', { hasText: 'Console' }).waitFor()
  await page.locator('#last form').getByRole('button', { name: /Undo/ }).click()
  await page.waitForURL(/said=undone/)
  t.equal((await shop.database.reads.factoryPart.findUniqueOrThrow({ where: { id: part.id } })).state, 'fitted', 'what has arrived is taken back too')

  const asked = String(await page.locator('#answer input[name=factoryPartId]').inputValue())
  await page.getByText('Broken or altered').click()
  await page.getByRole('button', { name: /It was altered/ }).click()
  await page.waitForURL(/\/alterations\/new/)
  t.equal(await page.locator('[name=factoryPartId]').inputValue(), asked, 'what was done to it is asked at once')

  await page.goto(`${address}/factory-parts/${part.id}`)
  let cut = 2
  await page.route(/\/api\/photos$/, (route) => ((cut -= 1) >= 0 ? route.abort('connectionreset') : route.continue()))
  const files = await Promise.all([20, 90, 160, 230].map(async (shade, index) => ({ name: `p${index}.jpg`, mimeType: 'image/jpeg', buffer: await phonePicture(shade) })))
  await page.getByLabel(/Add photos of/).setInputFiles([...files, { name: 'words.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture') }])
  await page.locator('select[name=moment]').selectOption('after')
  await page.getByRole('button', { name: 'Add photos', exact: true }).click()
  await page.getByText(/words\.jpg is no picture/).waitFor()
  t.equal(await page.locator('.photo-list img').count(), 4, 'each has appeared, the bad one is named')
  t.same((await shop.database.reads.photo.findMany()).map(({ moment }) => moment), ['after', 'after', 'after', 'after'])
  await page.reload()
  await page.getByText(/words\.jpg is no picture/).waitFor()
  await page.getByRole('button', { name: 'Let it go' }).click()
  await page.locator('[data-queue] li').waitFor({ state: 'detached' })

  // As phones take them: 12 million pixels, lying on its side. The second broke off half way.
  const large = await largePhonePicture()
  const sent: number[] = []
  page.on('requestfinished', (request) => {
    if (request.url().endsWith('/api/photos')) void request.sizes().then(({ requestBodySize }) => sent.push(requestBodySize))
  })
  await page.getByLabel(/Add photos of/).setInputFiles([
    { name: 'large.jpg', mimeType: 'image/jpeg', buffer: large }, { name: 'half.jpg', mimeType: 'image/jpeg', buffer: large.subarray(0, large.length / 2) },
  ])
  await page.getByRole('button', { name: 'Add photos', exact: true }).click()
  await page.getByText(/half\.jpg is damaged or broke off/).waitFor()
  t.equal(await page.locator('.photo-list img').count(), 5)
  t.ok(large.length > 3_000_000, `${large.length} bytes were taken`)
  t.ok(sent[0]! < large.length / 2, `${sent[0]} bytes were sent`)
  t.match(await shop.database.reads.photo.findFirst({ orderBy: { createdAt: 'desc' } }), { width: 1500, height: 2000 }, 'upright, and as large as the shop keeps them')
  await page.getByRole('button', { name: 'Let it go' }).click()
  t.same(await accessibilityFaults(page), [])
})
