import { randomUUID } from 'node:crypto'
import type { LookData, SecretsData } from '../../web/secrets/secrets.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Config } from '../config.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { nameOf } from '../shared/records/display.ts'
import { getKind } from '../shared/records/kind.ts'
import { getRecord } from '../shared/records/table.ts'
import { MANAGERS } from '../shared/roles.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { findKeyProblem } from './keeping.ts'
import { getSecret, listHappened, listSecrets, SECRET_KINDS } from './store.ts'

export async function secretsData(reads: Reads, buildId: string, viewer: Viewer, config: Config): Promise<SecretsData> {
  const build = await getRecord(reads, getKind('build'), buildId)
  const secrets = await listSecrets(reads, buildId)
  const [happened, { timeZone }, problem] = await Promise.all([listHappened(reads, secrets.map(({ id }) => id)), shopOf(reads), findKeyProblem(reads, config)])
  const page = `/builds/${buildId}/secrets`
  const mayEnter = MANAGERS.includes(viewer.role)
  const kindOf = new Map(secrets.map(({ id, kind }) => [id, kind]))
  return {
    ...headOf(buildId, nameOf(getKind('build'), build)), isDelivered: build.stage === 'delivered', keyFails: problem !== null,
    kept: secrets.filter(({ erasedAt }) => erasedAt === null).map(({ id, kind }) => ({
      kind, look: { action: `${page}/${id}/looks`, idempotencyKey: randomUUID() },
      erase: mayEnter ? { action: `${page}/${id}/erasures`, idempotencyKey: randomUUID() } : undefined,
    })),
    add: mayEnter && build.stage !== 'delivered' ? { action: page, kinds: SECRET_KINDS } : null,
    happened: happened.map(({ at, personName, action, recordId }) => ({
      when: `${writeDay(calendarDateIn(timeZone, at))} ${clockTimeIn(timeZone, at)}`, who: personName, what: `${action}: ${kindOf.get(recordId) ?? ''}`,
    })),
  }
}

export async function lookData(reads: Reads, buildId: string, secretId: string, text: string): Promise<LookData> {
  const build = await getRecord(reads, getKind('build'), buildId)
  const { kind } = await getSecret(reads, buildId, secretId)
  return { ...headOf(buildId, nameOf(getKind('build'), build)), kind, text, backHref: `/builds/${buildId}/secrets` }
}

const headOf = (buildId: string, name: string): Pick<SecretsData, 'trail' | 'name'> =>
  ({ name, trail: [{ name, href: `/builds/${buildId}` }, { name: 'Intake', href: `/builds/${buildId}/intake` }, { name: 'Codes and keys' }] })
