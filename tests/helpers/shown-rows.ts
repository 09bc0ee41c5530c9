/** Reads a table back from its text as a person does: heads, rows, what is said below them, totals. */
import { visible } from '../../src/render/escape.ts';
import { forReading, shownTable, type ShownColumn } from '../../src/render/shown.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import type { Table } from '../../src/report/table.ts';

/** What is seen of a row: figures by their columns' keys, and all of its text. */
export interface SeenRow {
  readonly figures: ReadonlyMap<string, number>;
  readonly text: string;
}

/** The rows of a table as they are seen on a line of so many columns; totals come last. */
export async function seenRows(whole: Table, width: number): Promise<readonly SeenRow[]> {
  const { table, headings } = forReading(whole);
  const text = await renderText(whole, { width, colour: false });
  const lines = text.split('\n');
  const columns = shownTable(asFolded(table, text), visible);
  const start = lines.findIndex((line, at) => at > 3 && line.includes('──'));
  const heads = headsOf(lines[start - 1] ?? '', columns);
  const inHeadings = new Set(headings.values());
  const isHeading = (line: string): boolean =>
    [...inHeadings].some((name) => line.startsWith(name) && line.includes(' ──'));
  const end = lines.findLastIndex((line) => /^─+$/.test(line));
  const hasTotals = table.totals !== undefined;
  const body = lines.slice(start, hasTotals ? end : undefined);
  const [first] = columns;
  const rows = blocksOf(
    body.filter((line) => !isHeading(line)),
    first?.cells ?? [],
  );
  const notes = lines.indexOf('', end);
  const below = hasTotals ? blocksOf(lines.slice(end + 1, notes), [first?.total ?? '']) : [];
  return [...rows, ...below].map((block) => ({
    figures: figuresOf(block, heads, columns),
    text: block.join('\n'),
  }));
}

/** The table with the columns that stand in the text: the narrow ones where one stands there that only they have. */
function asFolded(table: Table, text: string): Table {
  const { narrow, columns } = table;
  const heads = new Set(columns.map(({ title }) => title));
  const body = text.slice(0, text.lastIndexOf('──'));
  const isFolded = narrow?.columns.some(
    ({ title }) => !heads.has(title) && new RegExp(`\\b${title}\\b`).test(body),
  );
  return isFolded === true ? { ...table, ...narrow } : table;
}

interface HeadEnd {
  readonly key: string;
  readonly end: number;
}

/** The last words of heads stand on the rule, those of figures at the right end of their column. */
function headsOf(line: string, columns: readonly ShownColumn[]): HeadEnd[] {
  const left = [...columns];
  return [...line.matchAll(/\S+(?: \S+)*/g)].flatMap((found) => {
    const at = left.findIndex(({ head }) => head.endsWith(found[0]));
    const [shown] = left.splice(0, at + 1).slice(-1);
    return shown ? [{ key: shown.column.key, end: found.index + found[0].length }] : [];
  });
}

/** A row begins at the margin, with what its first column begins with; all else belongs to it. */
function blocksOf(lines: readonly string[], firsts: readonly string[]): string[][] {
  const blocks: string[][] = [];
  for (const line of lines) {
    if (line === '' || /^─+$/.test(line)) continue;
    const next = firsts[blocks.length] ?? '';
    const isNext = !line.startsWith(' ') && next.startsWith(line.split(' ', 1)[0] ?? '');
    if (isNext && next !== '') blocks.push([line]);
    else blocks.at(-1)?.push(line);
  }
  return blocks;
}

const FIGURE = String.raw`-?[\d,]+(?:\.\d+)?%?`;

function figuresOf(
  [first = '', ...others]: readonly string[],
  heads: readonly HeadEnd[],
  columns: readonly ShownColumn[],
): ReadonlyMap<string, number> {
  const onLine = [...first.matchAll(new RegExp(`(?<=^|  )${FIGURE}(?=$|  )`, 'g'))].flatMap(
    (found) => {
      const head = heads.find(({ end }) => end === found.index + found[0].length);
      return head ? [[head.key, numberIn(found[0])] as const] : [];
    },
  );
  const said = others
    .filter((line) => /^ {2}\S/.test(line))
    .map((line) => line.trim().replace(/^(?![-+] )/, '· '))
    .join(' ');
  const below = columns.flatMap(({ column, head }) => {
    const [, text] = new RegExp(`(?<=[·+-] )${escaped(head)} (${FIGURE})`).exec(said) ?? [];
    return text === undefined ? [] : [[column.key, numberIn(text)] as const];
  });
  return new Map([...below, ...onLine]);
}

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);
}

function numberIn(text: string): number {
  return Number(text.replaceAll(/[,%]/g, ''));
}
