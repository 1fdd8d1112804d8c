import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { DEMO_PASSWORD } from '../../server/people/passwords.ts'
import { browserMissing, DESK, launch, openWindow, PHONE, signInAs, TABLET } from '../support/browser.ts'
import { demoSignIns, listDemoPages } from '../support/demoPages.ts'
import { serveDemo } from '../support/servedDemo.ts'

// npm run pictures [-- NAME …]: every page of the demo, both themes, three widths.
const missing = browserMissing()
if (missing) {
  console.error(missing)
  process.exit(1)
}
const folder = join('.data', 'pictures')
mkdirSync(folder, { recursive: true })
const wanted = process.argv.slice(2)
const demo = await serveDemo()
const browser = await launch()
const pages = (await listDemoPages(demo.database)).filter((page) => wanted.length === 0 || wanted.includes(page.name))
const signIns = await demoSignIns(demo.database)
let failures = 0

for (const theme of ['light', 'dark'] as const) {
  for (const screen of [PHONE, TABLET, DESK]) {
    for (const role of new Set(pages.map((page) => page.role))) {
      const window = await openWindow(browser, { ...screen, theme })
      const page = await window.newPage()
      if (role !== 'nobody') await signInAs(page, demo.address, signIns[role], DEMO_PASSWORD)
      for (const { name, path } of pages.filter((one) => one.role === role)) {
        const answer = await page.goto(demo.address + path)
        const file = join(folder, `${name}-${screen.width}-${theme}.png`)
        await page.screenshot({ path: file, fullPage: true })
        if (answer?.status() !== 200 && name !== 'not-here') {
          failures += 1
          console.error(`${path} answered ${answer?.status()}`)
        }
      }
      await window.close()
    }
  }
}
await browser.close()
await demo.close()
console.log(`${pages.length} pages drawn into ${folder}`)
process.exit(failures === 0 ? 0 : 1)
