import type { SavedProps } from '../../web/shared/saved.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'

/** What was saved just now, for the head of a page that stands in for a plain record page. */
export function savedOf(what: string | null, { csrfToken }: Viewer, next?: SavedProps['next']): SavedProps | undefined {
  return what === null ? undefined : { what, csrfToken, ...(next ? { next } : {}) }
}
