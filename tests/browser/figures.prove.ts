import t from 'tap'
import type { Page } from 'playwright-core'
import { DEMO_PASSWORD } from '../../server/people/passwords.ts'
import { accessibilityFaults } from '../support/axe.ts'
import { browserMissing, DESK, launch, openWindow, PHONE, signInAs } from '../support/browser.ts'
import { demoSignIns } from '../support/demoPages.ts'
import { serveDemo } from '../support/servedDemo.ts'

t.test('a figure in a row opens in place with the script, and on a page of its own without it', { skip: browserMissing() ?? false, timeout: 240_000 }, async (test) => {
  const demo = await serveDemo()
  const browser = await launch()
  test.teardown(async () => {
    await browser.close()
    await demo.close()
  })
  const { id } = await demo.database.reads.build.findFirstOrThrow({ where: { kind: 'show build' } })
  const { manager } = await demoSignIns(demo.database)
  const ledger = `${demo.address}/builds/${id}`
  const focusIsOn = (page: Page, href: string): Promise<boolean> => page.evaluate(`document.activeElement.getAttribute('href') === '${href}'`)

  for (const screen of [DESK, PHONE]) {
    const window = await openWindow(browser, screen, true)
    const page = await window.newPage()
    await signInAs(page, demo.address, manager, DEMO_PASSWORD)
    await page.goto(ledger)
    const figure = page.locator('.zone-table a[href="?how=z4e"]')
    const text = await figure.innerText()
    test.equal(await figure.getAttribute('aria-expanded'), 'false', 'it says that it opens')
    await figure.focus()
    await page.keyboard.press('Enter')
    const sheet = page.locator('tr.opened .sum')
    await sheet.waitFor()
    test.equal(page.url(), ledger, 'the page stays')
    test.equal(await figure.getAttribute('aria-expanded'), 'true')
    test.ok(await focusIsOn(page, '?how=z4e'), 'the focus stays on the figure')
    test.match(await sheet.innerText(), /formula\s+sum of person-hours/i)
    test.match(await sheet.locator('tr.total .figure').innerText(), new RegExp(`(^|rounded )${text} h$`), 'it ends in the figure that was pressed')
    test.same(await accessibilityFaults(page), [], 'opened, the page is as accessible as before')
    const over = await page.evaluate<number>('document.documentElement.scrollWidth - document.documentElement.clientWidth')
    test.ok(over <= 0, `nothing scrolls sideways (${over} px over)`)
    await page.keyboard.press('Escape')
    test.equal(await page.locator('.opened').count(), 0, 'Escape closes it')
    test.ok(await focusIsOn(page, '?how=z4e'))

    await page.locator('#zone-4 header a[href="?how=z4f"]').click()
    await page.locator('#zone-4 .opened .sum').waitFor()
    await page.locator('#zone-4 header a[href="?how=z4f"]').click()
    test.equal(await page.locator('.opened').count(), 0, 'a second press closes it')

    await page.route('**/*how=*', (route) => route.request().resourceType() === 'fetch' ? route.abort() : route.continue())
    await figure.click()
    await page.waitForURL('**/*?how=z4e')
    test.ok(await page.locator('main .sum').isVisible(), 'where the answer in place fails, the link is followed')
    await window.close()
  }

  const plain = await browser.newContext({ javaScriptEnabled: false })
  const page = await plain.newPage()
  await signInAs(page, demo.address, manager, DEMO_PASSWORD)
  await page.goto(ledger)
  await page.locator('#zone-4 header a[href="?how=z4e"]').click()
  test.equal(await page.locator('h1').innerText(), (await page.locator('tr.total th').innerText()).toUpperCase())
  await page.getByRole('link', { name: /^Back to/ }).click()
  test.equal(page.url(), ledger, 'without the script it leads there and back')
})
