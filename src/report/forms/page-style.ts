/**
 * The look of a page: readable on paper (A4 and Letter), on a phone and on a dark screen; black on white or the reverse,
 * shapes and hatching instead of colour, so that it reads the same printed in grey.
 */
export const PAGE_STYLE = `
:root { color-scheme: light dark; --paper: #fff; --ink: #111; --quiet: #555; --line: #bbb; --fill: #1f4e79; --band: #dde6ee; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #15181b; --ink: #eee; --quiet: #aaa; --line: #555; --fill: #8ab8e0; --band: #2b3a47; }
}
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1.2rem; max-width: 60rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.45 system-ui, sans-serif; overflow-wrap: break-word; }
h1 { font-size: 1.6rem; margin: 0; line-height: 1.2; }
h2 { font-size: 1.15rem; margin: 1.8rem 0 .5rem; border-bottom: 2px solid var(--ink); }
h3 { font-size: 1rem; margin: 1.2rem 0 .3rem; }
p { margin: .5rem 0; }
.subtitle { color: var(--quiet); margin: .1rem 0 1rem; }
.caution { border-left: .4rem solid var(--ink); padding-left: .6rem; font-weight: 600; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .1rem 1rem; margin: .6rem 0; }
dt { color: var(--quiet); }
dd { margin: 0; }
ul { padding-left: 1.3rem; margin: .5rem 0; }
ul.boxes { list-style: none; padding-left: 0; }
ul.boxes li::before { content: ''; display: inline-block; width: .8em; height: .8em; border: 1.5px solid var(--ink);
  margin-right: .6em; vertical-align: -.05em; }
.wide { overflow-x: auto; margin: .6rem 0; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th, td { padding: .25rem .6rem .25rem 0; text-align: left; vertical-align: top; border-bottom: 1px solid var(--line); }
th { border-bottom: 2px solid var(--ink); font-size: .85rem; vertical-align: bottom; }
.right { text-align: right; white-space: nowrap; }
.right + :not(.right) { padding-left: .8rem; }
figure { margin: .8rem 0; break-inside: avoid; }
figcaption { font-size: .9rem; font-weight: 600; }
svg { display: block; width: 100%; height: auto; max-width: 35rem; color: var(--ink); }
svg text { font: 13px system-ui, sans-serif; fill: var(--ink); }
.bar, .dot { fill: var(--fill); stroke: var(--fill); }
.hollow { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }
.band { fill: var(--band); }
.thread { fill: none; stroke: var(--fill); stroke-width: 1; }
.strong { stroke: var(--ink); stroke-width: 1.5; }
.faint { stroke: var(--quiet); stroke-width: 1; stroke-dasharray: 5 4; }
@media screen and (max-width: 40rem) {
  body { padding: .8rem; }
  svg text { font-size: 16px; }
  .folds, .folds tbody, .folds tr, .folds td { display: block; }
  .folds thead { display: none; }
  .folds tr { border-bottom: 2px solid var(--line); padding: .4rem 0; }
  .folds td { border: 0; padding: .05rem 0; display: flex; justify-content: space-between; gap: 1rem; text-align: right; white-space: normal; }
  .folds td::before { content: attr(data-head); color: var(--quiet); text-align: left; }
  .folds .right + :not(.right) { padding-left: 0; }
  .folds td:first-child { font-weight: 600; text-align: left; }
  .folds td:first-child::before { content: none; }
}
@page { margin: 15mm; }
@media print {
  :root { --paper: #fff; --ink: #000; --quiet: #333; --line: #999; --fill: #444; --band: #ddd; }
  body { max-width: none; padding: 0; font-size: 10pt; }
  h2, h3 { break-after: avoid; }
  tr, li { break-inside: avoid; }
  thead { display: table-header-group; }
  .wide { overflow: visible; }
  .page { break-before: page; }
  th, td { padding-right: .4rem; }
}
`;
