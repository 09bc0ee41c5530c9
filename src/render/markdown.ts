/** A table as GitHub-flavoured Markdown. */
import type { Table } from '../report/table.ts';
import { escapeMarkdown } from './escape.ts';
import {
  NOTHING_TO_SHOW,
  type TableToRead,
  type ShownColumn,
  caption,
  forReading,
  isFigure,
  shownTable,
} from './shown.ts';

function line(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}

function bold(text: string): string {
  return text === '' ? '' : `**${text}**`;
}

/** A grid for each part under its heading, or one for the whole table. */
function grids({ table, headings }: TableToRead): string[] {
  if (headings.size === 0) return [grid(table)];
  const starts = [...headings];
  return starts.flatMap(([from, heading], index) => {
    const to = starts[index + 1]?.[0] ?? table.rows.length;
    return [`## ${escapeMarkdown(heading)}`, grid(table, { from, to })];
  });
}

interface RowRange {
  readonly from: number;
  readonly to: number;
}

/** Totals stand below the last row. */
function grid(table: Table, { from, to }: RowRange = { from: 0, to: table.rows.length }): string {
  const columns = shownTable(table, escapeMarkdown);
  const each = (cell: (column: ShownColumn) => string): string => line(columns.map(cell));
  const cells = table.rows.map((_, at) => each((column) => column.cells[at] ?? ''));
  const rows = cells.slice(from, to);
  return [
    each(({ head }) => head),
    each(({ column }) => (isFigure(column) ? '---:' : '---')),
    ...rows,
    ...(table.totals === undefined || to < table.rows.length
      ? []
      : [each(({ total }) => bold(total))]),
  ].join('\n');
}

/**
 * GitHub-flavoured Markdown with a line end: the title as heading, a line that says whose figures
 * they are, the table with its totals in bold, the notes as a list. Figures as people see them; text
 * from the book renders as it reads, without markup, mentions or links.
 */
export function renderMarkdown(table: Table): string {
  const reading = forReading(table);
  const notes = table.notes.map((note) => `- ${escapeMarkdown(note)}`);
  const blocks = [
    `# ${escapeMarkdown(table.title)}`,
    escapeMarkdown(caption(table)),
    ...(reading.table.rows.length === 0 ? [NOTHING_TO_SHOW] : grids(reading)),
    notes.join('\n'),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}
