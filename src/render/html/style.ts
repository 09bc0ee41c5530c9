/** The look of pages: quiet type on warm paper, figures in line, light, dark and printed. */
import { PATTERNS } from './drawing/patterns.ts';
import type { Markup } from './markup.ts';
import { PRINTED_SHEETS, SHEETS } from './sheet-style.ts';

/** Colours have a contrast of 4.5 : 1 at least for text and 3 : 1 for what is drawn, in both schemes. */
const COLOURS = `:root {
  --paper: #fdfbf7; --band: #f5f0e7; --ink: #241f1a; --quiet: #655c52;
  --rule: #d9d0c2; --strong-rule: #8d8274; --clay: #97431c; --glaze: #2f6570;
  --now: #f8e4d6; --soon: #f8f1df; --edge: #241f1a2e;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #191613; --band: #221e1a; --ink: #ece5db; --quiet: #b3a899;
    --rule: #3d362f; --strong-rule: #8d8274; --clay: #eda077; --glaze: #7cbac6;
    --now: #3d2418; --soon: #2d2618; --edge: #000000a6;
  }
}
`;

const TYPE = `* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body {
  margin: 0 auto; padding: 2.5rem clamp(1rem, 4vw, 3.5rem) 3rem; max-width: 84rem;
  background: var(--paper); color: var(--ink);
  font: 1rem/1.5 -apple-system, BlinkMacSystemFont, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif;
  overflow-wrap: break-word;
}
h1, h2, h3 { font-family: Georgia, "Times New Roman", serif; font-weight: 400; line-height: 1.2; margin: 0; }
h1 { font-size: clamp(1.6rem, 1.2rem + 1.8vw, 2.3rem); letter-spacing: -0.01em; }
h2 { font-size: 1.4rem; margin-bottom: 0.75rem; }
h3 { font-size: 1.05rem; }
p { margin: 0; max-width: 42rem; }
a { color: var(--clay); text-underline-offset: 0.2em; text-decoration-thickness: 1px; }
a:focus-visible, .scroll:focus-visible { outline: 2px solid var(--clay); outline-offset: 2px; }
header { padding-bottom: 1.25rem; }
header p { color: var(--quiet); margin-top: 0.4rem; }
section { margin-top: 3rem; }
main > section:first-child { margin-top: 0; }
@media screen and (max-width: 48rem) { body { padding-top: 1.5rem; } section { margin-top: 2rem; } }
footer { margin-top: 3.5rem; padding-top: 0.75rem; border-top: 1px solid var(--rule); color: var(--quiet); font-size: 0.85rem; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
`;

const FRAME = `.skip { position: absolute; left: -99rem; padding: 0.5rem 0.8rem; background: var(--band); }
.skip:focus { left: 1rem; top: 0.5rem; }
.verdict p:not(.caution) { font: 400 clamp(1.15rem, 1rem + 0.8vw, 1.5rem)/1.35 Georgia, "Times New Roman", serif; max-width: 46rem; }
.verdict dl { display: flex; flex-wrap: wrap; gap: 0.8rem 2.5rem; margin: 1.1rem 0 0; }
.verdict dt { color: var(--quiet); font-size: 0.85rem; }
.verdict dd { margin: 0; font-size: clamp(1.5rem, 1.1rem + 1.8vw, 2.2rem); line-height: 1.2; font-variant-numeric: tabular-nums lining-nums; }
.caution { color: var(--quiet); font-size: 0.9rem; max-width: 46rem; }
* + .caution { margin-top: 1rem; }
.whole { white-space: nowrap; }
.sections { margin-top: 1.5rem; font-size: 0.9rem; }
.sections ul { margin: 0; padding: 0; list-style: none; columns: 3 18rem; column-gap: 2.5rem; }
.sections li { padding: 0.2rem 0; break-inside: avoid; }
.sections + section { margin-top: 1.5rem; }
@media screen and (max-width: 40rem) { body { padding-top: 1.25rem; } section { margin-top: 2.2rem; } }
.sections summary { padding: 0.3rem 0; }
.sections small { color: var(--quiet); white-space: nowrap; }
summary { cursor: pointer; }
.beside { margin-top: 0.8rem; }
.beside summary { color: var(--quiet); font-size: 0.85rem; padding: 0.3rem 0; }
`;

