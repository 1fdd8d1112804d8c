/** The look of the archive's pages: system fonts, light and dark, a phone as well as a screen, and paper. */
export const ARCHIVE_STYLE = `:root { color-scheme: light dark; --ink: light-dark(#17212b, #e3e6dd); --paper: light-dark(#f7f8f3, #132231); --soft: light-dark(#4a5560, #a9b7c2); --rule: light-dark(#6a747d, #7f97ad) }
* { box-sizing: border-box }
body { margin: 0 auto; max-width: 75rem; padding: 16px; background: var(--paper); color: var(--ink); font: 16px/1.45 Georgia, "DejaVu Serif", serif; font-variant-numeric: lining-nums tabular-nums }
header { border: 2px solid; padding: 8px 16px } header p { margin: 0; color: var(--soft) }
h1 { font-size: 25px; margin: 0 } h2 { font-size: 21px; margin: 24px 0 8px } h3 { font-size: 17px; margin: 20px 0 6px }
a { color: inherit; text-underline-offset: 3px }
nav ul { list-style: none; margin: 0; padding: 8px 0; display: flex; flex-wrap: wrap; gap: 4px 20px; border-bottom: 1px solid }
nav li { padding: 4px 0 }
.prose { white-space: pre-line; max-width: 42rem } .note { color: var(--soft); margin: 0 0 6px }
dl { margin: 0 } dl div { display: grid; grid-template-columns: 16rem 1fr; gap: 12px; border-bottom: 1px solid var(--rule); padding: 4px 0 } dt { color: var(--soft) } dd { margin: 0; overflow-wrap: anywhere }
table { border-collapse: collapse; width: 100% } th { text-align: left; font-size: 13px; border-bottom: 2px solid; padding: 4px 10px 4px 0; vertical-align: bottom } td { border-bottom: 1px solid var(--rule); padding: 4px 10px 4px 0; vertical-align: top; overflow-wrap: break-word }
td[data-is="No."], td[data-is="Mass"], td[data-is="Fuse"], td[data-is="Supply current"] { white-space: nowrap }
.caution { border: 2px solid; border-left-width: 12px; padding: 4px 12px; margin: 8px 0; break-inside: avoid } .caution h3 { margin: 0 } .caution p { margin: 0 }
.caution .signal { text-transform: uppercase; padding-right: .6em } .cref { border: 1px solid; padding: 0 4px; margin-right: 4px; font-size: 13px }
i { font-style: normal; white-space: nowrap } .unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%) }
th[scope="row"] { font-weight: bold; font-size: inherit; border-bottom: 1px solid var(--rule); vertical-align: top } .right, td.figure { text-align: right } .quiet, .sub { color: var(--soft) } .sub { display: block; font-size: 14px }
.group th { font-size: 16px; padding-top: 16px; border-bottom: 2px solid; break-after: avoid } .tick::before { content: ""; display: block; width: 17px; height: 17px; border: 1.5px solid } .steps td:last-child { min-width: 4rem; border-left: 1px solid var(--rule) }
.fastener { display: flex; flex-wrap: wrap; gap: 0 10px } .torque { white-space: nowrap } .step-pictures { display: flex; flex-wrap: wrap; gap: 8px; margin: 6px 0 } .step-pictures img { max-width: 100%; height: auto }
.where { display: grid; grid-template-columns: 3fr 2fr 2fr; gap: 8px 24px } .where dl div { display: block } .where ul { margin: 0; padding-left: 18px }
.plan svg { width: 100%; height: auto } .plan :is(.body, .thin, .dashed, .chain, .leader, .dot) { fill: none; stroke: currentColor } .plan .dashed { stroke-dasharray: 6 4 } .plan .chain { stroke-dasharray: 14 4 2 4 } .plan .ring { fill: var(--paper); stroke: currentColor } .plan text { fill: currentColor; text-anchor: middle; font-size: 15px }
.signatures { display: grid; grid-template-columns: 2fr 1fr 2fr 1fr; border: 1px solid } .signatures > div { min-height: 60px; padding: 2px 8px; border: 1px solid var(--rule); margin: -1px 0 0 -1px } .signatures .s2 { grid-column: span 2 } .label { font-size: 13px; color: var(--soft) }
.pictures { list-style: none; padding: 0; display: grid; grid-template-columns: repeat(auto-fill, minmax(260px, 1fr)); gap: 16px } .pictures img { width: 100%; height: auto; display: block } .pictures p { margin: 4px 0 }
footer { margin-top: 32px; border-top: 1px solid; color: var(--soft) }
tr, svg { break-inside: avoid }
@media (max-width: 640px) { dl div { grid-template-columns: 1fr; gap: 0 } thead { display: none } tr { display: block; border-bottom: 1px solid; padding: 6px 0 } td { display: block; border: 0; padding: 0 } td:empty { display: none } td[data-is]::before { content: attr(data-is) " "; color: var(--soft); font-size: 13px } .where { grid-template-columns: 1fr } .steps td:last-child { display: none } .signatures { grid-template-columns: 1fr 1fr } }
@media print { :root { color-scheme: light } nav { display: none } body { padding: 0 } }
`
