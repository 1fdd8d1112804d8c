import { at } from '../shared/asset.ts'
import { Cautions } from '../shared/caution.tsx'
import { Explained, Figure } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { History } from '../shared/history.tsx'
import { Mark } from '../shared/marks.tsx'
import { Photos } from '../shared/photos.tsx'
import { Saved } from '../shared/saved.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import { escapeProse } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import { Finishes } from './finishesOfPart.tsx'
import { HoursLogged } from './hoursLogged.tsx'
import { Materials } from './materialsOfPart.tsx'
import { Operations } from './operationsOfPart.tsx'
import type { PartData } from './partData.ts'
import { PlaceInTree } from './placeInTree.tsx'

export type * from './partData.ts'

/** One made part: what is to be done, with what, how far it is, and how it comes off again. */
export function PartPage({ viewer, data }: { viewer: Viewer, data: PartData }): JSX.Element {
  return (
    <Frame title={`${data.number} ${data.name}`} place="builds" viewer={viewer}>
      {data.saved === undefined ? '' : <Saved {...data.saved} />}
      <Trail steps={data.trail} />
      <PartStrip viewer={viewer} data={data} />
      <Cautions cautions={data.cautions} />
      <div class="two">
        <div>
          <Operations operations={data.operations} reader={viewer} addHref={data.links.addOperation} />
          <Materials materials={data.materials} reader={viewer} addHref={data.links.addMaterial} />
          <Finishes finishes={data.finishes} addHref={data.links.addFinish} scheduleHref={data.links.schedule} />
          <HoursLogged entries={data.entries} logHref={data.links.log} />
        </div>
        <div>
          <PlaceInTree tree={data.tree} addHref={data.links.addPiece} assemblyHref={data.links.addToAssembly} />
          <GoesBack data={data} />
          <Note data={data} />
        </div>
      </div>
      {data.photos === undefined ? '' : <Photos {...data.photos} />}
      <History entries={data.history} />
    </Frame>
  )
}

function PartStrip({ viewer, data }: { viewer: Viewer, data: PartData }): JSX.Element {
  return (
    <Strip>
      <NumberCell label="Part" number={data.number} />
      <TitleCell label={data.family === '' ? 'Title' : data.family} title={data.name} />
      <TextCell label="Quantity" width="w2" text={data.quantity} />
      <TextCell label="Fits to" text={data.fitsTo} />
      <Turn />
      <Cell label="Estimate" width="w2"><Explained working={data.hours.estimate} reader={viewer} /></Cell>
      <Cell label="Logged" width="w2"><Explained working={data.hours.logged} reader={viewer} byHand /></Cell>
      <Cell label="Remaining" width="w2"><Explained working={data.hours.remaining} reader={viewer} /></Cell>
      <Cell label="Forecast" width="w2"><Explained working={data.hours.forecast} reader={viewer} /></Cell>
      {data.money === undefined ? '' : (
        <>
          <Turn />
          <Cell label="Price, itself" width="w2"><Explained working={data.money.price} reader={viewer} /></Cell>
          <Cell label="Cost when finished" width="w2"><Explained working={data.money.cost} reader={viewer} /></Cell>
          <Cell label="Margin, itself" width="w2"><Explained working={data.money.margin} reader={viewer} /></Cell>
          {data.money.withPieces === undefined ? '' : <Cell label="Margin, with all that goes into it" width="w2"><Explained working={data.money.withPieces} reader={viewer} /></Cell>}
          <Turn />
        </>
      )}
      <TextCell label="On it now" text={data.onItNow === '' ? 'nobody' : data.onItNow} />
      <Cell label="Drawing" width="w3">
        <span safe>{data.drawing === '' ? 'none yet' : data.drawing}</span>
        {data.mass === undefined ? '' : <> · <Figure amount={data.mass} reader={viewer} isRecorded /> <span class="quiet">each</span></>}
        {data.links.edit === undefined ? '' : <> · <a href={at(data.links.edit)}>Change this part</a></>}
        {data.origin === undefined ? '' : <> · copied from <a href={at(data.origin.href)} safe>{data.origin.text}</a>, <a href={at(data.origin.comparisonHref)}>compare</a></>}
        {data.links.record === undefined ? '' : <> · <a href={at(data.links.record)}>Its record</a></>}
      </Cell>
    </Strip>
  )
}

function GoesBack({ data }: { data: PartData }): JSX.Element {
  const safeText = escapeProse(data.goesBack)
  return (
    <section class="block">
      <h2>Goes back</h2>
      {data.goesBack === ''
        ? <p><Mark name="point" /> Nobody has written how it comes off again without destroying anything.</p>
        : <p><Mark name="back" /> {safeText}</p>}
    </section>
  )
}

function Note({ data }: { data: PartData }): JSX.Element {
  if (data.note === '') return ''
  return <section class="block"><h2>Note</h2><p class="prose" safe>{data.note}</p></section>
}
