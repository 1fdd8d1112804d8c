import type { Json, TestShop } from './shop.ts'

interface Point { readonly key: string; readonly isSettled: boolean }

/** Lets every open point of a build pass, as a manager may, and signs its final check. */
export async function passFinalCheck(shop: TestShop, buildId: string): Promise<void> {
  const { api } = shop.as('manager')
  const { points } = (await api.get(`/api/builds/${buildId}/final-check`)).json<{ points: Point[] }>()
  for (const { key } of points.filter(({ isSettled }) => !isSettled)) {
    await api.create(`/api/builds/${buildId}/check-results`, { point: key, outcome: 'let pass', note: 'Looked at on the old sheet' })
  }
  await api.create(`/api/builds/${buildId}/check-signatures`, { signedName: 'Test manager' })
}

/** Passes the final check and takes the build to its last stage. */
export async function deliver(shop: TestShop, buildId: string, more: Json = {}): Promise<void> {
  await passFinalCheck(shop, buildId)
  const { api } = shop.as('manager')
  const { version } = (await api.get(`/api/builds/${buildId}`)).json<{ version: number }>()
  const answer = await api.patch(`/api/builds/${buildId}`, { stage: 'delivered', ...more }, { 'if-match': `"${version}"` })
  if (answer.statusCode !== 200) throw new Error(answer.body)
}
