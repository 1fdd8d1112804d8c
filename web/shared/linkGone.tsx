import { SharedFrame } from './sharedFrame.tsx'
import { Strip, TitleCell } from './strip.tsx'

/** One page for links that never were, have expired or were withdrawn: it says nothing of what there may have been. */
export function LinkGonePage(): JSX.Element {
  return (
    <SharedFrame title="Nothing here" shopName="" kind="narrow">
      <Strip><TitleCell label="Link" title="This link leads nowhere" /></Strip>
      <section class="block">
        <p class="lead">It may have been copied only in part, its time may be over, or the shop may have withdrawn it.</p>
        <p>Ask the shop that gave it to you for a new one.</p>
      </section>
    </SharedFrame>
  )
}
