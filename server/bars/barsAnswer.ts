import { z } from 'zod'
import { planSchema, toPlanAnswer } from '../schedule/planAnswer.ts'
import type { BuildOnPage } from './barsData.ts'

const instant = z.iso.datetime()

export const barsSchema = z.object({
  buildId: z.string(), plan: planSchema,
  endsAt: instant.nullable().describe('With what cures or is away after the last work; null where nothing of it is planned, or not all of it'), dueAt: instant.nullable(),
  chances: z.object({ even: instant, in80: instant, in90: instant }).nullable().describe('Null where nobody is unsure of anything'),
  leftOut: z.array(z.object({ operationId: z.string(), why: z.string() })),
  operations: z.array(z.object({
    number: z.int().describe('As on the page'), operationId: z.string(), name: z.string(), zone: z.string(), startsAt: instant, endsAt: instant, leavesAt: instant.nullable().describe('To an outside finisher, with a batch'), dueBackAt: instant.nullable(),
    personIds: z.array(z.string()), bayId: z.string().nullable(), machineId: z.string().nullable(),
    after: z.array(z.string()).describe('Operations that must be finished first'), comesFreeAfter: z.array(z.string()).describe('Operations before it on the same person, machine or bay'),
    isOnChain: z.boolean().describe('Without slack: an hour later there is an hour later at the end'),
    slackS: z.int().nullable().describe('Hours the shop is open by which it can end later before the build does, in seconds'), slackToPromiseS: z.int().nullable(), loggedS: z.int(),
  })),
})

export function toBarsAnswer(buildId: string, found: BuildOnPage | null, planned: Parameters<typeof toPlanAnswer>[0] | null): z.infer<typeof barsSchema> {
  const build = planned?.inForce.content.builds.find((one) => one.buildId === buildId)
  const head = {
    buildId, plan: planned === null ? null : toPlanAnswer(planned), dueAt: build?.dueAt ?? null,
    chances: build?.chances ? { even: build.chances.even, in80: build.chances.in80, in90: build.chances.in90 } : null,
    leftOut: (planned?.inForce.content.leftOut ?? []).filter((one) => one.buildId === buildId).map(({ operationId, why }) => ({ operationId, why })),
  }
  if (found === null) return { ...head, endsAt: null, operations: [] }
  const { plan, barred, groups } = found
  const seconds = (slack: { readonly slackMs: number } | undefined): number | null => (slack === undefined ? null : Math.round(slack.slackMs / 1000))
  return {
    ...head, endsAt: build?.endsAt ? new Date(plan.endMs).toISOString() : null,
    operations: groups.flatMap(({ zone, rows }) => rows.map(({ number, work: { operationId, name, startsAt, endsAt, leavesAt = null, dueBackAt, personIds, bayId, machineId, after } }) => ({
      number, operationId, name, zone, startsAt, endsAt, leavesAt, dueBackAt, personIds, bayId, machineId,
      after: after.map((one) => one.operationId), comesFreeAfter: [...new Set((plan.taking.get(operationId) ?? []).map(({ before }) => before))], isOnChain: plan.chain.has(operationId),
      slackS: seconds(plan.toEnd.get(operationId)), slackToPromiseS: seconds(plan.toPromise.get(operationId)), loggedS: barred.loggedS.get(operationId) ?? 0,
    }))),
  }
}
