/** How the kinds of builds read, where that is not how they are stored. */
export const BUILD_KIND_WORDS: Readonly<Record<string, string>> = { 'everyday build': 'build' }

/** @example kindInWords('everyday build') // 'build' */
export const kindInWords = (kind: string): string => BUILD_KIND_WORDS[kind] ?? kind
