import type { FastifyRequest } from 'fastify'
import type { Reads } from '../database/database.ts'
import type { Role } from '../../../web/shared/viewer.ts'
import type { Shell } from '../shell.ts'

/** What a link leads to, once it was found to be good. */
export interface Opened {
  readonly shell: Shell
  readonly request: FastifyRequest
  readonly reads: Reads
  readonly linkId: string
  readonly buildId: string
  readonly subjectId: string
  /** Addresses of the page itself and of what belongs to it begin so: `${base}/photos/${hash}`, `${base}/files/sheet.pdf`. */
  readonly base: string
}

export interface SharedFile {
  readonly type: string
  readonly data: Buffer
  /** What it is called when it is kept. */
  readonly name: string
}

/** What a deed answers: the page again, or the way back to it. */
export type Told = { readonly page: JSX.Element, readonly status: number } | 'done'

/** What can be shared of a build, and how it looks to whoever holds the link. */
export interface SharedPage {
  /** Stored with the link, and shown: "return-to-stock sheet". */
  readonly subjectKind: string
  /** Who makes and withdraws its links. */
  readonly roles: readonly Role[]
  readonly longestDays: number
  /** What there is to share of a build. */
  list(reads: Reads, buildId: string): Promise<readonly { readonly id: string, readonly name: string }[]>
  /** Null where the record is gone: then the link leads nowhere. It writes nothing. */
  draw(opened: Opened): Promise<JSX.Element | null>
  /** SHA-256 of every photo that the page shows; no other is given out. */
  photoHashes(opened: Opened): Promise<readonly string[]>
  /** A file that belongs to the page, by its name; `query` as in the address. */
  file?(opened: Opened, name: string): Promise<SharedFile | null>
  /** What can be done there without sign-in, by POST alone, as `${base}/consents`. */
  readonly deeds?: ReadonlyMap<string, (opened: Opened, body: Readonly<Record<string, unknown>>) => Promise<Told | null>>
}

const pages = new Map<string, SharedPage>()

export function defineSharedPage(page: SharedPage): SharedPage {
  pages.set(page.subjectKind, page)
  return page
}

export const findSharedPage = (subjectKind: string): SharedPage | undefined => pages.get(subjectKind)
export const listSharedPages = (): readonly SharedPage[] => [...pages.values()]
