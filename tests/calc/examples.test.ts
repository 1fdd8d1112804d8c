import { readFileSync, readdirSync } from 'node:fs'
import t from 'tap'

const CALC = new URL('../../server/calc/', import.meta.url)

/** Examples read "@example call(…) // result"; those whose result is a value are run, those that tell it in words are not. */
const EXAMPLE = /@example (.+?) \/\/ ((?:['"[{\d-]|null|true|false).*?)(?: \*\/)?$/gm

/** Their examples speak of things described elsewhere and are for reading only. */
const FOR_READING = new Set(['removal/fastenerText.ts'])

function examplesIn(source: string): { readonly call: string, readonly result: string }[] {
  return [...source.matchAll(EXAMPLE)].map(([, call = '', result = '']) => ({ call, result }))
}

for (const file of readdirSync(CALC, { recursive: true, encoding: 'utf8' }).filter(name => name.endsWith('.ts') && !FOR_READING.has(name)).sort()) {
  const examples = examplesIn(readFileSync(new URL(file, CALC), 'utf8'))
  if (examples.length === 0) continue
  t.test(`the examples written at the calculations of ${file} hold`, async t => {
    const exported = await import(new URL(file, CALC).href) as Record<string, unknown>
    const evaluate = (text: string): unknown =>
      new Function(...Object.keys(exported), `return (${text})`)(...Object.values(exported))
    for (const { call, result } of examples) t.same(evaluate(call), evaluate(result), `${call} is ${result}`)
  })
}
