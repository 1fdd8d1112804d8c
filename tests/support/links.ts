import type { Visitor } from './shop.ts'

export interface Visited {
  readonly url: string
  readonly status: number
  readonly body: string
  readonly type: string
  readonly from: string
}

/** The addresses of ours that a page links to. */
export function linksIn(html: string): string[] {
  return [...html.matchAll(/<a\b[^>]*\bhref="(\/[^"#]*)/g)].map(([, href]) => href!.replaceAll('&amp;', '&'))
}

// Pages that differ only in which record they show are looked at a few times, not hundreds.
const patternOf = (url: string): string =>
  url.replaceAll(/[0-9a-f]{8}-[0-9a-f-]{27}/g, ':id').replaceAll(/\/(?:[A-Z]-)?\d+(?=\/|\?|$)/g, '/:number').replaceAll(/=[^&]*/g, '=')

/** Follows every link from the start pages on, each pattern of address at most `times`. */
export async function walk(visitor: Pick<Visitor, 'get'>, starts: readonly string[], times = 2): Promise<Visited[]> {
  const visited: Visited[] = []
  const seen = new Set<string>()
  const counts = new Map<string, number>()
  const waiting = starts.map((url) => ({ url, from: 'the start' }))
  for (let next = waiting.shift(); next; next = waiting.shift()) {
    const pattern = patternOf(next.url)
    const count = counts.get(pattern) ?? 0
    if (seen.has(next.url) || count >= times) continue
    seen.add(next.url)
    counts.set(pattern, count + 1)
    const answer = await visitor.get(next.url)
    visited.push({ ...next, status: answer.statusCode, body: answer.body, type: String(answer.headers['content-type']) })
    if (answer.statusCode === 303) waiting.push({ url: String(answer.headers.location), from: next.url })
    if (answer.statusCode === 200) waiting.push(...linksIn(answer.body).map((url) => ({ url, from: next.url })))
  }
  return visited
}