const TABLES = `.scroll {
  position: relative; overflow-x: auto; max-width: 100%;
  background:
    linear-gradient(to left, var(--paper) 1rem, transparent) right / 2rem 100% no-repeat local,
    linear-gradient(to left, var(--edge), transparent) right / 0.8rem 100% no-repeat;
}
table { border-collapse: collapse; font-size: 0.9rem; line-height: 1.35; font-variant-numeric: tabular-nums lining-nums; }
table.wide { min-width: 100%; }
caption { caption-side: top; text-align: left; color: var(--quiet); font-size: 0.85rem; padding-bottom: 0.6rem; }
caption span.said { position: sticky; left: 0; display: inline-block; max-width: min(100%, calc(100vw - 2rem)); }
th, td { padding: 0.32rem 0.7rem; text-align: left; vertical-align: baseline; font-weight: 400; }
th:first-child, td:first-child { padding-left: 0; }
th:last-child, td:last-child { padding-right: 0; }
thead th { color: var(--quiet); font-size: 0.8rem; vertical-align: bottom; border-bottom: 1px solid var(--strong-rule); }
tbody tr + tr > * { border-top: 1px solid var(--rule); }
.figure { text-align: right; white-space: nowrap; }
thead .figure { white-space: normal; }
.date, .flag { white-space: nowrap; }
.zero { font-size: 0; }
.zero:not(:has(a))::before, .zero a::before { content: "–"; content: "–" / ""; font-size: 0.9rem; color: var(--quiet); }
.text, .id { max-width: 22rem; overflow-wrap: break-word; }
td.text { min-width: 6.5rem; }
td a, th a { color: inherit; text-decoration-color: var(--rule); display: inline-block; }
td a:hover, th a:hover { color: var(--clay); text-decoration-color: currentColor; }
tbody th small { color: var(--quiet); font-size: 0.85em; }
tr.soon > * { background: var(--soon); }
tr.now > * { background: var(--now); }
tr.now > .alert { color: var(--clay); }
tr:target > * { background: var(--band); }
tr.part th { font-family: Georgia, "Times New Roman", serif; font-size: 1.05rem; padding-top: 1.5rem; border-top: 0; }
tbody:first-of-type tr.part th { padding-top: 0.9rem; }
tbody tr.sum > * { font-weight: 600; border-top-color: var(--strong-rule); }
.tick { display: inline-block; width: 0.8em; height: 0.8em; border: 1px solid var(--strong-rule); }
.id:has(.tick) { white-space: nowrap; }
tr:has(img) > * { vertical-align: top; }
.total th, .total td { border-top: 1px solid var(--strong-rule); font-weight: 600; }
@media screen and (max-width: 48rem) {
  thead th:first-child, tbody th[scope="row"] {
    position: sticky; left: 0; max-width: 8.5rem;
    background: var(--paper); box-shadow: 1px 0 var(--rule); z-index: 1;
  }
  tbody th small { display: none; }
  tr.part th span { position: sticky; left: 0; display: inline-block; max-width: calc(100vw - 2rem); white-space: normal; }
  .money-first, .money-first > thead, .money-first > tbody, .money-first > caption { display: block; }
  .money-first tr { display: flex; width: max-content; min-width: 100%; }
  .money-first tbody tr { border-top: 1px solid var(--rule); }
  .money-first tbody tr > * { border-top: 0; }
  .money-first thead tr { border-bottom: 1px solid var(--strong-rule); }
  .money-first thead th { border: 0; align-self: end; }
  .money-first tr > * { order: 3; flex: 0 0 7.5rem; padding-right: 0.5rem; }
  .money-first tr > .date, .money-first tr > .flag { flex-basis: 6rem; }
  .money-first tr > .figure { flex-basis: calc(var(--signs) * 0.56rem + 1rem); padding-left: 0.5rem; }
  .money-first tr > .alert { flex-basis: 5.5rem; }
  .money-first tr > :first-child { order: 0; flex-basis: 8rem; }
  .money-first tr > .lead { order: 1; }
  .money-first tr > .money { order: 2; }
  .money-first tr.part > * { flex-basis: 100%; }
}
.notes { margin: 1rem 0 0; padding: 0; list-style: none; color: var(--quiet); font-size: 0.9rem; max-width: 46rem; }
.notes li + li { margin-top: 0.3rem; }
.notes + .scroll { margin-top: 1.5rem; }
`;

const PATTERNED = PATTERNS.map(({ kind, id }) => `svg .${kind} { fill: url(#${id}); }`).join('\n');

