/** Papers as pages that print right: one HTML document that needs nothing else. */
import type {
  Label,
  LabelPaper,
  LabelSheet,
  Paper,
  PaperTable,
} from '../../report/papers/paper.ts';
import { lines, markup, NO_MARKUP, type Markup } from '../html/markup.ts';
import { LABEL_STYLE, LETTER_STYLE } from './style.ts';

/** The frame: no scripts, nothing from outside. */
function paperDocument(
  { language, title, studio }: Pick<Paper, 'language' | 'title' | 'studio'>,
  style: Markup,
  body: Markup,
): string {
  return markup`<!doctype html>
    <html lang="${language}">
      <head>
        <meta charset="utf-8"/>
        <meta name="viewport" content="width=device-width, initial-scale=1"/>
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"/>
        <title>${title} · ${studio}</title>
        <style>
          ${style}
        </style>
      </head>
      <body>
        ${body}
      </body>
    </html>
    `.markup;
}

/** A letter on as many sheets as it needs, A4 or Letter as the printer has them. */
export function paperPage(paper: Paper): string {
  const { studio, letterhead, to, facts, table, texts, signatures = [] } = paper;
  const body = markup`<header>
      <p class="studio">${studio}</p>
      ${lines(letterhead.map((line) => markup`<p>${line}</p>`))}
    </header>
    <main>
      ${to ? addressMarkup(to) : NO_MARKUP}
      <h1>${paper.title}</h1>
      ${facts.length > 0 ? factsMarkup(facts) : NO_MARKUP}
      ${table ? tableMarkup(table) : NO_MARKUP}
      ${sumsMarkup(paper)}
      ${lines(texts.map((text) => markup`<p class="text">${text}</p>`))}
      ${signatures.length > 0 ? signatureMarkup(signatures) : NO_MARKUP}
    </main>`;
  return paperDocument(paper, LETTER_STYLE, body);
}

/** Beside each other, each below the line to sign on. */
function signatureMarkup(signatures: readonly string[]): Markup {
  return markup`<div class="signs">
        ${lines(signatures.map((who) => markup`<p>${who}</p>`))}
      </div>`;
}

function addressMarkup({ head, lines: texts, open }: NonNullable<Paper['to']>): Markup {
  const blank = Array.from({ length: open }, () => markup`<div class="open"></div>`);
  return markup`<div class="to">
        <p class="head">${head}</p>
        ${lines([...texts.map((line) => markup`<p>${line}</p>`), ...blank])}
      </div>`;
}

function factsMarkup(facts: Paper['facts']): Markup {
  return markup`<dl>
        ${lines(facts.map(({ head, text }) => markup`<dt>${head}</dt><dd>${text}</dd>`))}
      </dl>`;
}

function tableMarkup({ caption, columns, rows }: PaperTable): Markup {
  const named = columns.findIndex(({ isFigure }) => !isFigure);
  const cell = (text: string, at: number): Markup => {
    const look = columns[at]?.isFigure ? 'figure' : 'words';
    return at === named && text !== ''
      ? markup`<th scope="row" class="${look}">${text}</th>`
      : markup`<td class="${look}">${text}</td>`;
  };
  const head = columns.map((column) => {
    return markup`<th scope="col" class="${column.isFigure ? 'figure' : 'words'}">${column.head}</th>`;
  });
  return markup`<table>
        <caption>${caption}</caption>
        <thead><tr>${head}</tr></thead>
        <tbody>
          ${lines(rows.map((row) => markup`<tr>${row.map(cell)}</tr>`))}
        </tbody>
      </table>`;
}

function sumsMarkup({ sums = [], title }: Paper): Markup {
  if (sums.length === 0) return NO_MARKUP;
  const rows = sums.map(({ head, amount, isTotal }) => {
    const look = isTotal ? markup` class="total"` : NO_MARKUP;
    return markup`<tr${look}><th scope="row">${head}</th><td class="figure">${amount}</td></tr>`;
  });
  return markup`<table class="sums">
        <caption>${title}</caption>
        <tbody>
          ${lines(rows)}
        </tbody>
      </table>`;
}

/** Sizes of paper as CSS has them. */
const PAGE_SIZES: Readonly<Record<LabelSheet['paper'], readonly [width: string, height: string]>> =
  {
    A4: ['210mm', '297mm'],
    Letter: ['215.9mm', '279.4mm'],
  };

/** A browser takes a sheet that is as high as the paper for one that is higher. */
const SHORTER = '0.2mm';

/** Below the one height in millimetres texts are set smaller, from the other one on larger. */
const LOW_LABEL = 16;
const HIGH_LABEL = 30;

/** Labels at their places on sheets of their own size. */
export function labelsPage(paper: LabelPaper): string {
  const { sheet, labels, used, title } = paper;
  const each = sheet.columns * sheet.rows;
  const sheets = Array.from({ length: Math.ceil((used + labels.length) / each) }, (_, at) => {
    const from = Math.max(0, at * each - used);
    return { own: labels.slice(from, (at + 1) * each - used), first: at === 0 ? used : 0 };
  });
  const [width, height] = PAGE_SIZES[sheet.paper];
  const style = markup`${LABEL_STYLE}
    @page { size: ${width} ${height}; margin: 0; }
    ol { width: ${width}; height: calc(${height} - ${SHORTER}); }
    li { width: ${sheet.width}mm; height: ${sheet.height}mm; }`;
  const body = markup`<main>
    <h1>${title}</h1>
    ${lines(sheets.map(({ own, first }) => sheetOfLabels(sheet, own, first)))}
    </main>`;
  return paperDocument(paper, style, body);
}

function sheetOfLabels(sheet: LabelSheet, labels: readonly Label[], first: number): Markup {
  return markup`<ol>
    ${lines(labels.map((label, at) => labelMarkup(sheet, label, first + at)))}
    </ol>`;
}

function labelMarkup(sheet: LabelSheet, label: Label, at: number): Markup {
  const { x, y } = cornerOf(sheet, at);
  const look = sheet.height < LOW_LABEL ? 'low' : sheet.height < HIGH_LABEL ? 'label' : 'high';
  const parts = (['name', 'more', 'price', 'caution', 'number'] as const).flatMap((part) =>
    label[part] === '' ? [] : [markup`<span class="${part}">${label[part]}</span>`],
  );
  const care = label.care.map((text) => markup`<span class="care">${text}</span>`);
  return markup`<li class="${look}" style="left: ${x}mm; top: ${y}mm">${[...parts, ...care]}</li>`;
}

/** The left upper corner of a label of a sheet, in millimetres; labels count from 0, line by line. */
function cornerOf(
  { columns, left, top, width, height, across, down }: LabelSheet,
  at: number,
): { readonly x: number; readonly y: number } {
  const [column, row] = [at % columns, Math.floor(at / columns)];
  const places = 1000;
  const rounded = (length: number): number => Math.round(length * places) / places;
  return {
    x: rounded(left + column * (width + across)),
    y: rounded(top + row * (height + down)),
  };
}
