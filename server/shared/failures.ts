import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify'
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod'
import { ProblemPage } from '../../web/shared/problem.tsx'
import { isApi } from './access.ts'
import { sendPage } from './pages.ts'
import { FieldProblems, HeldProblem, Problem } from './problems.ts'
import type { App } from './shell.ts'

/** Every refusal and failure: problem details under /api, a page elsewhere, with the number of the request. */
export function answerProblems(app: App): void {
  app.setErrorHandler<FastifyError>((error, request, reply) => {
    const problem = toProblem(error)
    if (problem.status >= 500) request.log.error({ err: error }, 'failed')
    else request.log.info({ problem: problem.title, detail: problem.detail }, 'refused')
    return answer(request, reply, problem)
  })
  app.setNotFoundHandler((request, reply) => answer(request, reply, new Problem(404, 'Not here', 'There is nothing at this address.')))
}

function toProblem(error: FastifyError): Problem {
  if (error instanceof Problem) return error
  if (hasZodFastifySchemaValidationErrors(error)) return toRequestProblem(error)
  if (error.statusCode === 413) return new Problem(413, 'Too large', 'The request holds more than this address takes.')
  if (error.statusCode === 429) return new Problem(429, 'Too many tries', 'Wait a few minutes and try again.', 60)
  if (error.statusCode && error.statusCode >= 400 && error.statusCode < 500) return new Problem(error.statusCode, 'Not understood', error.message)
  return new Problem(500, 'Something broke', 'Nothing was saved by this request.')
}

function toRequestProblem(error: FastifyError & { validation: readonly { instancePath: string; message?: string }[]; validationContext?: string }): Problem {
  const fields = error.validation.map(({ instancePath, message }) => ({
    field: instancePath.replace(/^\//, '').replaceAll('/', '.') || 'body', message: message ?? 'This cannot be taken.',
  }))
  if (error.validationContext === 'params') return new Problem(404, 'Not here', 'There is no such record.')
  return new FieldProblems(fields)
}

function answer(request: FastifyRequest, reply: FastifyReply, problem: Problem): FastifyReply {
  reply.status(problem.status)
  if (problem.retryAfterS) reply.header('retry-after', String(problem.retryAfterS))
  if (isApi(request)) {
    return reply.type('application/problem+json').serializer(JSON.stringify).send({
      type: 'about:blank', title: problem.title, status: problem.status, detail: problem.detail, requestId: request.id,
      ...(problem instanceof FieldProblems ? { fields: problem.fields } : {}), ...(problem instanceof HeldProblem ? { help: problem.help } : {}),
    })
  }
  const help = problem instanceof HeldProblem ? problem.help : problem instanceof FieldProblems ? problem.fields.find((field) => field.help)?.help : undefined
  const data = { status: problem.status, title: problem.title, what: problem.detail, remedy: remedyFor(problem, request.method), requestId: request.id, help }
  return sendPage(reply, ProblemPage({ viewer: request.viewer ?? null, data }))
}

function remedyFor(problem: Problem, method: string): string {
  if (problem.status >= 500) return 'Try again. If it stays, tell whoever runs the server the number below.'
  if (problem.status === 404) return 'Check the address, or go back and choose from a list.'
  if (method === 'GET') return 'Go back, or choose another place above.'
  return 'Go back: what you typed is still in the form.'
}
