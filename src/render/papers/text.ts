/** Papers as plain text for a mail: no line longer than 72 cells. */
import type { LabelPaper, Paper, PaperSum, PaperTable } from '../../report/papers/paper.ts';
import { visible } from '../escape.ts';
import { displayWidth, pad, wrap } from '../terminal/width.ts';

const MAIL_WIDTH = 72;
const GAP = '  ';
const OPEN_LINE = '_'.repeat(40);

/** The whole paper; signs of its texts that act are shown. */
export function paperText(paper: Paper): string {
  const { studio, letterhead, to, table, sums = [], texts, signatures = [] } = paper;
  const blocks = [
    [studio, ...letterhead],
    to ? [to.head, ...to.lines, ...Array.from({ length: to.open }, () => OPEN_LINE)] : [],
    [paper.title.toUpperCase()],
    factLines(paper),
    listLines(table, sums),
    ...texts.map((text) => text.trimEnd().split('\n')),
    ...signatures.map((who) => ['', OPEN_LINE, who]),
  ];
  const laid = blocks.filter((block) => block.length > 0).map(blockText);
  return `${laid.join('\n\n')}\n`;
}

function blockText(lines: readonly string[]): string {
  const fits = (line: string): boolean => displayWidth(line) <= MAIL_WIDTH;
  return lines
    .map(visible)
    .flatMap((line) => (fits(line) ? [line] : wrap(line, { width: MAIL_WIDTH })))
    .join('\n');
}

function factLines({ facts }: Paper): string[] {
  const heads = Math.max(0, ...facts.map(({ head }) => displayWidth(visible(head))));
  return facts.flatMap(({ head, text }) => {
    const lines = wrap(visible(text), { width: MAIL_WIDTH - heads - GAP.length });
    return lines.map((line, at) => pad(at === 0 ? visible(head) : '', heads, false) + GAP + line);
  });
}

/** The table with its sums below it, which end where it ends. */
function listLines(table: PaperTable | undefined, sums: readonly PaperSum[]): string[] {
  const lines = table ? tableLines(table) : [];
  const width = Math.max(...lines.map(displayWidth), table ? 0 : MAIL_WIDTH);
  return [...lines, ...sumLines(sums, width)];
}

/** The widest column of words gives way, and is folded. */
function tableLines({ columns, rows }: PaperTable): string[] {
  const all = [columns.map(({ head }) => head), ...rows].map((row) => row.map(visible));
  const widest = columns.map((_, at) => Math.max(...all.map((row) => displayWidth(row[at] ?? ''))));
  const widths = fitted(columns, widest);
  const lines = all.map((row) => {
    const cells = row.map((cell, at) => wrap(cell, { width: widths[at] ?? MAIL_WIDTH }));
    const height = Math.max(1, ...cells.map((cell) => cell.length));
    return Array.from({ length: height }, (_, line) =>
      columns
        .map(({ isFigure }, at) => pad(cells[at]?.[line] ?? '', widths[at] ?? 0, isFigure))
        .join(GAP)
        .trimEnd(),
    );
  });
  const rule = widths.map((width) => '-'.repeat(width)).join(GAP);
  const [head = [], ...body] = lines;
  return [...head, rule, ...body.flat()];
}

const LEAST_WORDS = 8;

function fitted(columns: PaperTable['columns'], widest: readonly number[]): number[] {
  const widths = [...widest];
  const room = MAIL_WIDTH - GAP.length * (columns.length - 1);
  const used = (): number => widths.reduce((sum, width) => sum + width, 0);
  while (used() > room) {
    const words = columns.map(({ isFigure }, at) => (isFigure ? 0 : (widths[at] ?? 0)));
    const most = Math.max(...words);
    if (most <= LEAST_WORDS) break;
    widths[words.indexOf(most)] = most - 1;
  }
  return widths;
}

function sumLines(sums: readonly PaperSum[], width: number): string[] {
  if (sums.length === 0) return [];
  const amounts = Math.max(...sums.map(({ amount }) => displayWidth(amount)));
  const heads = Math.max(...sums.map(({ head }) => displayWidth(visible(head))));
  const room =
    Math.min(MAIL_WIDTH, Math.max(width, heads + GAP.length + amounts)) - amounts - GAP.length;
  return [
    '',
    ...sums.map(({ head, amount }) => {
      const [words = ''] = wrap(visible(head), { width: room });
      return pad(words, room, true) + GAP + pad(amount, amounts, true);
    }),
  ];
}

/** Labels one below the other, each sort once with how many there are of it. */
export function labelsText({ title, studio, sheet, used, labels }: LabelPaper): string {
  const sorts = new Map<LabelPaper['labels'][number], number>();
  for (const label of labels) sorts.set(label, (sorts.get(label) ?? 0) + 1);
  const texts = [...sorts].map(([{ name, more, price, caution, number, care }, count]) => {
    const lines = [[name, more].filter(Boolean).join(', '), price, caution, number, ...care];
    return blockText([`${count} x`, ...lines.filter(Boolean).map((line) => `  ${visible(line)}`)]);
  });
  const places = [...new Set([used + 1, used + labels.length])].join('-');
  const head = `${title}: ${studio}, ${sheet.name}, ${places}`;
  return `${[blockText([head]), ...texts].join('\n\n')}\n`;
}
