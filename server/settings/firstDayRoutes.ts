import { randomUUID } from 'node:crypto'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { UsualDepartmentsPage } from '../../web/settings/usualDepartments.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import type { Body } from '../shared/records/submission.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { FIRST_DAY_COOKIE } from './firstDay.ts'
import { addDepartments, departmentRows, readDepartments } from './usualDepartments.ts'

const YEAR_S = 365 * 24 * 3600
const config = { roles: MANAGERS }

/** Departments all in one form, and the putting away of the first steps. */
export function registerFirstDay(app: App, shell: Shell): void {
  app.get('/departments/usual', { config, schema: { hide: true } }, async (request, reply) => show(request, reply, null, []))

  app.post('/departments/usual', { config, schema: { hide: true } }, async (request, reply) => {
    const body = (request.body ?? {}) as Body
    const viewer = viewerOn(request)
    try {
      const entered = readDepartments(body, viewer)
      await answerOnce(shell.database, askedOf(request), async (write) => {
        await addDepartments(write, entered, viewer, actorOf(request, shell))
        return { status: 303, location: '/settings' }
      })
      return await reply.redirect('/settings', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return show(request, reply.status(422), body, error.fields)
    }
  })

  app.post('/settings/first-steps', {
    config, schema: { hide: true, body: z.looseObject({ show: z.enum(['yes', 'no']), from: z.enum(['/settings', '/builds']).catch('/settings') }) },
  }, async (request, reply) => {
    const { show: isShown, from } = request.body
    reply.setCookie(FIRST_DAY_COOKIE, isShown, { path: '/', httpOnly: true, sameSite: 'lax', secure: shell.config.isSecure, maxAge: YEAR_S })
    return reply.redirect(from, 303)
  })
}

function show(request: FastifyRequest, reply: FastifyReply, typed: Body | null, problems: readonly FieldProblem[]): FastifyReply {
  const key = typeof typed?._key === 'string' ? typed._key : randomUUID()
  return sendPage(reply, UsualDepartmentsPage({ viewer: viewerOn(request), data: { rows: departmentRows(typed), problems, key } }))
}
