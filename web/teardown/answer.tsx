import { at } from '../shared/asset.ts'
import { Photo } from '../shared/photos.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import type { BinChoice, CurrentPart, TeardownData } from './teardownData.ts'

const ACCEPTED = 'image/jpeg,image/png,image/webp'

/** Two taps: the camera, then a bin. Without a script both go in one sending. */
export function AnswerForm({ data, part, viewer }: { data: TeardownData, part: CurrentPart, viewer: Viewer }): JSX.Element {
  const page = at(`/builds/${data.buildId}/teardown`)
  return (
    <form class="answer" id="answer" method="post" action={page} enctype="multipart/form-data" novalidate>
      <input type="hidden" name="_csrf" value={viewer.csrfToken} />
      <input type="hidden" name="_key" value={data.key} />
      <input type="hidden" name="factoryPartId" value={part.id} />
      {/* Enter in a field must not press the first bin. */}
      <button type="submit" disabled hidden></button>
      <PhotoTap part={part} />
      <BinTap data={data} />
      <OtherAnswers data={data} />
    </form>
  )
}

function PhotoTap({ part: { photos, photoCount } }: { part: CurrentPart }): JSX.Element {
  return (
    <section class="tap" aria-labelledby="tap-photo">
      <h2 id="tap-photo"><span class="balloon" aria-hidden="true">1</span>Photo</h2>
      <label class="camera by-camera"><span>Take a photo</span><input type="file" name="files" accept={ACCEPTED} {...{ capture: 'environment' }} /></label>
      <label class="camera from-gallery"><span>Choose photos</span><input type="file" name="files" accept={ACCEPTED} multiple /></label>
      <ul class="photo-list" id="photos">{photos.map((photo) => <li><Photo photo={photo} /></li>)}</ul>
      <p class="quiet" data-taken safe>{photoCount === 0 ? 'None of this part yet.' : `${counted(photoCount, 'photo', 'photos')} of this part.`}</p>
    </section>
  )
}

// The first across, the others two by two; more would push what else can be said off the screen.
const MOST_LARGE = 5

function BinTap({ data: { bins, newBin } }: { data: TeardownData }): JSX.Element {
  const first = bins.slice(0, MOST_LARGE)
  const others = bins.slice(MOST_LARGE)
  return (
    <section class="tap" id="bin-tap" aria-labelledby="tap-bin">
      <h2 id="tap-bin"><span class="balloon" aria-hidden="true">2</span>Where it goes</h2>
      <div class="bins">{first.map((bin, index) => <BinButton bin={bin} isFirst={index === 0} />)}</div>
      {others.length === 0 ? '' : (
        <details class="folded"><summary safe>{counted(others.length, 'other bin', 'other bins')}</summary><div class="bins">{others.map((bin) => <BinButton bin={bin} isFirst={false} />)}</div></details>
      )}
      <details class="folded" open={bins.length === 0}>
        <summary>A new bin</summary>
        <div class="new-bin">
          <label><span class="name">Number</span><span class="entry"><input class="count" name="newBin" value={String(newBin)} inputmode="numeric" autocomplete="off" id="field-newBin" /></span></label>
          <label><span class="name">Where it stands</span><span class="entry"><input name="newPlace" autocomplete="off" maxlength="200" placeholder="can follow" /></span></label>
          <button class="button" type="submit" name="into" value="new">Into the new bin</button>
        </div>
      </details>
      <p class="quiet">After this tap the record is complete. Fasteners, torque and the rest can follow.</p>
    </section>
  )
}

function BinButton({ bin: { number, name, words }, isFirst }: { bin: BinChoice, isFirst: boolean }): JSX.Element {
  return <button class={['button', isFirst && 'first']} type="submit" name="into" value={String(number)}><span safe>{`Into ${name}`}</span><small safe>{words}</small></button>
}

function OtherAnswers({ data: { bins } }: { data: TeardownData }): JSX.Element {
  return (
    <section class="tap" aria-labelledby="tap-other">
      <h2 id="tap-other">Or it is</h2>
      <div class="bins">
        <button class="button" type="submit" name="kind" value="loosened">Loosened, stays in</button>
        <button class="button" type="submit" name="kind" value="stays">Stays as it is</button>
      </div>
      <details class="folded" id="marred">
        <summary>Broken or altered</summary>
        <div class="new-bin">
          <label><span class="name">How</span><span class="entry"><input name="marredHow" autocomplete="off" maxlength="200" placeholder="two tabs torn off" /></span></label>
          <label>
            <span class="name">Where it is</span>
            <span class="entry"><select name="marredBin"><option value="">still in the vehicle</option>{bins.map(({ number, name }) => <option value={String(number)} safe>{`in ${name}`}</option>)}</select></span>
          </label>
          <button class="button" type="submit" name="kind" value="broke">It broke</button>
          <button class="button" type="submit" name="kind" value="altered">It was altered<small>what was done is asked next</small></button>
        </div>
      </details>
    </section>
  )
}
