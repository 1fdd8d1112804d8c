import { at } from '../shared/asset.ts'
import { LAW_OF_PAPERS } from '../shared/paperWords.ts'
import { PaperDeposits, PaperLines, PaperOptions, PaperSaid, PaperTotals } from '../shared/paperTables.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Turn } from '../shared/strip.tsx'
import type { FrozenPaperData } from './paperData.ts'
import { ConsentForms } from './consentForm.tsx'

/** A frozen paper as it is read: what it comes to, what is in it, and the consent to it. */
export function FrozenPaper({ data, title }: { data: FrozenPaperData, title: string }): JSX.Element {
  const { view } = data
  return (
    <>
      <Strip>
        <NumberCell label={data.documentType} number={data.number} />
        <TitleCell label={`For ${data.customer}`} title={title} isNamed />
        <TextCell label="From" width="w4" text={data.shop} more={data.shopMore} />
        <Turn />
        <TextCell label="Vehicle" width="w4" text={data.vehicle} />
        <Cell label={`Total, ${view.totalsFor.toLowerCase()}`} width="w4"><span class="figure far recorded" safe>{data.total}</span></Cell>
        <TextCell label="Good until" width="w3" text={data.until} more={`of ${data.issued}`} />
      </Strip>
      {data.notice === null ? '' : <section class="block notice" role="status"><h2 safe>{data.notice.title}</h2><p safe>{data.notice.text}</p></section>}
      <div class="quote-halves">
        <div>
          <section class="block" aria-labelledby="lines"><h2 id="lines">What you get</h2><PaperLines view={view} isFrozen /></section>
          {view.options.length === 0 || data.consent !== null ? '' : <section class="block" aria-labelledby="options"><h2 id="options">Options</h2><PaperOptions view={view} isFrozen /></section>}
          <section class="block" aria-labelledby="sum">
            <h2 id="sum">Sum</h2>
            <p class="quiet" safe>{`${view.totalsFor}, in ${view.currency}.`}</p>
            <PaperTotals totals={view.totals} caption={view.totalsFor} isFrozen />
          </section>
        </div>
        <div>
          {view.deposits.length === 0 ? '' : <section class="block" aria-labelledby="deposits"><h2 id="deposits">Deposits</h2><PaperDeposits view={view} isFrozen /></section>}
          {view.said.length === 0 ? '' : <section class="block" aria-label="What else is said"><PaperSaid view={view} /></section>}
          <section class="block" aria-labelledby="content"><h2 id="content">This revision</h2><p class="hash"><span class="quiet">SHA-256 of its content: </span><code safe>{data.hash}</code></p><p class="row">{data.pdfs.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}</p><p class="quiet">{LAW_OF_PAPERS}</p></section>
        </div>
      </div>
      {data.consent === null ? '' : <ConsentForms data={data} consent={data.consent} />}
    </>
  )
}