const CHARTS = `.figures { columns: 2 22rem; column-gap: 3.5rem; }
.figures:has(> figure:only-child) { columns: auto; }
figure { margin: 0 0 2.5rem; break-inside: avoid; }
figcaption { margin-bottom: 0.8rem; }
figcaption p { color: var(--quiet); font-size: 0.85rem; }
figure .scroll { margin-top: 1rem; }
figure table { min-width: 100%; font-size: 0.82rem; }
figure caption { padding-bottom: 0.2rem; }
svg { display: block; max-width: 100%; overflow: visible; font-size: 12px; font-variant-numeric: tabular-nums; }
svg text { fill: var(--ink); }
svg .mark { fill: var(--quiet); font-size: 11px; }
svg .grid { stroke: var(--rule); }
svg .zero { stroke: var(--strong-rule); }
svg .bar, svg .dot, svg .on { fill: var(--glaze); }
svg .part, svg .against { stroke: var(--glaze); }
svg .part-1 { fill: var(--glaze); }
svg .part-5 { fill: var(--clay); stroke: var(--clay); }
svg .part-4, svg .part-7 { stroke: var(--clay); }
${PATTERNED}
svg .part-8 { fill: var(--paper); }
svg .against { stroke: var(--strong-rule); }
.pattern rect { fill: var(--paper); }
.pattern path { fill: none; stroke: var(--glaze); stroke-width: 1.5; }
.pattern .clay { stroke: var(--clay); }
.pattern .pale { stroke: var(--strong-rule); }
svg .limit, svg .step { stroke: var(--strong-rule); stroke-dasharray: 4 3; }
svg .line, svg .end { stroke: var(--glaze); stroke-width: 1.75; }
svg .tick { stroke: var(--ink); stroke-width: 2; }
svg .tick-2 { stroke-dasharray: 3 2; }
svg .out { overflow: visible; fill: var(--clay); }
svg .on { overflow: visible; }
svg .word, svg .corner, svg .row text { paint-order: stroke; stroke: var(--paper); stroke-width: 3px; stroke-linejoin: round; }
svg .corner { fill: var(--quiet); font-style: italic; }
.legend { display: flex; flex-wrap: wrap; gap: 0.2rem 1rem; margin: -0.3rem 0 0.7rem; padding: 0; list-style: none; font-size: 0.85rem; }
.legend li > svg { display: inline-block; vertical-align: -1px; overflow: hidden; }
.patterns { position: absolute; width: 0; height: 0; }
`;

const RECORDS = `.on-paper { display: none; }
summary:focus-visible { outline: 2px solid var(--clay); outline-offset: 2px; }
summary h2, summary h3 { display: inline; }
.records small { color: var(--quiet); font-size: 0.8rem; white-space: nowrap; }
.records p, .made-of { color: var(--quiet); font-size: 0.9rem; margin-top: 0.6rem; }
.records details details { margin-top: 0.9rem; }
.records details[id]:target > summary { background: var(--band); }
.made-of { list-style: none; margin-bottom: 0.6rem; padding: 0; max-width: 46rem; }
.made-of li:target, .records td:target { background: var(--band); outline: 2px solid var(--strong-rule); }
.made-of li, .records td { scroll-margin-top: 6rem; }
.records .scroll { background: none; }
.records table { font-size: 0.85rem; }
.records td:nth-child(2), .records tbody th { max-width: 30rem; min-width: 9rem; }
.records th:nth-child(n+3), .records td:nth-child(n+3) { text-align: right; white-space: nowrap; }
.records thead th { white-space: normal; }
.records td:first-child { white-space: nowrap; }
.records td:first-child, .records .id { color: var(--quiet); }
.records .together { font-weight: 600; }
.records .together th { font-weight: 600; }
.records .at { overflow-wrap: anywhere; }
@media screen and (max-width: 48rem) {
  .records table, .records thead, .records tbody { display: block; }
  .records tr { display: grid; grid-template-columns: repeat(auto-fill, minmax(4.75rem, 1fr)); }
  .records tr > :nth-child(-n+2) { grid-column: 1 / -1; }
  .records tbody th, .records thead th, .records th:first-child { position: static; max-width: none; box-shadow: none; }
  .records tr > * { padding: 0.15rem 0; border: 0; }
  .records tbody tr { border-top: 1px solid var(--rule); padding: 0.2rem 0; }
  .records thead th:nth-child(-n+2), .records .together td:first-child { display: none; }
}
`;

const CONTENTS = `.about, .contents small { color: var(--quiet); }
.contents { margin: 0.8rem 0 0; padding: 0; list-style: none; columns: 3 18rem; column-gap: 2.5rem; }
.contents li { padding: 0.3rem 0 0.6rem; break-inside: avoid; font-size: 0.9rem; }
.contents li a { font-size: 1rem; }
.written { margin: 0; font-size: 0.85rem; line-height: 1.45; white-space: pre-wrap; overflow-wrap: anywhere; }
.written span { counter-increment: line; }
.written span::before { content: counter(line); display: inline-block; min-width: 3ch; margin-right: 1.5ch; text-align: right; color: var(--quiet); }
.written { counter-reset: line; }
.written :target { background: var(--band); outline: 0.2rem solid var(--band); }
.up { font-size: 0.9rem; margin-bottom: 0.8rem; }
.contents small { font-size: 0.8rem; white-space: nowrap; }
`;

