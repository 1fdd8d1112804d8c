import { asset, at } from './asset.ts'
import { counted } from './text.ts'

export interface PhotoShown {
  readonly id: string
  readonly caption: string
  /** before, during or after the work; empty where nobody said. */
  readonly moment: string
  /** For those who do not see the picture. */
  readonly says: string
  /** When it was added, in the shop's zone. */
  readonly taken: string
  readonly width: number
  readonly height: number
  /** Where caption and moment are changed, for those who may. */
  readonly changeHref?: string | undefined
}

export interface PhotosProps {
  /** What the pictures are of, as "F-021 Door panel left". */
  readonly of: string
  readonly photos: readonly PhotoShown[]
  /** Null for those who may not add. */
  readonly upload: UploadProps | null
  /** More of the record than a page should carry. */
  readonly earlier: { readonly count: number, readonly href: string } | null
  readonly csrfToken: string
  readonly personId: string
}

export interface UploadProps {
  readonly key: string
  readonly subjectKind: string
  readonly subjectId: string
  /** The page that the answer leads back to. */
  readonly backHref: string
  /** When pictures of such a record are usually taken. */
  readonly moment: string
}

/** The pictures of a record, small, each leading to the large one; and the form that adds to them. */
export function Photos({ of, photos, upload, earlier, csrfToken, personId }: PhotosProps): JSX.Element {
  return (
    <section class="block photos" id="photos">
      <h2>Photos</h2>
      {earlier === null ? '' : <p><a class="link" href={at(earlier.href)} safe>{counted(earlier.count, 'earlier picture', 'earlier pictures')}</a></p>}
      {photos.length === 0 ? <p class="quiet">None yet.</p> : ''}
      <PhotoList photos={photos} />
      {upload === null ? '' : <Upload upload={upload} of={of} csrfToken={csrfToken} personId={personId} />}
    </section>
  )
}

export function PhotoList({ photos }: { photos: readonly PhotoShown[] }): JSX.Element {
  return (
    <ul class="photo-list">
      {photos.map((photo) => (
        <li>
          <Photo photo={photo} />
          {photo.changeHref === undefined ? '' : <a class="link" href={at(photo.changeHref)} aria-label={`Change caption or moment, or remove: ${photo.says}`}>Change</a>}
        </li>
      ))}
    </ul>
  )
}

const SMALL_SIDE_PX = 480

/** One picture with its caption; its place is kept free until it has come. */
export function Photo({ photo: { id, caption, moment, says, taken, width, height } }: { photo: PhotoShown }): JSX.Element {
  const scale = Math.min(1, SMALL_SIDE_PX / Math.max(width, height, 1))
  return (
    <figure class="photo">
      <a href={at(`/photos/${id}`)}>
        <img src={at(`/photos/${id}?size=small`)} alt={says} width={Math.round(width * scale)} height={Math.round(height * scale)} loading="lazy" decoding="async" />
      </a>
      <figcaption>{caption === '' ? '' : <span safe>{caption}</span>}{' '}<span class="quiet" safe>{moment === '' ? taken : `${moment}, ${taken}`}</span></figcaption>
    </figure>
  )
}

interface UploadPlace { readonly upload: UploadProps, readonly of: string, readonly csrfToken: string, readonly personId: string }

function Upload({ upload, of, csrfToken, personId }: UploadPlace): JSX.Element {
  return (
    <form class="upload" method="post" action={at('/photos')} enctype="multipart/form-data" data-outbox={personId} data-of={of} data-api={at('/api/photos')}>
      <input type="hidden" name="_csrf" value={csrfToken} />
      <input type="hidden" name="_key" value={upload.key} />
      <input type="hidden" name="subjectKind" value={upload.subjectKind} />
      <input type="hidden" name="subjectId" value={upload.subjectId} />
      <input type="hidden" name="back" value={upload.backHref} />
      <CaptionEntry />
      <MomentEntry moment={upload.moment} />
      <FilesEntry label={`Add photos of ${of}`} />
      <div class="deed">
        <button class="button" type="submit">Add photos</button>
        <span class="quiet" data-progress role="status"></span>
      </div>
      <ul class="queue" data-queue></ul>
      <script type="module" src={asset('photos.js')}></script>
    </form>
  )
}

function CaptionEntry(): JSX.Element {
  return (
    <label class="upload-entry">
      <span class="name">Caption</span>
      <span class="entry"><input type="text" name="caption" maxlength="200" autocomplete="off" /></span>
    </label>
  )
}

function MomentEntry({ moment }: { moment: string }): JSX.Element {
  return (
    <label class="upload-entry">
      <span class="name">Taken</span>
      <span class="entry">
        <select name="moment">
          {['', 'before', 'during', 'after'].map((each) => <option value={each} selected={each === moment} safe>{each === '' ? 'nobody said' : each}</option>)}
        </select>
      </span>
    </label>
  )
}

/** Pictures to choose or to take; entries of a form stand before it, since they are read first. */
export function FilesEntry({ label }: { label: string }): JSX.Element {
  return (
    <>
      <label class="upload-entry by-camera"><span class="name">Take a photo</span><input type="file" name="files" accept={ACCEPTED} {...{ capture: 'environment' }} /></label>
      <label class="upload-entry">
        <span class="name" safe>{label}</span>
        <input type="file" name="files" accept={ACCEPTED} multiple />
        <span class="quiet">JPEG, PNG or WebP, <span data-at-once>at most 10 at once, </span>15 MB each. The place where a picture was taken is not kept.</span>
      </label>
    </>
  )
}

// Naming the kinds makes phones hand over JPEG where they store another.
const ACCEPTED = 'image/jpeg,image/png,image/webp'

/** Progress, and the choice kept for another try; the form works without it. */
export function UploadScript(): JSX.Element {
  return <script src={asset('upload.js')} defer></script>
}
