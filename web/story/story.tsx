import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { SharedFrame } from '../shared/sharedFrame.tsx'
import { Cell, Strip, TextCell, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import { capital } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import type { StoryData } from './storyData.ts'

/** The story as whoever holds the link reads it. */
export function SharedStoryPage({ data }: { data: StoryData }): JSX.Element {
  return <SharedFrame title={data.title} shopName={data.shopName}><Story data={data} /></SharedFrame>
}

/** The same for whoever writes it. */
export function StoryPreviewPage({ viewer, data, trail }: { viewer: Viewer, data: StoryData, trail: readonly TrailStep[] }): JSX.Element {
  return <Frame title={data.title} place="builds" viewer={viewer}><Trail steps={trail} /><Story data={data} /></Frame>
}

function Story({ data }: { data: StoryData }): JSX.Element {
  return (
    <>
      <Strip>
        <TitleCell label={data.kind} title={data.title} />
        <Turn />
        <TextCell label="Vehicle" text={data.vehicle} />
        <TextCell label="Made by" text={data.shopName} more={data.people.join(', ')} />
        {data.hours === null ? '' : <Cell label="In so many hours"><span class="keep"><span class="figure" safe>{data.hours.total}</span><sup class="note-no">1</sup></span></Cell>}
      </Strip>
      {data.opening === '' ? '' : <section class="block"><p class="prose story-text" safe>{data.opening}</p></section>}
      {data.moments.map(({ moment, pictures }) => (
        <section class="block">
          <h2 safe>{capital(moment)}</h2>
          <ul class="story-pictures">
            {pictures.map(({ src, large, words, says, width, height }) => (
              <li><a href={at(large)}><img src={at(src)} alt={says} width={width} height={height} loading="lazy" /></a>{words === '' ? '' : <p safe>{words}</p>}</li>
            ))}
          </ul>
        </section>
      ))}
      <Parts data={data} />
      {data.hours === null ? '' : <section class="block"><h2>Hours by kind of work</h2><ul>{data.hours.by.map(({ name, hours }) => <li><span safe>{`${name}: ${hours}`}</span></li>)}</ul><ol class="notes"><li>Hours of work as they were logged, rework with them, waiting without; those of a part with all that goes into it.</li></ol></section>}
      {data.closing === '' ? '' : <section class="block"><p class="prose story-text" safe>{data.closing}</p></section>}
    </>
  )
}

const COLUMNS = [{ name: 'Made' }, { name: 'By' }, { name: 'Hours', note: 1 }, { name: 'Of' }] as const

function Parts({ data: { parts, hours } }: { data: StoryData }): JSX.Element {
  if (parts.length === 0) return ''
  const showsHours = hours !== null
  const columns = hours === null ? COLUMNS.filter(({ name }) => name !== 'Hours') : COLUMNS
  return (
    <section class="block">
      <h2>What was made</h2>
      <Table columns={columns} caption="What was made" class="story-parts-told">
        {parts.map(({ name, words, hours: inHours, people, materials }) => <tr><th scope="row"><span safe>{name}</span>{words === '' ? '' : <span class="sub" safe>{words}</span>}</th><WordCell is="by" text={people.join(', ')} />{showsHours ? <WordCell is="in" text={inHours} /> : ''}<WordCell is="of" text={materials} /></tr>)}
      </Table>
    </section>
  )
}

/** A card of half a sheet, to lie on the seat or stand by the vehicle. */
export function StoryCardPage({ viewer, data, backHref }: { viewer: Viewer, data: StoryData, backHref: string }): JSX.Element {
  const pictures = data.moments.flatMap(({ moment, pictures: [first] }) => (first ? [{ moment, ...first }] : []))
  return (
    <Frame title={`Card: ${data.title}`} place="builds" viewer={viewer} kind="paper">
      <div class="paper-deeds"><a class="link" href={at(backHref)}>Back to the story</a><button class="button" type="button" data-print hidden>Print</button><span class="quiet">A5, lying.</span></div>
      <article class="story-card">
        <header><h1 safe>{data.title}</h1><p safe>{[data.vehicle, data.shopName].filter((text) => text !== '').join(' · ')}</p></header>
        <ul class="story-pictures">{pictures.map(({ moment, src, says, words, width, height }) => <li><img src={at(src)} alt={says} width={width} height={height} /><p><span class="label" safe>{moment}</span> <span safe>{words}</span></p></li>)}</ul>
        {data.opening === '' ? '' : <p class="prose" safe>{data.opening}</p>}
        <p>{data.parts.length === 0 ? '' : <span safe>{`Made: ${data.parts.map(({ name }) => name).join(', ')}.`}</span>}{data.hours === null ? '' : <span safe>{` In ${data.hours.total}.`}</span>}{data.people.length === 0 ? '' : <span safe>{` By ${data.people.join(', ')}.`}</span>}</p>
      </article>
    </Frame>
  )
}
