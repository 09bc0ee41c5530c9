/** A table as GitHub-flavoured Markdown. */
import type { Table } from '../report/table.ts';
import { escapeMarkdown } from './escape.ts';
import { caption, isFigure, NOTHING, shownTable } from './shown.ts';
import type { ShownColumn } from './shown.ts';

function line(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}

function bold(text: string): string {
  return text === '' ? '' : `**${text}**`;
}

function grid(table: Table): string {
  const columns = shownTable(table, escapeMarkdown);
  const each = (cell: (column: ShownColumn) => string): string => line(columns.map(cell));
  const rows = table.rows.map((_, at) => each(({ cells }) => cells[at] ?? ''));
  return [
    each(({ head }) => head),
    each(({ column }) => (isFigure(column) ? '---:' : '---')),
    ...rows,
    ...(table.totals === undefined ? [] : [each(({ total }) => bold(total))]),
  ].join('\n');
}

/**
 * GitHub-flavoured Markdown with a line end: the title as heading, a line that says whose figures
 * they are, the table with its totals in bold, the notes as a list. Figures as people see them; text
 * from the book renders as it reads, without markup, mentions or links.
 */
export function renderMarkdown(table: Table): string {
  const notes = table.notes.map((note) => `- ${escapeMarkdown(note)}`);
  const blocks = [
    `# ${escapeMarkdown(table.title)}`,
    escapeMarkdown(caption(table)),
    table.rows.length === 0 ? NOTHING : grid(table),
    notes.join('\n'),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}
