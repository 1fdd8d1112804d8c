import { at } from '../shared/asset.ts'
import { CheckEntry, Fields, Form, LongEntry, problemOf, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Saved } from '../shared/saved.tsx'
import { Cell, NumberCell, Strip, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import type { Viewer } from '../shared/viewer.ts'
import type { StoryForm } from './storyData.ts'

const MOMENTS = ['before', 'during', 'after'] as const

/** What of a build is told: words, pictures, parts, and whether people, hours and materials show. */
export function StoryFormPage({ viewer, data }: { viewer: Viewer, data: StoryForm }): JSX.Element {
  const { values, shows, problems } = data
  const entry = (name: string, label: string, note?: string) => ({ name, label, note, problem: problemOf(problems, name) })
  return (
    <Frame title={`Story of ${data.number} ${data.buildTitle}`} place="builds" viewer={viewer}>
      {data.saved ? <Saved what="the story" csrfToken={viewer.csrfToken} /> : ''}
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Story of" number={data.number} />
        <TitleCell label="Title" title={data.buildTitle} />
        <Turn />
        <Cell label="Also" width="w3"><div class="row">{data.links.length === 0 ? <span class="quiet">Save it first.</span> : data.links.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}</div></Cell>
      </Strip>
      <section class="block">
        <p>Anybody who has the link or the card reads it. Names of customers, plates, VINs, addresses, serial numbers and prices never stand in it; what a picture shows nobody but you can tell: look for plates, faces and house numbers.</p>
        <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} version={data.version} problems={problems} submit="Save the story">
          <Fields>
            <TextEntry {...entry('title', 'Title')} value={values.title} required />
            <LongEntry {...entry('opening', 'Opening')} value={values.opening} />
            <LongEntry {...entry('closing', 'Closing')} value={values.closing} />
            <CheckEntry {...entry('showsPeople', 'People')} value={shows.showsPeople} says="First names; everybody named has agreed" />
            <CheckEntry {...entry('showsHours', 'Hours')} value={shows.showsHours} says="Hours show" />
            <CheckEntry {...entry('showsMaterials', 'Materials')} value={shows.showsMaterials} says="Materials show" />
          </Fields>
          <Pictures data={data} />
          <Parts data={data} />
        </Form>
      </section>
    </Frame>
  )
}

function Pictures({ data: { photos, problems } }: { data: StoryForm }): JSX.Element {
  return (
    <fieldset class="fields">
      <legend>Pictures</legend>
      {photos.length === 0 ? <p class="quiet">No photos of this build yet.</p> : (
        <ul class="story-choice">
          {photos.map(({ id, caption, isChosen, moment, words }) => (
            <li>
              <label class="pick"><input type="checkbox" name="picture" value={id} checked={isChosen} /><img src={at(`/photos/${id}?size=small`)} alt={caption === '' ? 'Photo without a caption' : caption} loading="lazy" /></label>
              <label>Moment <select name={`moment.${id}`}>{MOMENTS.map((one) => <option value={one} selected={one === moment}>{one}</option>)}</select></label>
              <label>Words <input type="text" name={`words.${id}`} value={words} maxlength="200" /></label>
              {problemOf(problems, `words.${id}`) === undefined ? '' : <p class="wrong" id={`field-words.${id}`} safe>{problemOf(problems, `words.${id}`)?.message ?? ''}</p>}
            </li>
          ))}
        </ul>
      )}
    </fieldset>
  )
}

function Parts({ data: { parts, problems } }: { data: StoryForm }): JSX.Element {
  return (
    <fieldset class="fields">
      <legend>Made parts</legend>
      {parts.length === 0 ? <p class="quiet">Nothing was made here.</p> : (
        <ul class="story-parts">
          {parts.map(({ id, name, isChosen, words }) => (
            <li>
              <label class="pick"><input type="checkbox" name="part" value={id} checked={isChosen} /><span safe>{name}</span></label>
              <input type="text" name={`words.${id}`} value={words} maxlength="200" aria-label={`Words to ${name}`} />
              {problemOf(problems, `words.${id}`) === undefined ? '' : <p class="wrong" id={`field-words.${id}`} safe>{problemOf(problems, `words.${id}`)?.message ?? ''}</p>}
            </li>
          ))}
        </ul>
      )}
    </fieldset>
  )
}
