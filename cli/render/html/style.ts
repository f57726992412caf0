/** How a page looks: on white and on black, on paper, on a phone. */

const LIGHT = `
  --paper: #ffffff; --ink: #1c2321; --muted: #54605b; --faint: #e3e8e5; --panel: #f3f6f4; --strong: #9c3d00;
  --growing: #8fc79a; --band: #cfe3d4; --soft: #d9e7dd; --now: #8fc79a; --mark: #1c2321;
  --dead: #8d8d8d; --unattended: #ffd27a; --blocked: #e8927c; --held: #d9c3ea; --cleaning: #b9d7ee;
  --filling: #f7f7f2; --untended: #f4d9d0; --empty: #ffffff;`;

const DARK = `
  --paper: #14191a; --ink: #e8eeea; --muted: #a9b6b0; --faint: #2c3634; --panel: #1d2425; --strong: #ffb27a;
  --growing: #3f7f50; --band: #2a4a35; --soft: #33473b; --now: #3f7f50; --mark: #e8eeea;
  --dead: #6a6a6a; --unattended: #8a6418; --blocked: #96432f; --held: #5d4672; --cleaning: #2f5876;
  --filling: #22292a; --untended: #5a3a30; --empty: #14191a;`;

export const STYLE = `
:root { color-scheme: light dark; ${LIGHT}
}
@media (prefers-color-scheme: dark) { :root { ${DARK}
} }
@media print { :root { ${LIGHT}
} }
* { box-sizing: border-box; }
html { background: var(--paper); color: var(--ink); font: 16px/1.5 system-ui, -apple-system, "Segoe UI", "Noto Sans", "DejaVu Sans", sans-serif; }
body { margin: 0 auto; padding: 1rem 1rem 4rem; max-width: 54rem; overflow-wrap: anywhere; }
h1 { margin: 0.5rem 0 0; font-size: 2rem; line-height: 1.15; }
h2 { margin: 3rem 0 0.5rem; padding-top: 0.6rem; border-top: 3px solid var(--ink); font-size: 1.45rem; line-height: 1.2; }
h3 { margin: 1.8rem 0 0.3rem; font-size: 1.1rem; line-height: 1.3; }
h4, h5, h6 { margin: 1.1rem 0 0.2rem; font-size: 1rem; line-height: 1.3; }
p { margin: 0.4rem 0; }
a { color: inherit; }
.about, .seen, .made { color: var(--muted); font-size: 0.9rem; }
.answer { margin: 1rem 0; font-size: 1.3rem; line-height: 1.35; font-weight: 600; }
.facts { display: grid; grid-template-columns: repeat(auto-fit, minmax(13rem, 1fr)); gap: 0.7rem; margin: 1rem 0; }
.facts > div { padding: 0.6rem 0.8rem; border: 1px solid var(--muted); border-radius: 6px; background: var(--panel); break-inside: avoid; }
dt { color: var(--muted); font-size: 0.85rem; }
dd { margin: 0; }
dd.value { font-size: 1.35rem; font-weight: 700; line-height: 1.25; }
dd.note { color: var(--muted); font-size: 0.85rem; line-height: 1.35; }
nav ul { columns: 2; margin: 0.3rem 0; padding-left: 1.2rem; }
figure { margin: 1.2rem 0; }
figcaption { margin-bottom: 0.3rem; line-height: 1.3; }
.drawing { display: block; width: 100%; height: auto; overflow: visible; color: var(--ink); }
.drawing text { white-space: pre; }
.narrow { display: none; }
.patterns { position: absolute; }
.legend { display: flex; flex-wrap: wrap; gap: 0.15rem 1.1rem; margin: 0.4rem 0; padding: 0; list-style: none; font-size: 0.9rem; }
.legend svg { vertical-align: -2px; }
.table { overflow-x: auto; margin: 0.4rem 0; }
table { border-collapse: collapse; font-size: 0.92rem; font-variant-numeric: tabular-nums; }
caption, .unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
th, td { padding: 0.2rem 0.7rem 0.2rem 0; text-align: left; vertical-align: top; border-bottom: 1px solid var(--faint); overflow-wrap: break-word; }
tbody th { font-weight: inherit; }
.short tbody th { white-space: nowrap; }
thead th { font-weight: 600; vertical-align: bottom; border-bottom-color: var(--muted); }
th.figure, td.figure { text-align: right; white-space: nowrap; }
thead th.figure { white-space: normal; }
summary { cursor: pointer; font-size: 0.9rem; }
pre { margin: 0.5rem 0; padding: 0.7rem 0.9rem; overflow-x: auto; border: 1px solid var(--muted); border-radius: 6px; background: var(--panel); font: 0.82rem/1.45 ui-monospace, "DejaVu Sans Mono", Menlo, Consolas, monospace; }
button { padding: 0.35rem 0.9rem; border: 1px solid var(--ink); border-radius: 6px; background: var(--panel); color: var(--ink); font: inherit; cursor: pointer; }
:focus-visible { outline: 3px solid var(--strong); outline-offset: 2px; }
#tip { position: fixed; z-index: 1; max-width: 20rem; padding: 0.35rem 0.6rem; border-radius: 4px; background: var(--ink); color: var(--paper); font-size: 0.85rem; line-height: 1.35; pointer-events: none; }
#tip[hidden] { display: none; }
@media (max-width: 30rem) {
  .wide { display: none; }
  .narrow { display: block; }
  nav ul { columns: 1; }
  h1 { font-size: 1.6rem; }
  .answer { font-size: 1.15rem; }
}
@page { margin: 14mm; }
@media print {
  html { font-size: 10.5pt; background: none; }
  body { max-width: none; padding: 0; }
  .wide { display: block; }
  .narrow, button, details, nav { display: none; }
  h2 { margin-top: 1.6rem; }
  h1, h2, h3, h4, h5, h6, figcaption, thead { break-after: avoid; }
  figure, tr, .legend { break-inside: avoid; }
  thead { display: table-header-group; }
  p { orphans: 3; widows: 3; }
  .table { overflow: visible; }
  table { font-size: 0.8rem; }
  th, td { padding-right: 0.45rem; overflow-wrap: anywhere; }
  thead th { overflow-wrap: normal; }
  .short tbody th { white-space: normal; }
  td .bar { width: 4rem; }
  pre { white-space: pre-wrap; overflow: visible; }
  .drawing, .bar, .legend svg, .facts > div { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`;
