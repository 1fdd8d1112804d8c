import type { FastifyReply, FastifyRequest } from 'fastify'
import { at } from '../../web/shared/asset.ts'
import type { Role, Viewer } from '../../web/shared/viewer.ts'
import { calendarDateIn } from './shopTime.ts'
import type { Reads } from './database/database.ts'
import { isShared } from './links/address.ts'
import { readFields } from './photos/upload.ts'
import { forbidden, Problem } from './problems.ts'
import { holderOfToken, readSession, SESSION_COOKIE, type Holder } from './session.ts'
import type { App, Shell } from './shell.ts'

declare module 'fastify' {
  interface FastifyRequest {
    viewer: Viewer | null
    holder: Holder | null
  }
  interface FastifyContextConfig {
    /** Who may call a route; 'anyone' needs no sign-in. Every route must say. */
    roles?: readonly Role[] | 'anyone'
  }
}

/** Finds out who asks, and holds every route to the roles it names. */
export function guardAccess(app: App, shell: Shell): void {
  app.decorateRequest('viewer', null)
  app.decorateRequest('holder', null)
  app.addHook('onRoute', (route) => {
    if (route.url.startsWith('/assets/')) route.config = { ...route.config, roles: 'anyone' }
    if (!route.config?.roles) throw new Error(`${String(route.method)} ${route.url} does not say who may call it`)
  })
  app.addHook('onRequest', async (request, reply) => {
    request.holder = await findHolder(request, shell)
    request.viewer = request.holder ? await viewerOf(shell, request.holder) : null
    await admit(request, reply)
  })
  // Before validation, which may leave out of the body what a route does not name.
  app.decorateRequest('upload', null)
  app.addHook('preValidation', async (request) => {
    refuseForeign(request, shell)
    await readFields(request)
    refuseForgery(request)
  })
}

/** The signed-in person. Throws where a route for anyone asks for one. */
export function viewerOn(request: FastifyRequest): Viewer {
  if (!request.viewer) throw new Problem(401, 'Sign in first', 'This needs a signed-in person.')
  return request.viewer
}

export const isApi = (request: FastifyRequest): boolean => request.url.startsWith('/api/')

async function findHolder(request: FastifyRequest, shell: Shell): Promise<Holder | null> {
  // What is shared without sign-in looks the same to everybody and notes nobody’s visit.
  if (isShared(request.url)) return null
  const bearer = /^Bearer (.+)$/.exec(request.headers.authorization ?? '')?.[1]
  if (bearer && isApi(request)) return holderOfToken(shell.database.reads, bearer, shell.clock())
  const cookie = request.cookies[SESSION_COOKIE(shell.config.isSecure)]
  return cookie ? readSession(shell.database, cookie, shell.clock()) : null
}

async function viewerOf(shell: Shell, holder: Holder): Promise<Viewer> {
  const shop = await shopOf(shell.database.reads)
  return {
    personId: holder.personId, name: holder.name, role: holder.role, units: holder.units, theme: holder.theme,
    csrfToken: holder.csrfToken, shopName: shop.name, currency: shop.currency,
    today: calendarDateIn(shop.timeZone, shell.clock()),
  }
}

export async function shopOf(reads: Reads): Promise<{ name: string; currency: string; timeZone: string }> {
  const shop = await reads.shop.findFirst({ select: { name: true, currency: true, timeZone: true } })
  return shop ?? { name: '', currency: 'USD', timeZone: 'UTC' }
}

async function admit(request: FastifyRequest, reply: FastifyReply): Promise<void> {
  const roles = request.routeOptions.config.roles
  if (roles === 'anyone' || request.is404) return
  if (!request.viewer) {
    if (isApi(request) || request.method !== 'GET') {
      throw new Problem(401, 'Sign in first', 'Send a valid access token, or sign in again: the session has ended.')
    }
    await reply.redirect(at(`/sign-in?to=${encodeURIComponent(request.url)}`), 303)
    return
  }
  if (!roles?.includes(request.viewer.role)) {
    request.log.warn({ event: 'refused by role', role: request.viewer.role }, 'refused')
    throw forbidden(`A ${request.viewer.role} may not open this. Ask the manager if you need it.`)
  }
}

// Pages without an address of their own, as in a sandbox, send the word null.
const hostOf = (origin: string): string | null => (URL.canParse(origin) ? new URL(origin).host : null)

const isReading = ({ method }: FastifyRequest): boolean => ['GET', 'HEAD', 'OPTIONS'].includes(method)

function refuseForeign(request: FastifyRequest, shell: Shell): void {
  // A page that is shared sends no origin on purpose, and is known by its secret alone.
  if (isReading(request) || isShared(request.url)) return
  const { origin } = request.headers
  if (origin && origin !== shell.config.publicUrl.origin && hostOf(origin) !== request.host) {
    throw forbidden('The request came from a page of another site.')
  }
}

// A cookie travels with any request that a foreign page makes; a token in the Authorization header does not.
function refuseForgery(request: FastifyRequest): void {
  if (isReading(request)) return
  if (!request.holder || request.holder.by === 'token') return
  const body = request.body as Readonly<Record<string, unknown>> | null | undefined
  const given = request.headers['x-csrf-token'] ?? body?._csrf
  if (!request.holder.isGenuine(String(given ?? ''))) {
    throw forbidden('The form is out of date. Open the page again; what you typed is still in the form when you go back.')
  }
}
