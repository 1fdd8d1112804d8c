import t from 'tap'
import { DEMO_PASSWORD } from '../../server/people/passwords.ts'
import { accessibilityFaults } from '../support/axe.ts'
import { browserMissing, launch, openWindow, PHONE, signInAs } from '../support/browser.ts'
import { demoSignIns, listDemoPages } from '../support/demoPages.ts'
import { serveDemo } from '../support/servedDemo.ts'

const LARGEST_PAGE = 100_000
const NARROWEST = { width: 320, height: 700 }

t.test('every page of the demo is accessible in both themes, fits 320 px and weighs at most 100 kB', { skip: browserMissing() ?? false, timeout: 600_000 }, async (test) => {
  const demo = await serveDemo()
  const browser = await launch()
  test.teardown(async () => {
    await browser.close()
    await demo.close()
  })
  const pages = await listDemoPages(demo.database)
  const signIns = await demoSignIns(demo.database)
  for (const theme of ['light', 'dark'] as const) {
    for (const role of new Set(pages.map((page) => page.role))) {
      const window = await openWindow(browser, { ...(theme === 'light' ? PHONE : { width: 1440, height: 900 }), theme }, true)
      const page = await window.newPage()
      if (role !== 'nobody') await signInAs(page, demo.address, signIns[role], DEMO_PASSWORD)
      for (const { name, path } of pages.filter((one) => one.role === role)) {
        const answer = await page.goto(demo.address + path)
        test.equal(answer?.status(), ['not-here', 'link-gone'].includes(name) ? 404 : 200, `${name} answers`)
        test.same(await accessibilityFaults(page), [], `${name}, ${theme}: accessible`)
        const { length } = await answer?.body() ?? Buffer.alloc(0)
        test.ok(length <= LARGEST_PAGE, `${name} weighs ${Math.round(length / 1000)} kB`)
        if (theme === 'light') {
          await page.setViewportSize(NARROWEST)
          const over = await page.evaluate<number>('document.documentElement.scrollWidth - document.documentElement.clientWidth')
          test.ok(over <= 0, `${name} does not scroll sideways at 320 px (${over} px over)`)
          await page.setViewportSize(PHONE)
          const filled = await page.evaluate<string[]>("[...document.querySelectorAll('.plan svg .body')].map((line) => getComputedStyle(line).fill).filter((fill) => fill !== 'none')")
          test.same(filled, [], `${name}: the vehicle is an outline, on a phone too`)
        }
      }
      await window.close()
    }
  }
})
