import { around, hasClass, parseHtml, textOf, within, type HtmlElement } from './htmlTree.ts'

const HOURS_OR_MONEY = /\d h\b|\d [A-Z]{3}\b(?! ?\d)/
// Sentences, notes, histories and what is heard in place of a drawing tell figures; they are none.
const TOLD_IN = ['p', 'li', 'option', 'label', 'summary', 'title', 'text', 'button', 'h1', 'nav', 'ol']
const TOLD_BY = ['sub', 'note', 'notes', 'said', 'history', 'facts', 'prose', 'points', 'mend', 'sum', 'unseen', 'beside', 'reads', 'fasteners', 'caution', 'plainlist', 'trail', 'number', 'title-block']

/** A figure on a page that shows neither how it comes about nor that somebody entered it, as its words and place. */
export function unexplainedOn(html: string): string[] {
  const elements = within(parseHtml(html))
  const figures = elements.filter((element) => hasClass(element, 'figure') && /\d/.test(textOf(element)))
  const loose = elements.filter((element) => element.children.some((child) => typeof child === 'string' && HOURS_OR_MONEY.test(child)))
  return [...figures.filter((element) => !isExplained(element)), ...loose.filter((element) => !isTold(element) && !isExplained(element))]
    .map((element) => `${textOf(element)} in ${around(element).slice(0, 4).map(({ name, attributes }) => `${name}.${attributes.get('class') ?? ''}`).join(' < ')}`)
}

function isTold(element: HtmlElement): boolean {
  return around(element).some((outer) => TOLD_IN.includes(outer.name) || TOLD_BY.some((name) => hasClass(outer, name)))
}

function isExplained(element: HtmlElement): boolean {
  const outer = around(element)
  return outer.some((one) => hasClass(one, 'recorded') || hasClass(one, 'sum') || hasClass(one, 'working') || opens(one))
    || within(element).some(opens) || isNoted(element)
}

export const opens = ({ name, attributes }: HtmlElement): boolean => name === 'a' && (attributes.get('href') ?? '').includes('?how=')

/** On paper: a number of a note beside the figure, or at the head of its column. */
function isNoted(element: HtmlElement): boolean {
  const isNote = (one: HtmlElement): boolean => one.name === 'sup' && hasClass(one, 'note-no')
  if (element.parent !== null && within(element.parent).some(isNote) && element.name !== 'td') return true
  const row = element.parent
  const table = around(element).find(({ name }) => name === 'table')
  if (element.name !== 'td' || row === null || table === undefined) return false
  const cells = row.children.filter((child): child is HtmlElement => typeof child !== 'string')
  const column = cells.slice(0, cells.indexOf(element)).reduce((sum, cell) => sum + Number(cell.attributes.get('colspan') ?? 1), 0)
  const head = within(table).find(({ name }) => name === 'thead')
  const heads = head === undefined ? [] : within(head).filter(({ name }) => name === 'th')
  return heads[column] !== undefined && within(heads[column]).some(isNote)
}

export interface Link { readonly href: string, readonly text: string }

/** The figures of a page that open on an address of their own, as short as they are written. */
export function openersOn(html: string): Link[] {
  return within(parseHtml(html)).filter(opens).map((link) => ({ href: link.attributes.get('href')!, text: textOf(link).trim() }))
}

export interface OpenedSum {
  readonly inputs: readonly { readonly label: string, readonly source: string, readonly amount: string }[]
  readonly result: string
  readonly formula: string
  readonly source: string
  readonly saysRounded: boolean
}

/** Every working that stands on a page, opened. */
export function workingsOn(html: string): OpenedSum[] {
  return within(parseHtml(html)).filter((element) => hasClass(element, 'sum')).map((sum) => {
    const rows = within(sum).filter(({ name, parent }) => name === 'tr' && parent?.name === 'tbody')
    const cells = (row: HtmlElement): string[] => row.children.flatMap((child) => typeof child === 'string' ? [] : [textOf(child)])
    const told = new Map(within(sum).filter(({ name }) => name === 'dt').map((dt) => [textOf(dt), textOf(dt.parent!.children.at(-1)!)]))
    return {
      inputs: rows.filter((row) => !hasClass(row, 'total') && cells(row).length === 3).map((row) => {
        const [label = '', source = '', amount = ''] = cells(row)
        return { label, source, amount }
      }),
      result: cells(rows.find((row) => hasClass(row, 'total'))!).at(-1)!,
      formula: told.get('Formula') ?? '', source: told.get('Source') ?? '', saysRounded: told.has('Rounded'),
    }
  })
}

interface Read { readonly value: number, readonly unit: string }

/** What a printed amount says, exactly: seconds of hours, else the decimal without its point, and its unit. */
export function readPrinted(text: string): Read | null {
  const clock = /^(−?)(\d[\d,]*):(\d\d)(?::(\d\d))? h$/.exec(text)
  if (clock) {
    const seconds = Number(clock[2]!.replaceAll(',', '')) * 3600 + Number(clock[3]) * 60 + Number(clock[4] ?? 0)
    return { value: clock[1] === '' ? seconds : -seconds, unit: 'h' }
  }
  const decimal = /^(−?)([\d,]+)(?:\.(\d+))?(?: (.+))?$/.exec(text)
  if (!decimal) return null
  const [, sign, whole, part = '', unit = ''] = decimal
  const scaled = BigInt(`${whole!.replaceAll(',', '')}${part.padEnd(6, '0')}`) * (sign === '' ? 1n : -1n)
  return unit === 'h' ? { value: Number(scaled * 3600n) / 1_000_000, unit } : { value: Number(scaled), unit }
}

/** Why the inputs of a sum do not come to its result as printed; null where they do, or where it is no plain sum. */
export function addsUp({ inputs, result, formula, saysRounded }: OpenedSum): string | null {
  const isSum = /^sum\b/.test(formula) || (formula.includes(' + ') && !/[−×÷]|less/.test(formula))
  if (!isSum || /÷/.test(formula) || saysRounded) return null
  const [exact = ''] = result.split(', rounded ')
  const total = readPrinted(exact)
  const amounts = inputs.map(({ amount }) => readPrinted(amount))
  if (total === null || amounts.some((amount) => amount === null || (amount.unit !== total.unit))) return `${result} is not in the unit of all its inputs: ${inputs.map(({ amount }) => amount).join(', ')}`
  const sum = amounts.reduce((all, amount) => all + amount!.value, 0)
  return Math.abs(sum - total.value) < 1e-6 ? null : `${inputs.map(({ amount }) => amount).join(' + ')} is not ${exact}`
}
