import { at } from './asset.ts'
import { Table, WordCell } from './table.tsx'
import type { Viewer } from './viewer.ts'

export interface LinkRow {
  readonly id: string
  readonly to: string
  readonly forWhom: string
  /** When and by whom. */
  readonly made: string
  readonly until: string
  readonly state: 'open' | 'expired' | 'withdrawn'
  /** Of the form that withdraws it; null where it is over or this reader may not. */
  readonly key: string | null
}

/** A link right after it was made; its address is null when the request was a repetition. */
export interface Made {
  readonly name: string
  readonly address: string | null
}

/** The address of a new link, this once. */
export function MadeLink({ made, who = 'Whoever has it can read the page.' }: { made: Made, who?: string }): JSX.Element {
  return (
    <section class="block" role="status" data-answered="made">
      <h2>Link made: <span safe>{made.name}</span></h2>
      {made.address === null ? <p>It was made, and its address shown, before this page was sent again. If nobody kept it, withdraw it and make another.</p> : (
        <>
          <p class="formula" safe>{made.address}</p>
          <p>Shown this once: copy it now. <span safe>{who}</span></p>
        </>
      )}
    </section>
  )
}

const COLUMNS = [{ name: 'For whom' }, { name: 'Leads to' }, { name: 'Made' }, { name: 'Until' }, { name: 'State' }, { name: 'Withdraw', isUnseen: true }]

/** Links with what ends them; `path` is the address of all of them, as /links. */
export function LinkTable({ viewer, links, caption, path }: { viewer: Viewer, links: readonly LinkRow[], caption: string, path: string }): JSX.Element {
  return (
    <Table columns={COLUMNS} caption={caption}>
      {links.map((link) => (
        <tr>
          <th scope="row" safe>{link.forWhom}</th>
          <WordCell is="leads to" text={link.to} />
          <WordCell is="made" text={link.made} />
          <WordCell is="until" text={link.until} />
          <WordCell is="state" text={link.state} />
          <td class="right">{link.key === null ? '' : <Withdraw action={`${path}/${link.id}/revocations`} forWhom={link.forWhom} csrfToken={viewer.csrfToken} idempotencyKey={link.key} />}</td>
        </tr>
      ))}
    </Table>
  )
}

interface WithdrawProps {
  readonly action: string
  readonly forWhom: string
  readonly csrfToken: string
  readonly idempotencyKey: string
}

function Withdraw({ action, forWhom, csrfToken, idempotencyKey }: WithdrawProps): JSX.Element {
  return (
    <form method="post" action={at(action)}>
      <input type="hidden" name="_csrf" value={csrfToken} />
      <input type="hidden" name="_key" value={idempotencyKey} />
      <button class="button" type="submit">Withdraw<span class="unseen" safe>{` the link for ${forWhom}`}</span></button>
    </form>
  )
}
