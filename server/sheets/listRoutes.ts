import { MarkListPage, SheetListPage } from '../../web/sheets/list.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { countDone, inOrder } from '../calc/restoration/sheetProgress.ts'
import { shopOf, viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { nameOf } from '../shared/records/display.ts'
import { getKind, numbered } from '../shared/records/kind.ts'
import { idParams } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { trailOf } from './pageData.ts'
import { progressOf } from './progress.ts'
import { getSheet, listMarks, listSheets } from './store.ts'

const MOST_SHOWN = 300

/** The sheets of a build, and the marks of a sheet. */
export function registerSheetLists(app: App, shell: Shell): void {
  const { reads } = shell.database
  const seen = { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams } } as const

  app.get('/builds/:id/restorations', seen, async (request, reply) => {
    const { id } = request.params
    const build = getKind('build')
    const row = await getRecord(reads, build, id)
    const { timeZone } = await shopOf(reads)
    const sheets = await Promise.all((await listSheets(reads, id)).map(async (facts) => {
      const progress = progressOf((await getSheet(reads, facts.id)).content, await listMarks(reads, facts.id))
      return {
        href: `/restorations/${facts.id}`, number: facts.number, title: facts.title, frozen: writeDay(calendarDateIn(timeZone, facts.createdAt)),
        done: `${countDone(progress)} of ${progress.length}`, state: facts.closedOn === null ? 'open' : `closed: ${facts.outcome}`,
      }
    }))
    const data = { trail: [{ name: nameOf(build, row), href: `/builds/${id}` }, { name: 'Sheets' }], number: numbered(build, row), restoreHref: `/builds/${id}/restoration`, sheets }
    return sendPage(reply, SheetListPage({ viewer: viewerOn(request), data }))
  })

  app.get('/restorations/:id/history', seen, async (request, reply) => {
    const sheet = await getSheet(reads, request.params.id)
    const [marks, { timeZone }] = await Promise.all([listMarks(reads, sheet.id), shopOf(reads)])
    const shown = inOrder(marks).slice(-MOST_SHOWN)
    const data = {
      trail: [...trailOf(sheet).slice(0, -1), { name: sheet.number, href: `/restorations/${sheet.id}` }, { name: 'Marks' }], number: sheet.number, isCut: shown.length < marks.length,
      marks: shown.map(({ step, kind, text, signedName, who, atMs }) => ({
        step, what: kind, words: [signedName, text].filter((words) => words !== '').join(': '), who,
        when: `${writeDay(calendarDateIn(timeZone, new Date(atMs)))} ${clockTimeIn(timeZone, new Date(atMs))}`,
        isLate: sheet.closedOn !== null && calendarDateIn(timeZone, new Date(atMs)) > sheet.closedOn,
      })),
    }
    return sendPage(reply, MarkListPage({ viewer: viewerOn(request), data }))
  })
}
