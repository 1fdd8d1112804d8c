import { at } from '../shared/asset.ts'
import { escapeHtml } from '../shared/text.ts'
import type { TreePart } from './partData.ts'

/** Where the part stands among assemblies and pieces. */
export function PlaceInTree({ tree, addHref, assemblyHref }: { tree: TreePart, addHref: string | undefined, assemblyHref: string | undefined }): JSX.Element {
  return (
    <section class="block">
      <h2>Place in the tree</h2>
      <div class="tree"><Branch part={tree} isRoot /></div>
      {addHref === undefined ? '' : <p><a href={at(addHref)}>Add a piece that goes into it</a></p>}
      {assemblyHref === undefined ? '' : <p><a href={at(assemblyHref)}>Put it into an assembly</a></p>}
    </section>
  )
}

function Branch({ part, isRoot = false }: { part: TreePart, isRoot?: boolean }): JSX.Element {
  return (
    <>
      <Name part={part} isRoot={isRoot} />
      {part.pieces.length === 0 ? '' : <ul>{part.pieces.map((piece) => <li><Branch part={piece} /></li>)}</ul>}
    </>
  )
}

function Name({ part: { number, name, quantity, href, isThis }, isRoot }: { part: TreePart, isRoot: boolean }): JSX.Element {
  const times = isRoot ? '' : ` × ${quantity}`
  if (isThis) return <strong aria-current="true"><span class="no" safe>{number}</span> {escapeHtml(`${name}${times}`)}</strong>
  const safeLabel = <><span class="no" safe>{number}</span> <span safe>{name}</span></>
  return <>{href === undefined ? safeLabel : <a href={at(href)}>{safeLabel}</a>}<span safe>{times}</span></>
}
