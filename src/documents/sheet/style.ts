/** How the sheet looks: ink on paper, rules above and below the heads of tables and none between rows, figures that stand under one another. */
import { FIGURE_STYLE } from '../drawing/figure-html';

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
section table { table-layout: fixed; }
section th:nth-child(1) { width: 2.6rem; }
section th:nth-child(2) { width: 33%; }
section th:nth-child(3) { width: 18%; }
section th:nth-child(5) { width: 4.5rem; }
.result td { font-weight: 600; }
.formula .sum { font-style: italic; }
.source { color: var(--faint); margin-left: 0.75rem; }
.source::before { content: "("; }
.source::after { content: ")"; }
.verdict { margin-top: 0.4rem; }
.note { color: var(--faint); font-size: 0.85rem; }
code { font-size: 0.9em; }
.wide { overflow-x: auto; }
@media screen and (max-width: 40rem) {
  section thead { display: none; }
  section tbody { display: block; border-top: 1px solid var(--ink); }
  section tr { display: grid; grid-template-columns: 2.2rem minmax(45%, 1fr) auto; gap: 0 0.6rem; padding: 0.15rem 0; }
  section table td { padding: 0; }
  section table td:nth-child(4) { grid-column: 2; color: var(--faint); }
  section table td:nth-child(5) { text-align: right; color: var(--faint); }
  section tbody tr:last-child { border-bottom: 1px solid var(--ink); }
  section tbody tr:last-child td { border: 0; }
  .contents :is(th, td):nth-child(4), .contents :is(th, td):nth-child(5) { display: none; }
  dl { display: block; }
  dd { margin: 0 0 0.3rem; }
}
@page { size: A4; margin: 18mm 16mm; }
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --faint: #333; }
  html { font-size: 10pt; }
  body { max-width: none; padding: 0; }
  h2, h3 { break-after: avoid; }
  section, tr { break-inside: avoid; }
  thead { display: table-header-group; }
  a { text-decoration: none; }
  .wide { overflow: visible; }
}
${FIGURE_STYLE}`;
