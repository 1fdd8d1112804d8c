import type { OpenAPIV3_1 } from 'openapi-types'

type Document = Partial<OpenAPIV3_1.Document>
type Operation = OpenAPIV3_1.OperationObject
type Answers = Record<string, OpenAPIV3_1.ResponseObject>

const PROBLEM = 'application/problem+json'

const HEADERS: Readonly<Record<string, OpenAPIV3_1.HeaderObject>> = {
  ETag: { description: 'The version of the record, for If-Match', schema: { type: 'string' } },
  Location: { description: 'Where the new record stands', schema: { type: 'string' } },
  'Retry-After': { description: 'Seconds until another try makes sense, where waiting helps', schema: { type: 'integer' } },
}

const KEY: OpenAPIV3_1.ParameterObject = {
  name: 'Idempotency-Key', in: 'header', required: false, schema: { type: 'string', minLength: 1, maxLength: 100 },
  description: 'Made by the sender, one for each deed: the same request again gets the same answer, another one under the same key is refused',
}
const VERSION: OpenAPIV3_1.ParameterObject = {
  name: 'If-Match', in: 'header', required: true, schema: { type: 'string', pattern: '^(W/)?"?[0-9]{1,9}"?$' },
  description: 'The version that was read, as its ETag; a newer one in the meantime is answered with 412 and both versions',
}

/** What the routes do not say of themselves, since it holds for all of them: headers, and what a refusal looks like. */
export function completed(document: Document): Document {
  const paths = Object.entries(document.paths ?? {}).map(([path, item]) => {
    const methods = Object.entries(item ?? {}).map(([method, operation]) => [method, complete(method, path, operation as Operation)])
    return [path, Object.fromEntries(methods) as OpenAPIV3_1.PathItemObject] as const
  })
  return withoutUnused({ ...document, paths: Object.fromEntries(paths) })
}

function complete(method: string, path: string, operation: Operation): Operation {
  const added = method === 'post' ? [KEY] : method === 'patch' ? [VERSION] : []
  const parameters = [...(operation.parameters ?? []), ...added]
  const answers = Object.entries((operation.responses ?? {}) as Answers).map(([status, answer]) => [status, completeAnswer(method, path, status, answer)])
  return { ...operation, ...(parameters.length > 0 ? { parameters } : {}), responses: Object.fromEntries(answers) as Answers }
}

function completeAnswer(method: string, path: string, status: string, answer: OpenAPIV3_1.ResponseObject): OpenAPIV3_1.ResponseObject {
  if (/^[45]/.test(status)) {
    const description = status === '4XX' ? 'Refused: what is wrong, by field where it is about fields' : 'Failed or busy: nothing was saved'
    return { description, headers: headers('Retry-After'), content: { [PROBLEM]: answer.content?.['application/json'] ?? {} } }
  }
  const isRecord = path.endsWith('/{id}') && (method === 'get' || method === 'patch')
  const named = isRecord ? headers('ETag') : status === '201' ? headers('Location') : null
  return { ...answer, description: status === '201' ? 'Made' : 'Done', ...(named ? { headers: named } : {}) }
}

const headers = (name: string): Record<string, OpenAPIV3_1.HeaderObject> => ({ [name]: HEADERS[name] ?? {} })

// Every schema is written out once for what is sent and once for what is answered, used or not.
function withoutUnused(document: Document): Document {
  const text = JSON.stringify(document)
  const used = Object.entries(document.components?.schemas ?? {}).filter(([name]) => text.includes(`"#/components/schemas/${name}"`))
  return { ...document, components: { ...document.components, schemas: Object.fromEntries(used) } }
}
