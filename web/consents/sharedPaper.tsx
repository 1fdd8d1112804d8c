import { SharedFrame } from '../shared/sharedFrame.tsx'
import { FrozenPaper } from './frozenPaper.tsx'
import type { FrozenPaperData } from './paperData.ts'

/** A quote or a change order for whoever holds its link: to read, to answer, to keep. */
export function SharedPaperPage({ data }: { data: FrozenPaperData }): JSX.Element {
  return <SharedFrame title={`${data.number} ${data.title}`} shopName={data.shop}><FrozenPaper data={data} title={data.title} /></SharedFrame>
}
