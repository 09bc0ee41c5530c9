/** A table as GitHub-flavoured Markdown. */
import type { Sheet, SheetLine } from '../report/day/sheet.ts';
import { ended } from '../in-words.ts';
import type { Table } from '../report/table.ts';
import { escapeMarkdown, visible } from './escape.ts';
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
 * they are, what matters, the table with its totals in bold, the notes as a list. Figures as people see them; text
 * from the book renders as it reads, without markup, mentions or links.
 */
export function renderMarkdown(table: Table): string {
  const { below } = table;
  const blocks = [
    `# ${escapeMarkdown(table.title)}`,
    escapeMarkdown(table.sheet?.title ?? caption(table)),
    escapeMarkdown(table.verdict?.sentence ?? ''),
    ...bodyOf(table),
    ...(below ? [`## ${escapeMarkdown(below.title)}`, ...bodyOf(below)] : []),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

function bodyOf(table: Table): string[] {
  const { sheet, notes } = table;
  const reading = forReading(table);
  const body = reading.table.rows.length === 0 ? [NOTHING_TO_SHOW] : grids(reading);
  const said = notes.map((note) => `- ${escapeMarkdown(note)}`).join('\n');
  return [...(sheet ? sheetBody(sheet) : body), said];
}

/** The command of what it leads with, which the verdict says, then its lines. */
function sheetBody({ first, lines }: Sheet): string[] {
  const command = first?.command === undefined ? '' : `    ${visible(first.command)}`;
  return [command, ...lines.flatMap(sheetBlocks)];
}

/** A line of a sheet as a part of its own: what is said first, and the list below it; a command as code. */
function sheetBlocks({ label, lead, list, bare }: SheetLine): string[] {
  const items = list.map(escapeMarkdown);
  const heading = `## ${escapeMarkdown(label)}`;
  if (bare === true) return [heading, `    ${visible(lead)}`, items.join(' ')];
  if (list.length === 0) return [heading, escapeMarkdown(ended(lead))];
  const first = lead === '' ? '' : `${escapeMarkdown(lead)}:`;
  return [heading, first, items.map((item) => `- ${item}`).join('\n')];
}
