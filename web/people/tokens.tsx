import { at } from '../shared/asset.ts'
import { Table, WordCell } from '../shared/table.tsx'
import type { Role, Viewer } from '../shared/viewer.ts'

export interface TokenRow {
  readonly id: string
  readonly name: string
  readonly role: Role
  /** The last day, as "Fri 12 Feb 2027". */
  readonly until: string
  readonly state: 'in use' | 'expired' | 'revoked'
  readonly key: string
}

const COLUMNS = [{ name: 'Name' }, { name: 'Role' }, { name: 'Until' }, { name: 'State' }, { name: 'Revoke', isUnseen: true }]

/** A person's tokens, newest first; what is no longer in use stays to be seen. */
export function TokenTable({ viewer, tokens }: { viewer: Viewer, tokens: readonly TokenRow[] }): JSX.Element {
  return (
    <Table columns={COLUMNS} caption="Your access tokens">
      {tokens.map((token) => (
        <tr>
          <th scope="row" safe>{token.name}</th>
          <WordCell is="role" text={token.role} />
          <WordCell is="until" text={token.until} />
          <WordCell is="state" text={token.state} />
          <td class="right">{token.state === 'in use' ? <Revoke viewer={viewer} token={token} /> : ''}</td>
        </tr>
      ))}
    </Table>
  )
}

function Revoke({ viewer, token }: { viewer: Viewer, token: TokenRow }): JSX.Element {
  return (
    <form method="post" action={at(`/me/tokens/${token.id}/revocation`)}>
      <input type="hidden" name="_csrf" value={viewer.csrfToken} />
      <input type="hidden" name="_key" value={token.key} />
      <button class="button" type="submit">Revoke<span class="unseen" safe>{` ${token.name}`}</span></button>
    </form>
  )
}

/** The secret of a token, this once. */
export function MadeToken({ made }: { made: { readonly name: string, readonly secret: string | null } }): JSX.Element {
  return (
    <section class="block" role="status">
      <h2>Token made: <span safe>{made.name}</span></h2>
      {made.secret === null ? <p>It was made, and its secret shown, before this page was sent again. If nobody kept it, revoke it and make another.</p> : (
        <>
          <p class="formula" safe>{made.secret}</p>
          <p>Shown this once: copy it now. Send it as <span class="no">Authorization: Bearer</span> and the token.</p>
        </>
      )}
    </section>
  )
}
