import { at } from '../shared/asset.ts'
import { Cautions } from '../shared/caution.tsx'
import { writeDay } from '../shared/day.ts'
import { Explained } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { History } from '../shared/history.tsx'
import { Mark, State } from '../shared/marks.tsx'
import { Saved } from '../shared/saved.tsx'
import { StageScale } from '../shared/stages.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Turn } from '../shared/strip.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import { HoursBlock } from './hoursBlock.tsx'
import type { LedgerData } from './ledgerData.ts'
import { LEDGER_NOTE, LedgerNotes } from './ledgerNotes.tsx'
import { SinceDelivery } from './sinceDelivery.tsx'
import { ZoneIndex } from './zoneIndex.tsx'
import { ZoneLedger } from './zoneLedger.tsx'

export type * from './ledgerData.ts'

/** The heart of a build: strip, hours, plan, and zone by zone what came out, goes in, is made, goes back. */
export function LedgerPage({ viewer, data }: { viewer: Viewer, data: LedgerData }): JSX.Element {
  return (
    <Frame title={`${data.number} ${data.title}`} place="builds" viewer={viewer}>
      {data.saved === undefined ? '' : <Saved {...data.saved} />}
      <BuildStrip viewer={viewer} data={data} />
      {data.job === undefined ? '' : <Job data={data} job={data.job} />}
      <Cautions cautions={data.cautions} />
      <HoursBlock hours={data.hours} alarm={data.alarm} reader={viewer} />
      <ZoneIndex body={data.body} zones={data.zones} addZoneHref={data.addZoneHref} />
      <ZoneLedger zones={data.zones} />
      <SinceDelivery data={data.sinceDelivery} />
      <LedgerNotes data={data} reader={viewer} />
      <History entries={data.history} />
    </Frame>
  )
}

function Job({ data, job: { startHref, grown } }: { data: LedgerData, job: NonNullable<LedgerData['job']> }): JSX.Element {
  return (
    <section class="deed" aria-label="Counter job">
      {startHref === undefined ? '' : <a class="button first" href={at(startHref)}>To the timer</a>}
      {grown === '' ? '' : <span><Mark name="point" />{' '}<strong safe>{grown}</strong></span>}
      {grown === '' || data.editHref === undefined ? '' : <a class="link" href={at(data.editHref)}>Change its kind</a>}
    </section>
  )
}

function BuildStrip({ viewer, data }: { viewer: Viewer, data: LedgerData }): JSX.Element {
  return (
    <Strip>
      <NumberCell label="Build" number={data.number} />
      <TitleCell label="Title" title={data.title} />
      <TextCell label="Customer" width="w5" text={data.customer} more={data.contact} />
      <Turn />
      <TextCell label="Vehicle" width="w4" text={data.vehicle} more={data.vehicleMore} />
      <Cell label="Stage" width="w3">
        {data.job === undefined ? '' : <><State name={data.job.state} />{', '}</>}
        <span safe>{data.stage.name}</span> <span class="quiet">{data.stage.index} of {data.stage.count}</span>
        <StageScale index={data.stage.index} count={data.stage.count} />
      </Cell>
      <Promised data={data} />
      <Price viewer={viewer} data={data} />
      <Turn />
      <WayBack viewer={viewer} data={data} />
      <Points data={data} />
      <Turn />
      <Sheets data={data} />
    </Strip>
  )
}

function Promised({ data }: { data: LedgerData }): JSX.Element {
  const wanted = data.wantedBy === '' ? '' : `wanted by ${writeDay(data.wantedBy)}`
  return (
    <Cell label="Promised" width="w4">
      {data.promisedOn === '' ? <span>no date yet</span> : <span class="figure far recorded" safe>{writeDay(data.promisedOn)}</span>}
      {wanted === '' ? '' : <span class="sub" safe>{wanted}</span>}
    </Cell>
  )
}

function Price({ viewer, data }: { viewer: Viewer, data: LedgerData }): JSX.Element {
  if (data.price === undefined) return ''
  return (
    <Cell label="Price" width="w3">
      <Explained working={data.price} reader={viewer} /><OnPaper note={LEDGER_NOTE.price} />
      {data.consent === undefined ? '' : <span class="sub" safe>{data.consent}</span>}
    </Cell>
  )
}

function WayBack({ viewer, data: { restoration } }: { viewer: Viewer, data: LedgerData }): JSX.Element {
  return (
    <Cell label="Going back to stock" width="w7">
      <strong safe>{restoration.verdict}</strong>
      <div class="row">
        {restoration.hours === undefined ? '' : <span><Explained working={restoration.hours} reader={viewer} /><OnPaper note={LEDGER_NOTE.wayBack} /></span>}
        {restoration.cost === undefined ? '' : <span><Explained working={restoration.cost} reader={viewer} /><OnPaper note={LEDGER_NOTE.costOfWayBack} /></span>}
        <a href={at(restoration.href)}>Return-to-stock sheet</a>
      </div>
    </Cell>
  )
}

function OnPaper({ note }: { note: number }): JSX.Element {
  return <sup class="note-no on-paper">{note}</sup>
}

function Points({ data: { zones, intakeHref } }: { data: LedgerData }): JSX.Element {
  const open = zones.flatMap(({ points }) => points)
  const stopping = zones.flatMap((zone) => zone.points.filter(({ stopsWork }) => stopsWork).map((point) => ({ zone, point })))
  return (
    <Cell label="Open points" width="w5">
      {open.length === 0 ? <span class="quiet">none</span> : (
        <><Mark name="point" />{' '}<strong safe>{`${open.length} open in ${counted(zones.filter(({ points }) => points.length > 0).length, 'zone', 'zones')}.`}</strong></>
      )}
      {stopping.length === 0 ? '' : <span class="quiet"> Stops work: </span>}
      {stopping.map(({ zone, point }) => <><a class="no" href={`#zone-${zone.number}-points`} safe>{point.number}</a>{' '}</>)}
      {intakeHref === undefined ? '' : <a class="sub" href={at(intakeHref)}>The vehicle was not looked at all over at intake</a>}
    </Cell>
  )
}

function Sheets({ data }: { data: LedgerData }): JSX.Element {
  return (
    <Cell label="Sheets of this build" width="w7">
      <div class="row">
        {data.sheets.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}
        {data.editHref === undefined ? '' : <a href={at(data.editHref)}>Change this build</a>}
      </div>
    </Cell>
  )
}
