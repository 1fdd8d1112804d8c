import { cpSync, mkdirSync, writeFileSync } from 'node:fs'
import { toHtml } from '../../web/shared/page.ts'
import { listPages } from './pages.tsx'

/** Draws every page with its sample into a folder, for looking at: npx tsx tests/pages/draw.tsx /tmp/look */
const folder = process.argv[2] ?? '/tmp/look'
mkdirSync(folder, { recursive: true })
cpSync(new URL('../../web/assets', import.meta.url), `${folder}/assets`, { recursive: true })
for (const [name, page] of listPages()) {
  const html = toHtml(page)
  writeFileSync(`${folder}/${name}.html`, html)
  console.log(`${name} ${Math.round(Buffer.byteLength(html) / 1000)} kB`)
}
