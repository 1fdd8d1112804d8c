import t from 'tap'
import { hashPassword } from '../../server/people/passwords.ts'
import { accessibilityFaults } from '../support/axe.ts'
import { aBench } from '../support/aBench.ts'
import { browserMissing, launch, openWindow, PHONE, signInAs, tooSmall } from '../support/browser.ts'

const PASSWORD = 'grain along the sheet'
const missing = browserMissing()

t.test('on a phone a sample is approved, the wrap is started, and the pod is taken over into the next build', { skip: missing ?? false, timeout: 120_000 }, async (t) => {
  const { shop, part, build, mold, sand, operation, technician } = await aBench(t, new Date().toISOString())
  const { create } = shop.as('manager').api
  await operation('wrap')
  const finish = await create('/api/finishes', { buildId: build.id, partId: part.id, kind: 'leather', color: 'tan' })
  for (const { id } of [mold, sand]) await technician.post(`/operations/${id}/states`, { state: 'done' })
  const next = await create('/api/builds', { title: 'The neighbor’s doors', kind: 'everyday build', vehicleId: build.vehicleId })
  const passwordHash = await hashPassword(PASSWORD)
  await shop.database.write((write) => write.person.updateMany({ data: { passwordHash } }))
  const address = await shop.app.listen({ host: '127.0.0.1', port: 0 })
  const browser = await launch()
  t.teardown(() => browser.close())
  const page = await (await openWindow(browser, PHONE, true)).newPage()
  await signInAs(page, address, 'test.manager', PASSWORD)

  await page.goto(`${address}/now`)
  t.equal(await page.getByRole('button', { name: /^(Start|Switch)/ }).count(), 0, 'nothing can be started')
  await page.getByRole('link', { name: 'Open S-001 leather, tan' }).click()
  t.equal(new URL(page.url()).pathname, `/finishes/${finish.id}`)
  await page.getByRole('button', { name: 'The sample was shown' }).click()
  await page.getByLabel('By whom').fill('Imre')
  await page.getByRole('button', { name: 'Write down the decision' }).click()
  await page.getByText('Approved by Imre').first().waitFor()
  t.same(await accessibilityFaults(page), [])
  await page.goto(`${address}/now`)
  await page.getByRole('button', { name: /^Start/ }).click()
  await page.getByRole('heading', { name: /Door pod/ }).waitFor()

  await page.goto(`${address}/builds/${next.id}/templates`)
  await page.getByText('A made part with its pieces').click()
  await page.getByRole('link', { name: 'P-101 Door pod' }).click()
  await page.getByLabel('Quantity P-101').fill('4')
  await page.getByLabel('20 sand').uncheck()
  t.same(await accessibilityFaults(page), [])
  await page.getByRole('button', { name: 'Copy what is ticked' }).click()
  await page.waitForURL(/\/comparison/)
  await page.getByText('fitted straight to the vehicle 2 there, 4 here').waitFor()
  t.same(await accessibilityFaults(page), [])
  const copied = await shop.database.reads.fabricatedPart.findMany({ where: { buildId: next.id }, include: { operations: { orderBy: { number: 'asc' } } } })
  for (const [of, path] of [[next, ''], [build, '/fit'], [build, '/finishes'], [build, '/estimate']] as const) {
    await page.goto(`${address}/builds/${of.id}${path}`)
    t.same(await tooSmall(page), [], `gloves hit every link of the build${path}`)
  }
  t.same(copied.map(({ quantity, operations }) => [quantity, operations.map(({ kind, state }) => [kind, state])]), [[4, [['mold', 'not started'], ['wrap', 'not started']]]])
})
