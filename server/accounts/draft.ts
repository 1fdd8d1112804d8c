import { createHash } from 'node:crypto'
import { figuresOf, refusedAsProblem } from '../builds/figures.ts'
import { loadBuild } from '../builds/store.ts'
import { accountOf } from '../calc/quotes/account.ts'
import { lessEarlier } from '../calc/quotes/invoicing.ts'
import { taxByCode } from '../calc/quotes/tax.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'
import { acceptedLines, acceptedTotal, sumOfParts } from './accepted.ts'
import { mustFit, type AcceptedPart, type Basis, type InvoiceContent, type InvoiceLine } from './content.ts'
import { earlierParts, heldBy, isTakenBack, standingsOf, type Standing } from './standing.ts'
import { getHead, listInvoices, listPayments, type Head } from './store.ts'
import { codesOf, withOneRateACode } from './taxCodes.ts'
import { timeAndMaterial, type OfferedLine } from './timeLines.ts'

/** What somebody wants invoiced. */
export interface DraftAsked {
  readonly basis: Basis
  /** By the keys of the offered lines; null for the usual: all but rework and the fasteners of the way back. */
  readonly chosen: readonly string[] | null
}

/** An invoice as it would be issued now. */
export interface Draft extends Pick<InvoiceContent, 'basis' | 'lines' | 'parts' | 'whole' | 'earlier' | 'total' | 'paidAheadMinor'> {
  readonly head: Head
  /** Everything that could stand on it. */
  readonly offered: readonly OfferedLine[]
  readonly chosen: readonly string[]
  /** With this invoice, what is charged over what was accepted, with tax; 0 where nothing is over, or nothing was accepted. */
  readonly overMinor: number
  readonly isAccepted: boolean
  /** Credit notes on invoices that stand: what they took back of what was accepted is charged again. */
  readonly creditedAgain: readonly string[]
  /** Changes with anything on it: what is issued is what was looked at. */
  readonly fingerprint: string
}

/** Charged unless it is left out; the others are charged when they are ticked. */
const isUsual = ({ offer }: OfferedLine): boolean => !/^[rs]/.test(offer)

/** Throws a 409 where nothing can be invoiced on this basis. */
export async function draftOf(client: Reads | Write, buildId: string, { basis, chosen: asked }: DraftAsked, currency: string): Promise<Draft> {
  const head = await getHead(client, buildId)
  const documents = await listInvoices(client, buildId)
  const standings = standingsOf(documents)
  refuseOtherBasis(standings, basis)
  const { offered, parts } = await offeredLines(client, buildId, basis, standings)
  const chosen = basis === 'accepted' ? offered.map(({ offer }) => offer) : (asked?.filter((wanted) => offered.some(({ offer }) => offer === wanted)) ?? offered.filter(isUsual).map(({ offer }) => offer))
  const lines = toLines(offered.filter(({ offer }) => chosen.includes(offer)))
  const earlier = basis === 'accepted' ? earlierParts(standings) : []
  const whole = basis === 'accepted' ? sumOfParts(parts) : taxByCode(lines)
  const total = lessEarlier(whole, earlier.map(({ codes }) => codes))
  mustFit(whole.netMinor, currency, 'What is invoiced')
  mustFit(total.totalMinor, currency, 'This invoice')
  const { aheadMinor } = accountOf(documents, await listPayments(client, buildId))
  const paidAheadMinor = Math.max(Math.min(aheadMinor, total.totalMinor), 0)
  const fingerprint = createHash('sha256').update(JSON.stringify([basis, lines, parts, earlier, total, paidAheadMinor])).digest('hex').slice(0, 32)
  const accepted = await acceptedTotal(client, buildId)
  const overMinor = accepted === null ? 0 : Math.max(standings.reduce((sum, { left }) => sum + left.totalMinor, 0) + total.totalMinor - accepted.totalMinor, 0)
  const creditedAgain = basis === 'accepted' ? standings.filter((one) => !isTakenBack(one)).flatMap(({ credits }) => credits.map(({ number }) => number)) : []
  return { head, basis, offered, chosen, creditedAgain, overMinor, isAccepted: accepted !== null, lines, parts, whole, earlier, total, paidAheadMinor, fingerprint }
}

async function offeredLines(client: Reads | Write, buildId: string, basis: Basis, standings: readonly Standing[]): Promise<{ readonly offered: readonly OfferedLine[], readonly parts: readonly AcceptedPart[] }> {
  if (basis === 'accepted') {
    const accepted = await acceptedTotal(client, buildId)
    if (!accepted) throw new Problem(409, 'Nothing accepted yet', 'The customer has accepted no quote of this build. Freeze one and take down the answer, or invoice time and material.')
    return acceptedLines(accepted)
  }
  const stored = await loadBuild(client as Reads, buildId)
  const codes = await codesOf(client, buildId)
  return { offered: refusedAsProblem(stored, () => timeAndMaterial(figuresOf(stored), heldBy(standings), codes)), parts: [] }
}

function toLines(offered: readonly OfferedLine[]): InvoiceLine[] {
  return withOneRateACode(offered).map(({ offer: _, ...line }, index) => ({ ...line, key: `L${index + 1}` }))
}

function refuseOtherBasis(standings: readonly Standing[], basis: Basis): void {
  const other = standings.find((one) => one.invoice.basis !== basis && !isTakenBack(one))
  if (!other) return
  throw new Problem(409, 'This build is invoiced otherwise', `${other.invoice.number} was issued from ${other.invoice.basis === 'accepted' ? 'what was accepted' : 'time and material'}. `
    + 'To invoice the same work in two ways would charge it twice. Credit that invoice whole first; more work on what was accepted is a change order.')
}
