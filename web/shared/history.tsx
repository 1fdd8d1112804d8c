export interface HistoryChange { readonly field: string, readonly before: string, readonly after: string }

export interface HistoryEntry {
  /** In the shop's zone, as "Tue 12 Jan 2027 08:20". */
  readonly when: string
  readonly who: string
  /** created, changed, removed, recovered … */
  readonly action: string
  readonly changes: readonly HistoryChange[]
}

/** Who changed what, newest first, on the record itself. */
export function History({ entries }: { entries: readonly HistoryEntry[] }): JSX.Element {
  return (
    <section class="block">
      <details class="folded">
        <summary><h2 class="heading">History</h2><span class="quiet">{entries.length} {entries.length === 1 ? 'entry' : 'entries'}</span></summary>
        {entries.length === 0 ? <p class="quiet">Nothing has been changed yet.</p> : ''}
        <ol class="history">{entries.map((entry) => <Entry entry={entry} />)}</ol>
      </details>
    </section>
  )
}

function Entry({ entry }: { entry: HistoryEntry }): JSX.Element {
  return (
    <li>
      <p><strong safe>{entry.who}</strong>{' '}<span safe>{entry.action}</span>{' '}<span class="quiet" safe>{entry.when}</span></p>
      {entry.changes.map((change) => <Change change={change} />)}
    </li>
  )
}

function Change({ change }: { change: HistoryChange }): JSX.Element {
  return (
    <div class="change">
      <span class="quiet" safe>{change.field}</span>
      <span>
        {change.before === '' ? '' : <><del class="was" safe>{change.before}</del> → </>}
        {change.after === '' ? <span class="quiet">empty</span> : <ins safe>{change.after}</ins>}
      </span>
    </div>
  )
}
