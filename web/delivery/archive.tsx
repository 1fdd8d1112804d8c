import type { Children } from '@kitajs/html'

export interface ArchiveTable {
  readonly title: string
  readonly note: string
  readonly heads: readonly string[]
  readonly rows: readonly (readonly string[])[]
  readonly csv: string
}

export interface ArchivePageData {
  readonly file: string
  readonly title: string
  readonly head: { readonly number: string, readonly build: string, readonly vehicle: string, readonly shop: string, readonly delivered: string }
  readonly pages: readonly { readonly file: string, readonly name: string }[]
  readonly facts: readonly { readonly label: string, readonly text: string }[]
  readonly words: readonly { readonly title: string, readonly text: string }[]
  readonly tables: readonly ArchiveTable[]
  /** The same as CSV. */
  readonly lists: readonly { readonly name: string, readonly file: string }[]
  readonly signatures: readonly { readonly of: string, readonly name: string, readonly at: string, readonly path: string }[]
  readonly pictures: readonly { readonly file: string, readonly caption: string, readonly width: number, readonly height: number }[]
}

/** A page of the archive: no script, nothing from elsewhere, every address within the archive. */
export function ArchivePage({ data, children }: { data: ArchivePageData, children?: Children }): JSX.Element {
  const { head } = data
  return (
    <>
      {'<!doctype html>'}
      <html lang="en">
        <head>
          <meta charset="utf-8" />
          <meta name="viewport" content="width=device-width, initial-scale=1" />
          <title safe>{`${data.title}: ${head.number} ${head.build}`}</title>
          <link rel="stylesheet" href="style.css" />
          <link rel="icon" href="data:," />
        </head>
        <body>
          <header><p safe>{[head.shop, head.vehicle, head.delivered].filter((text) => text !== '').join(' · ')}</p><h1 safe>{`${head.number} ${head.build}`}</h1></header>
          <nav aria-label="Pages"><ul>{data.pages.map(({ file, name }) => <li>{file === data.file ? <strong safe>{name}</strong> : <a href={file} safe>{name}</a>}</li>)}</ul></nav>
          <main>
            <h2 safe>{data.title}</h2>
            {data.facts.length === 0 ? '' : <dl>{data.facts.map(({ label, text }) => <div><dt safe>{label}</dt><dd safe>{text === '' ? 'not recorded' : text}</dd></div>)}</dl>}
            {data.words.map(({ title, text }) => <Part title={title}><p class="prose" safe>{text === '' ? 'not recorded' : text}</p></Part>)}
            {children}
            {data.tables.map((table) => <Records table={table} />)}
            {data.lists.length === 0 ? '' : <p class="note">The same as CSV:{data.lists.map(({ name, file }) => <>{' '}<a href={file} safe>{name}</a></>)}</p>}
            {data.signatures.map((signature) => <Part title={`Signed: ${signature.of}`}><Signature signature={signature} /></Part>)}
            {data.pictures.length === 0 ? '' : <ul class="pictures">{data.pictures.map(({ file, caption, width, height }) => <li><a href={file}><img src={file} alt={caption === '' ? 'Photo of the build' : caption} width={width} height={height} loading="lazy" /></a><p safe>{caption}</p></li>)}</ul>}
          </main>
          <footer><p>The vehicle maker’s manual, local code and licensed practice come before anything here.</p></footer>
        </body>
      </html>
    </>
  )
}

function Part({ title, children }: { title: string, children: Children }): JSX.Element {
  return <section><h3 safe>{title}</h3>{children}</section>
}

function Records({ table: { title, note, heads, rows, csv } }: { table: ArchiveTable }): JSX.Element {
  return (
    <Part title={title}>
      <p class="note"><span safe>{note}.</span>{csv === '' ? '' : <>{' '}<a href={csv}>The same as CSV</a></>}</p>
      {rows.length === 0 ? <p>None recorded.</p> : (
        <table>
          <thead><tr>{heads.map((name) => <th scope="col" safe>{name}</th>)}</tr></thead>
          <tbody>{rows.map((row) => <tr>{row.map((cell, index) => <td data-is={heads[index]} safe>{cell}</td>)}</tr>)}</tbody>
        </table>
      )}
    </Part>
  )
}

function Signature({ signature: { name, at, path } }: { signature: ArchivePageData['signatures'][number] }): JSX.Element {
  return <>{path === '' ? '' : <svg viewBox="0 0 600 200" width="300" height="100" role="img" aria-label={`Drawn signature of ${name}`}><path d={path} fill="none" stroke="currentColor" stroke-width="3" /></svg>}<p safe>{`${name}, ${at}`}</p></>
}
