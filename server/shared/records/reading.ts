import { z } from 'zod'
import { LARGEST_INTEGER } from '../../calc/amounts.ts'

/** A checked value, and what was typed where a unit was involved. */
export interface Checked {
  readonly value: unknown
  readonly entered?: string
}

export const LONGEST_LINE = 200
export const LONGEST_TEXT = 4_000

export type Reading = { readonly value: unknown; readonly entered?: string } | { readonly message: string }

// Forms send text and the API sends JSON: both come through here, so both get the same messages.
export function reading(label: string, isRequired: boolean, whenEmpty: unknown, read: (raw: unknown) => Reading): z.ZodType<Checked> {
  return z.unknown().transform((raw, context) => {
    const given = typeof raw === 'string' ? raw.trim() : raw
    if (!isPlain(given)) {
      context.addIssue({ code: 'custom', message: `${label} is one value, or a plain list where several may be chosen.` })
      return z.NEVER
    }
    if (given === '' || given === null || given === undefined) {
      if (!isRequired) return { value: whenEmpty }
      context.addIssue({ code: 'custom', message: `${label} is needed.` })
      return z.NEVER
    }
    const result = read(given)
    if ('value' in result) return result
    context.addIssue({ code: 'custom', message: result.message })
    return z.NEVER
  })
}

function isPlain(given: unknown): boolean {
  const isOne = (value: unknown): boolean => typeof value !== 'object' || value === null
  return isOne(given) || (Array.isArray(given) && given.every(isOne))
}

export function textOf(label: string, longest: number): (raw: unknown) => Reading {
  return (raw) => {
    if (typeof raw !== 'string') return { message: `${label} is a text.` }
    if (raw.length > longest) {
      return { message: `${label} holds ${longest.toLocaleString('en-US')} characters at most; this has ${raw.length.toLocaleString('en-US')}. Shorten it.` }
    }
    if (/[\u0000-\u0008\u000b\u000c\u000e-\u001f]|\p{Cs}/u.test(raw)) return { message: `${label} holds signs that cannot be printed. Type it again.` }
    return { value: raw.replace(/\r\n?/g, '\n') }
  }
}

/** A form sends one text per ticked box, the API a list or comma-separated text. */
export function listOf(raw: unknown): string[] {
  const many = Array.isArray(raw) ? raw.map(String) : String(raw ?? '').split(',')
  return [...new Set(many.map((one) => one.trim()).filter((one) => one !== ''))]
}

export function canonical(label: string, raw: number): Reading {
  return Number.isInteger(raw) && Math.abs(raw) <= LARGEST_INTEGER ? { value: raw } : { message: `${label} is a whole number of its canonical unit.` }
}
