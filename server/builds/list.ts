import type { ConsentState } from '../calc/costing/consentAlarm.ts'
import type { BuildRow, BuildsData } from '../../web/builds/builds.tsx'
import type { FirstStep } from '../../web/shared/empty.tsx'
import { counted } from '../../web/shared/text.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { Problem } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { figuresOf } from './figures.ts'
import { stageOf } from './ledger.ts'
import { stateOfJob } from './ledgerColumns.ts'
import { listOpenPoints } from './openPoints.ts'
import { listRunningOver } from './runningOver.ts'
import type { Cut, StoredBuild } from './store.ts'

const CUTS: readonly (readonly [cut: Cut, name: string])[] = [
  ['open', 'In the shop'], ['builds', 'Builds'], ['counter', 'Counter jobs'], ['delivered', 'Delivered'],
]

const CONSENT_IN_SHORT: Readonly<Record<ConsentState, string>> = {
  'inside': '', 'near': 'near the consent', 'forecast over': 'forecast over the consent', 'over': 'over the consent',
}

export interface ListAsked {
  readonly show: Cut
  readonly find: string
}

interface Listed {
  readonly builds: readonly StoredBuild[]
  /** What a new shop enters first; none once there is a build, or where they are put away. */
  readonly firstSteps: readonly FirstStep[]
  readonly hasBuilds: boolean
  /** The number of the last build here, where there are older ones. */
  readonly olderThan: number | null
}

export function toBuildsData({ builds, firstSteps, hasBuilds, olderThan }: Listed, asked: ListAsked, viewer: Viewer): BuildsData {
  const mayBegin = MANAGERS.includes(viewer.role)
  return {
    builds: builds.map((stored) => toRow(stored, viewer)),
    cuts: CUTS.map(([cut, name]) => ({ name, href: cut === 'open' ? '/builds' : `/builds?show=${cut}`, isCurrent: cut === asked.show })),
    find: asked.find,
    moreHref: olderThan === null ? undefined : `/builds?${new URLSearchParams({ show: asked.show, find: asked.find, before: String(olderThan) }).toString()}`,
    beginHref: mayBegin ? '/builds/new' : undefined,
    counterJobHref: mayBegin ? '/counter-jobs/new' : undefined,
    scheduleHref: mayBegin ? '/schedule' : undefined,
    firstSteps: hasBuilds ? [] : firstSteps,
    hasBuilds,
  }
}

function toRow(stored: StoredBuild, viewer: Viewer): BuildRow {
  const { head } = stored
  const { make, model, body, customer } = head.vehicle
  return {
    number: label('B', head.number), title: head.title, href: `/builds/${head.id}`, customer: customer.name, vehicle: `${make} ${model}, ${body}`,
    kind: head.kind as BuildRow['kind'], stage: stageOf(head.stage), state: stateOfJob(stored),
    promisedOn: head.promisedOn ?? '',
    isLate: head.stage !== 'delivered' && head.promisedOn !== null && head.promisedOn < viewer.today,
    ...sumsOf(stored, viewer), wayBack: wayBackInShort(stored), unsettled: unsettledInShort(stored),
  }
}

// A build whose records contradict each other must not take the list away: its own page says what is wrong.
function sumsOf(stored: StoredBuild, viewer: Viewer): Pick<BuildRow, 'logged' | 'forecast' | 'openPoints' | 'runningOver' | 'consent'> {
  try {
    const { costing } = figuresOf(stored)
    const { loggedS: logged, forecastS: forecast } = costing.labor.figures
    const consent = costing.alarm && stored.head.stage !== 'delivered' ? CONSENT_IN_SHORT[costing.alarm.state] : ''
    return { logged, forecast, openPoints: listOpenPoints(stored, costing, viewer).length, runningOver: listRunningOver(costing).length, consent }
  } catch (error) {
    if (!(error instanceof Problem)) throw error
    return { logged: null, forecast: null, openPoints: stored.points.length, runningOver: 0, consent: '' }
  }
}

// What would mislead whoever puts the vehicle back, years from now: it cannot wait for the next look into the build.
function unsettledInShort({ alterations, alterationPhotos, factoryParts }: StoredBuild): string {
  const open = alterations.filter(({ reversedOn }) => reversedOn === null)
  const shown = new Set(alterationPhotos.map(({ subjectId }) => subjectId))
  const [unasked, unseen] = [open.filter(({ consentBy }) => consentBy === '').length, open.filter(({ id }) => !shown.has(id)).length]
  const lost = factoryParts.filter(({ state, bin, place }) => state === 'out and stored' && bin === null && place === '').length
  return [
    unasked === 0 ? '' : `${counted(unasked, 'alteration', 'alterations')} without consent`,
    unseen === 0 ? '' : `${counted(unseen, 'alteration', 'alterations')} without a photo`,
    lost === 0 ? '' : `${counted(lost, 'part', 'parts')} without a place`,
  ].filter((words) => words !== '').join(', ')
}

function wayBackInShort({ factoryParts, alterations }: StoredBuild): string {
  const out = factoryParts.filter(({ state }) => state !== 'fitted' && state !== 'altered').length
  const altered = alterations.filter(({ reversedOn }) => reversedOn === null).length
  const words = [
    out === 0 ? '' : `${counted(out, 'part', 'parts')} out`,
    altered === 0 ? '' : counted(altered, 'alteration', 'alterations'),
  ].filter((word) => word !== '')
  return words.length === 0 ? 'nothing out' : words.join(', ')
}
