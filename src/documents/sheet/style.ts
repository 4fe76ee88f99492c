/** How the sheet looks: ink on paper, rules above and below the heads of tables and none between rows, figures that stand under one another. */
export const STYLE = `
:root { color-scheme: light dark; --ink: #111; --paper: #fff; --faint: #555; }
@media (prefers-color-scheme: dark) { :root { --ink: #e8e8e8; --paper: #161616; --faint: #a5a5a5; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 52rem; padding: 1.5rem 1rem 4rem; background: var(--paper); color: var(--ink); font: 0.95rem/1.4 system-ui, sans-serif; }
h1 { font-size: 1.5rem; line-height: 1.25; margin: 0 0 1rem; font-weight: 600; }
h1 .boat { font-weight: 400; }
h2 { font-size: 1.15rem; margin: 2.5rem 0 0.5rem; border-top: 2px solid var(--ink); padding-top: 0.4rem; font-weight: 600; }
h3 { font-size: 0.95rem; margin: 0 0 0.2rem; font-weight: 600; }
h3 .number { display: inline-block; min-width: 2.5rem; font-variant-numeric: tabular-nums; }
p { margin: 0.2rem 0 0.4rem; }
a { color: inherit; text-decoration-thickness: 0.5px; text-underline-offset: 0.15em; }
.standing { border: 1px solid var(--ink); padding: 0.5rem 0.75rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.15rem 1rem; margin: 1rem 0; }
dt { font-weight: 600; }
dd { margin: 0; }
table { border-collapse: collapse; width: 100%; font-size: 0.85rem; font-variant-numeric: tabular-nums lining-nums; }
thead th { border-top: 1px solid var(--ink); border-bottom: 1px solid var(--ink); text-align: left; font-weight: 600; }
tbody tr:last-child td { border-bottom: 1px solid var(--ink); }
th, td { padding: 0.12rem 0.9rem 0.12rem 0; vertical-align: top; }
th:last-child, td:last-child { padding-right: 0; }
.n { text-align: right; }
.contents { margin-top: 1.5rem; }
.contents td:first-child { white-space: nowrap; }
section { margin: 1.5rem 0; }
section table td:first-child { white-space: nowrap; width: 2.5rem; }
section table td:nth-child(2) { width: 36%; }
section table td.n { white-space: nowrap; }
.result td { font-weight: 600; }
.formula .sum { font-style: italic; }
.source { color: var(--faint); margin-left: 0.75rem; }
.source::before { content: "("; }
.source::after { content: ")"; }
.verdict { margin-top: 0.4rem; }
.note { color: var(--faint); font-size: 0.85rem; }
code { font-size: 0.9em; }
.wide { overflow-x: auto; }
@media (max-width: 40rem) {
  dl { display: block; }
  dd { margin: 0 0 0.3rem; }
}
@page { size: A4; margin: 18mm 16mm; }
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --faint: #333; }
  body { max-width: none; padding: 0; font-size: 9.5pt; }
  h2, h3 { break-after: avoid; }
  section, tr { break-inside: avoid; }
  thead { display: table-header-group; }
  a { text-decoration: none; }
  .wide { overflow: visible; }
}
`;
