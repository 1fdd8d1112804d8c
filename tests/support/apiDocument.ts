import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js'
import addFormats from 'ajv-formats'

export interface Operation {
  readonly summary?: string
  readonly tags?: readonly string[]
  readonly parameters?: readonly { readonly name: string; readonly in: string; readonly required?: boolean; readonly schema: object }[]
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema: BodySchema }>> }
  readonly responses: Readonly<Record<string, { readonly description: string; readonly content?: Readonly<Record<string, { readonly schema: object }>> }>>
}
export interface BodySchema {
  readonly properties?: Readonly<Record<string, object>>
  readonly required?: readonly string[]
}
export interface ApiDocument {
  readonly openapi: string
  readonly info: { readonly title: string; readonly version: string }
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>
  readonly components: { readonly schemas: Readonly<Record<string, object>> }
}

export interface Described {
  readonly method: string
  readonly path: string
  readonly operation: Operation
}

export function operationsOf(document: ApiDocument): Described[] {
  return Object.entries(document.paths).flatMap(([path, item]) =>
    Object.entries(item).map(([method, operation]) => ({ method, path, operation })))
}

/** Finds what is wrong with an answer by the description of the API; empty when it matches. */
export type AnswerCheck = (method: string, url: string, status: number, contentType: string, body: unknown) => string

export function checkAnswersBy(document: ApiDocument): AnswerCheck {
  // Keywords of OpenAPI that are none of JSON Schema are no mistakes here.
  const ajv = new Ajv2020({ strict: false, allErrors: true })
  ;(addFormats as unknown as (to: Ajv2020) => void)(ajv)
  ajv.addSchema({ $id: 'api', components: document.components } as object)
  const compiled = new Map<string, ValidateFunction>()
  const matchers = Object.keys(document.paths).sort((a, b) => a.split('{').length - b.split('{').length)
    .map((path) => ({ path, pattern: new RegExp(`^${path.replaceAll(/\{[^}]*\}/g, '[^/]+')}$`) }))
  return (method, url, status, contentType, body) => {
    const path = matchers.find(({ pattern }) => pattern.test(url.replace(/\?.*/, '')))?.path
    const operation = document.paths[path ?? '']?.[method.toLowerCase()]
    if (!path || !operation) return 'no such operation is described'
    const key = String(status) in operation.responses ? String(status) : `${String(status)[0]}XX`
    const answer = operation.responses[key]
    if (!answer) return `the answer ${status} is not described`
    const media = contentType.split(';')[0] ?? ''
    const schema = answer.content?.[media]?.schema
    if (!schema) return `${status} is not described as ${media}`
    const name = `${method} ${path} ${key}`
    const check = compiled.get(name) ?? ajv.compile(inside(schema))
    compiled.set(name, check)
    return check(body) ? '' : ajv.errorsText(check.errors)
  }
}

const inside = (schema: object): object =>
  JSON.parse(JSON.stringify(schema).replaceAll('"#/components/', '"api#/components/')) as object

/** Every schema of a document, compiled: what is no JSON Schema 2020-12 throws. */
export function compileAllSchemas(document: ApiDocument): number {
  const ajv = new Ajv2020({ strict: false })
  ;(addFormats as unknown as (to: Ajv2020) => void)(ajv)
  ajv.addSchema({ $id: 'api', components: document.components } as object)
  const schemas = [
    ...Object.values(document.components.schemas),
    ...operationsOf(document).flatMap(({ operation }) => [
      ...(operation.parameters ?? []).map((one) => one.schema),
      ...Object.values(operation.requestBody?.content ?? {}).map((one) => one.schema),
      ...Object.values(operation.responses).flatMap((one) => Object.values(one.content ?? {}).map((each) => each.schema)),
    ]),
  ]
  for (const schema of schemas) {
    if (!ajv.validateSchema(schema as object)) throw new Error(`${ajv.errorsText()}: ${JSON.stringify(schema).slice(0, 200)}`)
    ajv.compile(inside(schema as object))
  }
  return schemas.length
}
