import type { Working } from '../../server/calc/amounts.ts'
import type { CautionProps } from '../shared/caution.tsx'
import type { How } from '../shared/figure.tsx'
import type { HistoryEntry } from '../shared/history.tsx'
import type { StateName } from '../shared/marks.tsx'
import type { SavedProps } from '../shared/saved.tsx'
import type { Body, ZonePlace } from '../shared/zonePlaces.ts'

export interface NamedLink { readonly name: string, readonly href: string }

/** One line of a column: what it is, where it leads, and a quieter second line. */
export interface LedgerItem {
  /** F-041, E-05, P-400, A-2; or a word, as "work". */
  readonly number: string
  readonly name: string
  readonly href?: string | undefined
  readonly detail?: string | undefined
  /** Drawn before the detail; `detail` then says more than the state's own word, or repeats it. */
  readonly state?: StateName | undefined
  /** Person-hours, which open. */
  readonly hours?: { readonly text: string, readonly how: How } | undefined
}

/** A made part with the pieces that go into it, which fold. */
export interface LedgerPart extends LedgerItem {
  readonly pieces: readonly LedgerItem[]
}

export interface LedgerPoint {
  /** 4.1 is point 1 of zone 4. */
  readonly number: string
  readonly text: string
  readonly person: string
  readonly stopsWork: boolean
  readonly href?: string | undefined
}

/** Person-seconds. */
export interface ZoneHours {
  readonly estimate: number
  readonly logged: number
  readonly forecast: number
}

/** Where a manager adds to a zone; what may not be added is left out. */
export interface ZoneAdds {
  readonly point?: string | undefined
  readonly factoryPart?: string | undefined
  readonly equipmentLine?: string | undefined
  readonly madePart?: string | undefined
  readonly alteration?: string | undefined
}

export interface LedgerZone {
  readonly number: number
  readonly name: string
  readonly place: ZonePlace
  readonly href?: string | undefined
  readonly points: readonly LedgerPoint[]
  readonly hours: ZoneHours
  readonly cameOut: readonly LedgerItem[]
  readonly goesIn: readonly LedgerItem[]
  readonly madeHere: readonly LedgerPart[]
  readonly goesBack: readonly LedgerItem[]
  readonly add: ZoneAdds
}

export interface LedgerHours {
  readonly estimate: Working
  readonly logged: Working
  readonly remaining: Working
  readonly forecast: Working
  /** Hours of service visits, in none of the others; left out where there are none. */
  readonly afterDelivery?: Working | undefined
  /** Seconds the customer's consent reaches to, where it names hours. */
  readonly consent?: number | undefined
}

export interface LedgerData {
  readonly number: string
  readonly title: string
  /** counter job, everyday build, show build */
  readonly kind: string
  readonly customer: string
  /** Empty for those who do not see it. */
  readonly contact: string
  readonly vehicle: string
  /** Leased or owned, odometer, bay, in words. */
  readonly vehicleMore: string
  readonly body: Body
  readonly stage: { readonly name: string, readonly index: number, readonly count: number }
  /** Calendar dates or empty. */
  readonly promisedOn: string
  readonly wantedBy: string
  /** Left out for those who see no money. */
  readonly price?: Working | undefined
  readonly consent?: string | undefined
  readonly restoration: {
    readonly verdict: string
    readonly hours?: Working | undefined
    readonly cost?: Working | undefined
    readonly href: string
  }
  readonly hours: LedgerHours
  /** One sentence before the consent is reached, or empty. */
  readonly alarm: string
  readonly cautions: readonly CautionProps[]
  /** Where the walk-around is done, if work began without it. */
  readonly intakeHref?: string | undefined
  readonly zones: readonly LedgerZone[]
  /** Bill of materials, estimate, order of removal, return-to-stock sheet … */
  readonly sheets: readonly NamedLink[]
  /** Of a counter job: how far it is, the way to its timer, and a sentence once it has grown beyond one. */
  readonly job?: { readonly state: StateName, readonly startHref?: string | undefined, readonly grown: string } | undefined
  readonly editHref?: string | undefined
  readonly addZoneHref?: string | undefined
  /** What changed in the vehicle's records since delivery, the newest first; left out before it. */
  readonly sinceDelivery?: { readonly words: string, readonly changes: readonly { readonly when: string, readonly who: string, readonly what: string, readonly href: string }[], readonly allHref: string } | undefined
  readonly history: readonly HistoryEntry[]
  readonly saved?: SavedProps | undefined
}
