import type { Config } from '../../config.ts'

/** Where every page stands that is shared without sign-in. */
export const SHARED_AT = '/l/'

/** Where calendars stand that programs fetch without sign-in. */
export const CALENDARS_AT = '/calendar/'

export const isShared = (url: string): boolean => url.startsWith(SHARED_AT) || url.startsWith(CALENDARS_AT)

/** An address as it may stand in a log: who reads that must not be able to open the page. */
export const withoutSecret = (url: string): string => url.replace(/^(\/(?:l|calendar)\/)[^/?#]+/, '$1(secret)')

/** The whole address of a shared page, as it is handed over. */
export const wholeAddress = ({ publicUrl }: Pick<Config, 'publicUrl'>, secret: string): string => `${publicUrl.origin}${SHARED_AT}${secret}`

/** The whole address of a calendar, as it is given to a program. */
export const calendarAddress = ({ publicUrl }: Pick<Config, 'publicUrl'>, secret: string): string => `${publicUrl.origin}${CALENDARS_AT}${secret}.ics`
