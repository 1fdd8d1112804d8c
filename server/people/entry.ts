import type { FastifyReply, FastifyRequest } from 'fastify'
import { at } from '../../web/shared/asset.ts'
import type { Theme, Viewer } from '../../web/shared/viewer.ts'
import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { closeSessions, LONGEST_SESSION_MS, openSession, SESSION_COOKIE } from '../shared/session.ts'
import type { Shell } from '../shared/shell.ts'

const THEME_COOKIE = 'putback-theme'
const YEAR_S = 365 * 24 * 3600

/** Where a person begins. */
export const startOf = (viewer: Pick<Viewer, 'role'>): string => (viewer.role === 'technician' ? '/now' : '/builds')

/** An address of our own to go on to, or null: never one that a browser would take to another site. */
export function localPath(to: string | undefined): string | null {
  if (!to || !/^\/(?![/\\])[^\\\u0000-\u0020\u007f]*$/.test(to)) return null
  return /^\/(sign-in|sign-out|first-owner|new-password)\b/.test(to) ? null : to
}

/** Opens a session under a secret that did not exist before; one that this browser had is ended. */
export async function beginSession(write: Write, request: FastifyRequest, shell: Shell, personId: string): Promise<string> {
  if (request.holder?.by === 'session') await closeSessions(write, { id: request.holder.sessionId })
  return openSession(write, personId, shell.clock(), themeOf(request))
}

export function giveCookie(reply: FastifyReply, { config }: Shell, secret: string): void {
  reply.setCookie(SESSION_COOKIE(config.isSecure), secret, {
    path: '/', httpOnly: true, sameSite: 'lax', secure: config.isSecure, maxAge: LONGEST_SESSION_MS / 1000,
  })
}

export function takeCookie(reply: FastifyReply, { config }: Shell): void {
  reply.clearCookie(SESSION_COOKIE(config.isSecure), { path: '/', httpOnly: true, sameSite: 'lax', secure: config.isSecure })
}

// A screen in the sun and one in the office differ, so the choice stays with the browser.
export function keepTheme(reply: FastifyReply, { config }: Shell, theme: Theme): void {
  reply.setCookie(THEME_COOKIE, theme, { path: '/', httpOnly: true, sameSite: 'lax', secure: config.isSecure, maxAge: YEAR_S })
}

function themeOf(request: FastifyRequest): Theme {
  const kept = request.cookies[THEME_COOKIE]
  return kept === 'light' || kept === 'dark' ? kept : 'system'
}

export const goTo = (reply: FastifyReply, path: string): FastifyReply => reply.redirect(at(path), 303)

/** Of somebody who acts without being signed in yet. */
export function actorBefore(request: FastifyRequest, shell: Shell, person: { readonly id: string; readonly name: string }): Actor {
  return { personId: person.id, personName: person.name, requestId: request.id, now: shell.clock() }
}
