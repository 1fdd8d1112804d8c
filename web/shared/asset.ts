let basePath = ''

/** Where the pages stand behind a proxy: '' or '/putback'. Set once at the start, before any page is drawn. */
export function setBasePath(path: string): void {
  basePath = path.replace(/\/+$/, '')
}

/**
 * The address of a page of ours. Every `href` and `action` in a page's data is written without the
 * base path and passes through here; an anchor stays as it is.
 *
 * @example at('/builds') // '/builds', or '/putback/builds' behind a proxy path
 */
export const at = (path: string): string => path.startsWith('/') ? `${basePath}${path}` : path

/** @example asset('putback.css') // '/assets/putback.css' */
export const asset = (path: string): string => at(`/assets/${path}`)
