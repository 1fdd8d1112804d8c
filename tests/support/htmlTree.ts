/** An element of a page as the server wrote it. */
export interface HtmlElement {
  readonly name: string
  readonly attributes: ReadonlyMap<string, string>
  readonly parent: HtmlElement | null
  readonly children: (HtmlElement | string)[]
}

const VOID = new Set(['area', 'base', 'br', 'col', 'embed', 'hr', 'img', 'input', 'link', 'meta', 'source', 'wbr'])
const TOKEN = /<!--[\s\S]*?-->|<!doctype[^>]*>|<(\/?)([a-zA-Z][\w-]*)((?:\s+[\w:-]+(?:="[^"]*")?)*)\s*(\/?)>|([^<]+)/g

/** Reads our own pages, which close what they open. Throws where one does not. */
export function parseHtml(html: string): HtmlElement {
  const root: HtmlElement = { name: '#root', attributes: new Map(), parent: null, children: [] }
  let at = root
  for (const [, slash, name, attributes, closed, text] of html.matchAll(TOKEN)) {
    if (text !== undefined) at.children.push(unescape(text))
    else if (name === undefined) continue
    else if (slash === '/') {
      if (at.name !== name || at.parent === null) throw new Error(`</${name}> closes <${at.name}>`)
      at = at.parent
    } else {
      const element: HtmlElement = { name, attributes: attributesIn(attributes ?? ''), parent: at, children: [] }
      at.children.push(element)
      if (!VOID.has(name) && closed !== '/') at = element
    }
  }
  if (at !== root) throw new Error(`<${at.name}> stays open`)
  return root
}

const attributesIn = (text: string): Map<string, string> =>
  new Map([...text.matchAll(/([\w:-]+)(?:="([^"]*)")?/g)].map(([, name, value]) => [name!, unescape(value ?? '')]))

const SIGNS: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': '\'', ensp: ' ', nbsp: ' ' }
const unescape = (text: string): string => text.replaceAll(/&(#?\w+);/g, (whole, sign: string) => SIGNS[sign] ?? whole)

export const hasClass = ({ attributes }: HtmlElement, name: string): boolean => (attributes.get('class') ?? '').split(' ').includes(name)

export function textOf(node: HtmlElement | string): string {
  return typeof node === 'string' ? node : node.children.map(textOf).join('')
}

/** All elements below one, in order. */
export function within(element: HtmlElement): HtmlElement[] {
  return element.children.flatMap((child) => typeof child === 'string' ? [] : [child, ...within(child)])
}

/** The element and all it stands in, innermost first. */
export function around(element: HtmlElement): HtmlElement[] {
  return element.parent === null ? [element] : [element, ...around(element.parent)]
}
