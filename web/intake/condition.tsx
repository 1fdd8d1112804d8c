import { MarkPlan } from '../shared/markPlan.tsx'
import { Photo } from '../shared/photos.tsx'
import { Paper, Signatures } from '../shared/printSheet.tsx'
import type { TitleBlockFields } from '../shared/printSheet.tsx'
import { Signature } from '../shared/signature.tsx'
import type { Viewer } from '../shared/viewer.ts'
import type { IntakeShown } from './intakeData.ts'
import { Codes, Facts, Marks } from './parts.tsx'

export interface ConditionData extends IntakeShown {
  readonly titleBlock: TitleBlockFields
  readonly backHref: string
}

/** How the vehicle came, on paper: marks on the outline and in a table, pictures, fault codes, signature. */
export function ConditionPage({ viewer, data }: { viewer: Viewer, data: ConditionData }): JSX.Element {
  const pictures = data.marks.flatMap((mark) => mark.photos.map((photo) => ({ ...photo, caption: [mark.label, photo.caption].filter((word) => word !== '').join(' ') })))
  return (
    <Paper viewer={viewer} titleBlock={data.titleBlock} backHref={data.backHref}>
      <section><h2>As it came</h2><Facts facts={data.facts} /></section>
      <section class="together">
        <h2>Damage that was there before</h2>
        <MarkPlan body={data.body} marks={data.marks} />
        <p class="note">Walk-around: <span safe>{data.walked}</span>. A dashed ring is from after the signature.</p>
      </section>
      <section><Marks marks={data.marks} /></section>
      {pictures.length === 0 ? '' : <section><h2>Pictures</h2><ul class="photo-list">{pictures.map((photo) => <li><Photo photo={photo} /></li>)}</ul></section>}
      <section><h2>Fault codes read</h2><Codes codes={data.codes} /></section>
      <section class="together">
        <h2>Signed</h2>
        {data.signed === null
          ? <Signatures fields={[{ label: 'Handed over by' }, { label: 'Date' }, { label: 'Taken in by' }, { label: 'Date' }]} />
          : <Signature signed={data.signed} />}
      </section>
    </Paper>
  )
}
