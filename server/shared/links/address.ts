import type { Config } from '../../config.ts'

/** Where every page stands that is shared without sign-in. */
export const SHARED_AT = '/l/'

export const isShared = (url: string): boolean => url.startsWith(SHARED_AT)

/** An address as it may stand in a log: who reads that must not be able to open the page. */
export const withoutSecret = (url: string): string => url.replace(/^(\/l\/)[^/?#]+/, '$1(secret)')

/** The whole address of a shared page, as it is handed over. */
export const wholeAddress = ({ publicUrl }: Pick<Config, 'publicUrl'>, secret: string): string => `${publicUrl.origin}${SHARED_AT}${secret}`
