/** The rows of a list's text: a table of values between commas and the like, or sentences below their days. */
import { CsvError, parse } from 'csv-parse/sync';
import { dayMeant, type Day } from '../../number/date.ts';
import type { Finding, Place } from '../../problem.ts';
import type { ListMap } from './map.ts';

/** One row as it stands in the list. */
export interface ListRow {
  readonly file: string;
  /** The line that it begins on, from 1, and what is on that. */
  readonly line: number;
  readonly source: string;
  /** Column → what its cell says, without the spaces around it. */
  readonly cells: ReadonlyMap<string, string>;
  /** Why its cells can't be told apart, where it has not as many as there are columns. */
  readonly odd?: string;
}

/** A list's columns and rows. */
export interface ListTable {
  readonly file: string;
  readonly columns: readonly string[];
  readonly rows: readonly ListRow[];
}

const LINE_END = /\r\n|\n|\r/g;

/** The most rows that a list may have. */
const MOST_ROWS = 100_000;

const SEPARATORS = [',', ';', '\t', '|'] as const;

/** The text of a list, and what it is called. */
interface ListText {
  readonly file: string;
  readonly text: string;
}

/** Reads a table whose head names the columns, or says at which line it can't be read. */
export function readTable(
  list: ListText,
  { delimiter, head }: Pick<ListMap, 'delimiter' | 'head'>,
): ListTable | Finding {
  const parsed = parsedRows(list, delimiter ?? delimiterOf(list.text, head));
  if (!Array.isArray(parsed)) return parsed;
  const [first, ...others] = parsed.filter(({ line }) => line >= head);
  if (first?.line !== head) return noHead(list, head);
  const columns = uniqueNames(first.cells);
  const rows = others
    .filter(({ cells }) => cells.some((cell) => cell !== ''))
    .map(({ cells, ...row }) => ({ ...row, ...inColumns(columns, cells) }));
  return { file: list.file, columns, rows };
}

interface ParsedRow extends Pick<ListRow, 'file' | 'line' | 'source'> {
  readonly cells: readonly string[];
}

function parsedRows({ file, text }: ListText, delimiter: string): ParsedRow[] | Finding {
  try {
    const rows = parse(text, {
      delimiter,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      raw: true,
      to: MOST_ROWS,
    }) as unknown as { record: string[]; raw: string }[];
    let line = 1;
    return rows.map(({ record, raw }) => {
      const begins = line;
      line += raw.match(LINE_END)?.length ?? 0;
      const [source = ''] = raw.split(LINE_END);
      return { file, line: begins, source, cells: record.map((cell) => cell.trim()) };
    });
  } catch (error) {
    return unreadTable(file, text, error);
  }
}

function unreadTable(file: string, text: string, error: unknown): Finding {
  const lines = error instanceof CsvError ? Number(error['lines']) : 1;
  const line = Number.isInteger(lines) && lines > 0 ? lines : 1;
  const source = text.split(LINE_END)[line - 1] ?? '';
  return {
    rule: 'list-row',
    severity: 'error',
    at: { file, line, column: 1, width: 1, source },
    message: 'from about here on the list is not a table: a quote is open, or is within a value',
    hint: 'see whether delimiter in the map is the sign between the values, and save the list again',
  };
}

function noHead({ file, text }: ListText, head: number): Finding {
  const source = text.split(LINE_END)[head - 1] ?? '';
  return {
    rule: 'list-row',
    severity: 'error',
    at: { file, line: Math.max(1, head), column: 1, width: 1, source },
    message: `line ${head} does not name the columns`,
    hint: 'write head: with the number of the line that does into the map',
  };
}

/** The sign that parts most values of the head; a comma where none does. */
export function delimiterOf(text: string, head = 1): string {
  const line = text.split(LINE_END)[head - 1] ?? '';
  const bare = line.replace(/"[^"]*"/g, '');
  const counts = SEPARATORS.map((sign) => bare.split(sign).length);
  return SEPARATORS[counts.indexOf(Math.max(...counts))] ?? ',';
}

/** The second column of a name is called `Name (2)`; one without a name by its number. */
function uniqueNames(cells: readonly string[]): readonly string[] {
  const seen = new Map<string, number>();
  return cells.map((cell, at) => {
    const name = cell === '' ? `column ${at + 1}` : cell;
    const turn = (seen.get(name) ?? 0) + 1;
    seen.set(name, turn);
    return turn === 1 ? name : `${name} (${turn})`;
  });
}

function inColumns(
  columns: readonly string[],
  cells: readonly string[],
): Pick<ListRow, 'cells' | 'odd'> {
  const full = new Map(columns.map((column, at) => [column, cells[at] ?? '']));
  const extra = cells.slice(columns.length).some((cell) => cell !== '');
  if (!extra && cells.length >= columns.length) return { cells: full };
  const odd = `it has ${cells.length} values, and the head names ${columns.length} columns`;
  return { cells: full, odd };
}

/** The columns of notes. */
export const NOTE_DAY = 'day';
export const NOTE_LINE = 'line';

/** Reads notes: a line that is a day begins that day; each line below it is a sentence. */
export function readNotes({ file, text }: ListText, today: Day): ListTable {
  let day = '';
  const rows = text.split(LINE_END).flatMap((source, at): ListRow[] => {
    const said = source.trim().replace(/:$/, '');
    if (said === '' || said.startsWith('#')) return [];
    const begun = dayMeant(said, today);
    if (begun !== undefined) {
      day = begun;
      return [];
    }
    const cells = new Map([
      [NOTE_DAY, day],
      [NOTE_LINE, source.trim()],
    ]);
    return [{ file, line: at + 1, source, cells }];
  });
  return { file, columns: [NOTE_DAY, NOTE_LINE], rows };
}

/** Where a value stands in the line on which its row begins; the whole row where it isn't seen there. */
export function placeOfCell({ file, line, source }: ListRow, value = ''): Place {
  const at = value === '' ? -1 : source.indexOf(value);
  const [column, width] = at < 0 ? [1, source.trimEnd().length] : [at + 1, value.length];
  return { file, line, column, width: Math.max(1, width), source };
}