const PRINT = `@page {
  margin: 17mm 14mm;
  @bottom-right { content: "Page " counter(page) " of " counter(pages); font: 8pt Arial, sans-serif; }
}
@page wide { size: landscape; margin: 15mm 14mm; }
@media print {
  :root {
    --paper: #fff; --band: #fff; --ink: #000; --quiet: #4a4a4a;
    --rule: #c4c4c4; --strong-rule: #777; --clay: #000; --glaze: #444; --now: #e6e6e6; --soon: #f3f3f3;
    color-scheme: light; print-color-adjust: exact; -webkit-print-color-adjust: exact;
  }
  body { padding: 0; max-width: none; font-size: 9.5pt; }
  body:has(table.wide):not(:has(.tall)) { page: wide; }
  body:has(.tall) section:has(> .scroll > .wide) { page: wide; }
  h1 { font-size: 18pt; }
  h2 { font-size: 13pt; }
  h3 { font-size: 10.5pt; }
  section { margin-top: 8mm; }
  footer { margin-top: 8mm; }
  h2, h3, caption, tr.part, .records > p { break-after: avoid; }
  thead { display: table-header-group; }
  tr, figure > svg, .made-of li { break-inside: avoid; }
  figure { break-inside: avoid; }
  .cut, .cut > svg { break-inside: auto; }
  .scroll { overflow: visible; background: none; }
  table { font-size: 8.5pt; line-height: 1.25; }
  table.wide { font-size: 8pt; }
  .zero:not(:has(a))::before, .zero a::before { font-size: 8pt; }
  tbody th small { font-size: 8pt; }
  thead th, caption, .notes, .records > p { font-size: inherit; }
  th, td { padding: 0.45mm 1.4mm; }
  tr.part th { font-size: 10.5pt; padding-top: 3mm; }
  tbody:first-of-type tr.part th { padding-top: 1.5mm; }
  .wide th, .wide td { padding: 0.45mm 1.2mm; }
  td img { max-width: 45mm; height: auto; }
  table th:first-child, table td:first-child { padding-left: 0; }
  table th:last-child, table td:last-child { padding-right: 0; }
  td.text { min-width: 0; }
  a { text-decoration: none; }
  .skip, .beside, .sections { display: none; }
  main:has(.caution) { display: flex; flex-direction: column; }
  main:has(.caution) > .charts { order: 1; }
  main:has(.caution) > .records { order: 2; }
  .verdict p:not(.caution) { font-size: 12pt; }
  .verdict dd { font-size: 16pt; }
  .verdict dt { font-size: 8.5pt; }
  .notes, .records > p { font-size: 8.5pt; }
  .figures { columns: 2; column-gap: 9mm; }
  figure { margin-bottom: 7mm; }
  .on-paper { display: inline; }
  th:has(> sup) { position: relative; }
  th > sup.on-paper { position: absolute; right: 100%; top: 0.45mm; padding-right: 1mm; font-size: 8pt; line-height: 1.25; }
  .records summary { list-style: none; break-after: avoid; }
  .records details::details-content { content-visibility: visible; display: block; }
  .records details details { margin-top: 4mm; }
  .records table, .made-of { font-size: 8pt; }
  .records td:nth-child(2), .records tbody th { min-width: 0; }
  .records .further { break-after: avoid; }
  .records .of-charts, .records .back { display: none; }
  .records { break-before: page; }
  ${PRINTED_SHEETS}}
`;

/** The whole style sheet, which nothing of the book gets into. */
export const STYLE: Markup = {
  markup: COLOURS + TYPE + FRAME + TABLES + SHEETS + CHARTS + RECORDS + CONTENTS + PRINT,
};

/** The title at the head of every sheet of paper, whatever signs are in it. */
export function runningTitle(title: string): Markup {
  const signs = Array.from(title, (sign) =>
    /[A-Za-z0-9 ]/.test(sign) ? sign : `\\${(sign.codePointAt(0) ?? 0).toString(16)} `,
  );
  return {
    markup: `@page { @top-left { content: "${signs.join('')}"; font: 8pt Arial, sans-serif; } }`,
  };
}
