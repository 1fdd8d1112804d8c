import { at } from '../shared/asset.ts'
import { Form, Fields, LongEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

export interface TakesData {
  readonly takes: readonly { readonly number: number, readonly href: string, readonly name: string, readonly dates: string, readonly moves: string, readonly note: string }[]
  /** Null where one is open, or the role does not begin any. */
  readonly begin: { readonly key: string } | null
  readonly expected: number
}

/** The stock-takes of the shop, newest first, and the next one begun. */
export function TakesPage({ viewer, data }: { viewer: Viewer, data: TakesData }): JSX.Element {
  return (
    <Frame title="Stock-takes" place="builds" viewer={viewer}>
      <Strip>
        <TitleCell label={viewer.shopName} title="Stock-takes" />
        <TextCell label="Factory parts that should lie here" width="w4" text={String(data.expected)} />
      </Strip>
      <section class="block">
        {data.takes.length === 0 ? <p class="quiet">None yet. Once a year every bin is looked into: what lies here, what lies elsewhere, what is not found.</p> : (
          <Table columns={[{ name: 'No.' }, { name: 'Stock-take' }, { name: 'When' }, { name: 'What moved' }]} caption="Stock-takes, newest first">
            {data.takes.map(({ number, href, name, dates, moves, note }) => (
              <tr><td class="no">{number}</td><th scope="row"><a href={at(href)} safe>{name}</a>{note === '' ? '' : <span class="sub" safe>{note}</span>}</th><WordCell text={dates} /><WordCell text={moves} /></tr>
            ))}
          </Table>
        )}
      </section>
      {data.begin === null ? '' : (
        <section class="block">
          <h2>Begin a stock-take</h2>
          <Form action="/stock-takes" csrfToken={viewer.csrfToken} idempotencyKey={data.begin.key} submit="Begin" note="Of the whole shop. Several people can count at once.">
            <Fields><LongEntry name="note" label="Note" value="" /></Fields>
          </Form>
        </section>
      )}
      <div class="deed"><a class="link" href={at('/custody')}>All that the shop keeps</a></div>
    </Frame>
  )
}
