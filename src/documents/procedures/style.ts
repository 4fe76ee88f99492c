/**
 * How a procedure looks: black ink on paper, big type that is read at arm's length, the tag in the margin, the weight of a caution's box
 * by its signal word. Colour says nothing that the words do not.
 */
import { FIGURE_STYLE } from '../drawing/figure-html';

export const STYLE = `
:root { color-scheme: light dark; --ink: #000; --paper: #fff; --soft: #444; }
@media (prefers-color-scheme: dark) { :root { --ink: #f2f2f2; --paper: #121212; --soft: #bdbdbd; } }
* { box-sizing: border-box; }
html { scroll-padding: 1rem; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0 auto; max-width: 46rem; padding: 1rem 0.9rem 4rem; background: var(--paper); color: var(--ink); font: 1.125rem/1.4 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 0.4rem; }
h2 { font-size: 1.15rem; line-height: 1.25; margin: 1.8rem 0 0.5rem; padding-top: 0.4rem; border-top: 2px solid var(--ink); }
h3 { font-size: 1.15rem; margin: 1.6rem 0 0.3rem; }
p { margin: 0.3rem 0; }
ul { margin: 0.3rem 0; padding-left: 1.2rem; }
.short { columns: 13rem; }
.boat { font-weight: 600; }
.ruled { border: 2px solid var(--ink); padding: 0.2rem 0.7rem; margin: 0.9rem 0; }
.ruled h2 { border: 0; margin: 0.2rem 0; padding: 0; }
.faults { border-width: 5px; }
dl { display: grid; grid-template-columns: fit-content(45%) minmax(0, 1fr); gap: 0.15rem 1rem; margin: 0.3rem 0; }
dt { font-weight: 600; }
dd { margin: 0; font-variant-numeric: tabular-nums; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums lining-nums; }
th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.6rem 0.25rem 0; font-weight: 400; overflow-wrap: break-word; }
.long { overflow-wrap: anywhere; }
thead th { border-top: 1px solid var(--ink); border-bottom: 1px solid var(--ink); font-weight: 600; }
tbody tr:last-child > * { border-bottom: 1px solid var(--ink); }
:is(th, td):last-child { padding-right: 0; }
tbody th { font-weight: 700; }
.count { text-align: right; width: 4rem; }
.state { width: 16%; }
.why { width: 50%; }
a { color: inherit; }
.place { color: var(--soft); font-weight: 400; }
.steps, .does { list-style: none; margin: 0; padding: 0; }
.step { border-top: 1px solid var(--ink); padding: 0.7rem 0 0.9rem; }
.do { display: grid; grid-template-columns: 4.6rem 1fr; column-gap: 0.7rem; }
.margin { font-variant-numeric: tabular-nums; line-height: 1.3; }
.number { display: block; color: var(--soft); }
.tag { display: block; font-weight: 700; }
.box { display: block; width: 2.75rem; height: 2.75rem; margin: 0.4rem 0 0; -webkit-appearance: none; appearance: none; border: 2px solid var(--ink); border-radius: 0; background: var(--paper); }
.box:checked { background: linear-gradient(45deg, transparent 46%, var(--ink) 46% 54%, transparent 54%), linear-gradient(-45deg, transparent 46%, var(--ink) 46% 54%, transparent 54%), var(--paper); -webkit-print-color-adjust: exact; print-color-adjust: exact; }
@media (forced-colors: active) { .box { -webkit-appearance: auto; appearance: auto; } }
.action { display: block; font-size: 1.3rem; line-height: 1.3; font-weight: 600; padding-bottom: 0.3rem; }
.does { counter-reset: does; }
.does li { counter-increment: does; font-size: 1.2rem; line-height: 1.35; padding-left: 1.5rem; text-indent: -1.5rem; margin: 0.15rem 0; }
.does li::before { content: counter(does, lower-alpha); display: inline-block; width: 1.5rem; text-indent: 0; }
.signs { list-style: none; padding: 0 0 0 0.7rem; border-left: 3px solid var(--ink); margin-top: 0.4rem; }
.signs li { margin: 0.15rem 0; }
.note { font-style: italic; }
.caution { margin: 0 0 0.7rem; padding: 0.4rem 0.7rem; border: 1px solid var(--ink); }
.caution p { margin: 0; }
.word { font-weight: 700; letter-spacing: 0.04em; }
.CAUTION { border-width: 2px; }
.WARNING { border-width: 4px; }
.DANGER { border-width: 4px; outline: 2px solid var(--ink); outline-offset: 2px; margin: 0.6rem 4px 0.9rem; }
.field { margin: 0.5rem 0; }
.field label { display: block; font-weight: 600; }
.field input { display: block; width: 100%; min-height: 2.6rem; font: inherit; color: inherit; background: transparent; border: 0; border-bottom: 1px solid var(--ink); border-radius: 0; padding: 0.2rem 0; }
button { font: inherit; color: var(--ink); background: var(--paper); border: 2px solid var(--ink); border-radius: 0; padding: 0.6rem 1rem; min-height: 2.8rem; margin-top: 1.2rem; }
:focus-visible { outline: 4px solid var(--ink); outline-offset: 3px; }
footer { margin-top: 2rem; border-top: 2px solid var(--ink); padding-top: 0.5rem; font-size: 1rem; }
@media (max-width: 30rem) { table { font-size: 1rem; } th, td { padding-right: 0.25rem; } .state { font-size: 0.95rem; width: auto; } .index thead { display: none; } .index :is(th, td) { display: block; width: auto; border: 0; padding: 0.15rem 0; } .index tr { display: block; border-top: 1px solid var(--ink); padding: 0.3rem 0; } }
@media (min-width: 40rem) { .fields { display: grid; grid-template-columns: 1fr 1fr; gap: 0 1.5rem; } }
@page { size: A4; margin: 16mm 15mm; }
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --soft: #222; }
  html { font-size: 10.5pt; }
  body { max-width: none; padding: 0; }
  h2, h3 { break-after: avoid; }
  .step, .caution, .ruled, tr, .field, dd, footer dl { break-inside: avoid; }
  thead { display: table-header-group; }
  button, #kept { display: none; }
  h2 { margin-top: 1.1rem; }
  h3 { margin-top: 0.9rem; }
  dl { grid-template-columns: repeat(2, fit-content(22%) minmax(0, 1fr)); }
  footer { margin-top: 1.1rem; }
  footer > * { break-before: avoid; }
  .step { padding: 0.45rem 0 0.5rem; }
  .caution { margin-bottom: 0.4rem; }
  .do { grid-template-columns: 7rem 1fr; }
  .margin { display: grid; grid-template: "box number" auto "box tag" 1fr / 2.1rem 1fr; column-gap: 0.6rem; align-content: start; }
  .number { grid-area: number; }
  .tag { grid-area: tag; }
  .box { grid-area: box; width: 2.1rem; height: 2.1rem; margin: 0.1rem 0 0; }
}
${FIGURE_STYLE}`;

