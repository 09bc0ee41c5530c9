/** The looks of papers: black on white, on A4 and on Letter alike. */
import type { Markup } from '../html/markup.ts';

const LETTER = `@page { margin: 20mm 18mm; }
:root { color-scheme: light; }
body { margin: 0 auto; max-width: 174mm; padding: 1.5rem; background: #fff; color: #111;
  font: 10.5pt/1.45 Georgia, "Times New Roman", serif; overflow-wrap: break-word; }
header { border-left: 3mm solid #8a4b2f; padding-left: 4mm; }
header p { margin: 0; }
header .studio { font-size: 15pt; }
h1 { font-size: 14pt; font-weight: 600; margin: 9mm 0 3mm; }
.to { margin-top: 8mm; min-height: 24mm; }
.to p { margin: 0; }
.to .head, dt, thead th { color: #555; font-size: 9pt; font-weight: 400; }
.open { border-bottom: 0.3mm solid #777; height: 8mm; max-width: 80mm; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.5mm 6mm; margin: 0 0 6mm; align-items: baseline; }
dd { margin: 0; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums lining-nums; }
caption { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
th, td { text-align: left; vertical-align: baseline; padding: 1.2mm 2mm 1.2mm 0; font-weight: 400; }
th:last-child, td:last-child { padding-right: 0; }
thead th { border-bottom: 0.3mm solid #777; vertical-align: bottom; }
tbody tr + tr > * { border-top: 0.2mm solid #ccc; }
.figure { text-align: right; white-space: nowrap; }
.sums { margin: 3mm 0 0; width: auto; margin-left: auto; }
.sums tr + tr > * { border-top: 0; }
.sums th { padding-right: 6mm; }
.sums .total > * { font-weight: 600; }
.text { margin: 6mm 0 0; white-space: pre-line; }
.signs { display: grid; grid-template-columns: 1fr 1fr; gap: 8mm; margin-top: 16mm; }
.signs p { margin: 0; border-top: 0.3mm solid #777; padding-top: 1mm; }
@media print {
  body { padding: 0; max-width: none; }
  header { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  thead { display: table-header-group; }
  tr, .sums, .signs, .text { break-inside: avoid; }
}
`;

const LABELS = `:root { color-scheme: light; }
body { margin: 0; background: #fff; color: #000; font: 7.5pt/1.2 Arial, Helvetica, sans-serif; }
h1 { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; margin: 0; }
ol { position: relative; margin: 0; padding: 0; list-style: none; overflow: hidden; break-inside: avoid; }
ol + ol { break-before: page; }
li { position: absolute; box-sizing: border-box; padding: 1.5mm 2mm; overflow: hidden;
  display: flex; flex-direction: column; overflow-wrap: anywhere; }
li > span { display: block; }
.name { font-weight: 700; }
.price { font-size: 1.25em; font-variant-numeric: tabular-nums; }
li > span { flex: none; }
.name, .more { display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 2; overflow: hidden; }
.number, .care, .caution { font-size: 0.8em; }
li.low .name, li.low .more { -webkit-line-clamp: 1; }
li.high { font-size: 9.5pt; padding: 2.5mm 3mm; }
li.low { padding: 0.6mm 1.5mm; font-size: 6pt; line-height: 1.1; }
`;

/** Of everything that is like a letter. */
export const LETTER_STYLE: Markup = { markup: LETTER };

/** Of label sheets. */
export const LABEL_STYLE: Markup = { markup: LABELS };
