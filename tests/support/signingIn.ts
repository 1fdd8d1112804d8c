import { hashPassword } from '../../server/people/passwords.ts'
import { CSRF } from '../../server/shared/csrf.ts'
import { hashOfSecret } from '../../server/shared/session.ts'
import type { App } from '../../server/shared/shell.ts'
import { encodeForm, type Answer, type Form, type TestShop } from './shop.ts'

export const PASSWORD = 'a plane of pear wood'
export const MINUTE_MS = 60_000
export const HOUR_MS = 60 * MINUTE_MS

/** Posts a form as somebody whom no cookie, or only one of these headers, introduces. */
export function send({ app }: { app: App }, url: string, form: Form, headers: Record<string, string> = {}, remoteAddress = '127.0.0.1'): Promise<Answer> {
  return app.inject({
    method: 'POST', url, remoteAddress, payload: encodeForm(form), headers: { 'content-type': 'application/x-www-form-urlencoded', ...headers },
  })
}

export const signIn = (shop: { app: App }, signInName: string, password: string, to = ''): Promise<Answer> =>
  send(shop, `/sign-in${to}`, { signInName, password })

export const setCookieOf = (answer: Answer): string => [answer.headers['set-cookie'] ?? ''].flat().find((line) => line.startsWith('putback=')) ?? ''
export const cookieOf = (answer: Answer): string => setCookieOf(answer).split(';')[0] ?? ''

export async function setPassword({ database, people }: TestShop, role: keyof TestShop['people'], password = PASSWORD): Promise<void> {
  const passwordHash = await hashPassword(password)
  await database.write((write) => write.person.update({ where: { id: people[role] }, data: { passwordHash } }))
}

/** The form token of the session behind a cookie, as its pages carry it. */
export async function csrfOf({ database }: TestShop, cookie: string): Promise<string> {
  const secret = cookie.split('=')[1] ?? ''
  const { csrfSecret } = await database.reads.session.findUniqueOrThrow({ where: { tokenHash: hashOfSecret(secret) } })
  return CSRF.create(csrfSecret)
}

export const isSignedIn = async ({ app }: { app: App }, cookie: string): Promise<boolean> =>
  (await app.inject({ method: 'GET', url: '/me', headers: { cookie } })).statusCode === 200

/** A one-time code that stands in a page or in the log. */
export const codeOn = (text: string): string => /[2-9A-Z]{4}-[2-9A-Z]{4}-[2-9A-Z]{4}/.exec(text)?.[0] ?? ''