/** Keeps the ticks and what was written in the fields, by page and facts; without it, or where nothing may be kept, the page works all the same. */
export const SCRIPT = `
(function () {
  'use strict';
  var key = document.documentElement.getAttribute('data-key');
  var inputs = Array.prototype.slice.call(document.querySelectorAll('input'));
  function keep() {
    try {
      var now = {};
      inputs.forEach(function (input) { if (input.type === 'checkbox' ? input.checked : input.value !== '') now[input.id] = input.type === 'checkbox' ? true : input.value; });
      localStorage.setItem(key, JSON.stringify(now));
    } catch (nothingIsKept) { }
  }
  try {
    var kept = JSON.parse(localStorage.getItem(key) || '{}') || {};
    inputs.forEach(function (input) {
      var value = Object.prototype.hasOwnProperty.call(kept, input.id) ? kept[input.id] : undefined;
      if (input.type === 'checkbox') input.checked = value === true;
      else if (typeof value === 'string') input.value = value;
    });
  } catch (nothingWasKept) { }
  var told = document.getElementById('kept');
  if (told) told.hidden = !inputs.some(function (input) { return input.checked || (input.type !== 'checkbox' && input.value !== ''); });
  document.addEventListener('input', keep);
  // Kept before anything else can happen, such as the page being closed.
  document.addEventListener('reset', function () {
    inputs.forEach(function (input) { if (input.type === 'checkbox') input.checked = false; else input.value = ''; });
    if (told) told.hidden = true;
    keep();
  });
}());
`;
