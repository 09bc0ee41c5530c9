/** What the cells of a row say as a record has it; what is not clear is said, and nothing guessed. */
import { didYouMean, nearest } from '../../nearest.ts';
import type { Kind } from '../../book.ts';
import { decimal } from '../../number/decimal.ts';
import { cachedFor } from '../../once.ts';
import type { Finding } from '../../problem.ts';
import { textUnder } from '../../read/raw.ts';
import type { Lexicon } from '../lexicon.ts';
import { dayOfDate, numberOfCell } from './cell.ts';
import { listField, type ListField } from './list-field.ts';
import type { ListKind, ListMap } from './map.ts';
import { mapLine, unclearRow } from './row-words.ts';
import type { ListRow } from './table.ts';

/** By what rows are read. */
export interface ListGround {
  readonly map: ListMap & { readonly kind: ListKind };
  readonly lexicon: Lexicon;
  /** The currency's decimals. */
  readonly digits: number;
  /** Whether the list writes what was taken off as a fee with a minus. */
  readonly feesBelowZero: boolean;
}

/** A record while it is made, and what is not clear of it. */
export interface RowsRead {
  readonly ground: ListGround;
  readonly findings: Finding[];
}

/** A value of a cell, and the cell. */
interface CellValue {
  readonly row: ListRow;
  readonly field: ListField;
  readonly text: string;
}

/** What the rows say of the whole record: each the same or nothing, or amounts that are added up. */
export function wholeValue(
  making: RowsRead,
  rows: readonly ListRow[],
  field: ListField,
): string | undefined {
  const { map, digits } = making.ground;
  const cells = rows.flatMap((row) => cellOf(map, row, field));
  const values = cells.flatMap((cell) => {
    const value = valueOfCell(making, cell);
    return value === undefined ? [] : [{ cell, value }];
  });
  if (map.eachRow.includes(field.name)) {
    if (values.length === 0) return undefined;
    return values.reduce((sum, { value }) => sum.plus(decimal(value)), decimal(0)).toFixed(digits);
  }
  const [first] = values;
  const other = values.find(({ value }) => value !== first?.value);
  if (other)
    making.findings.push(
      unclearRow(other.cell.row, {
        message: `${field.name} is ${other.cell.text} here, and ${first?.cell.text ?? ''} on another row of the same record`,
        hint: `add ${field.name} under each-row, where each row has an amount of its own`,
        value: other.cell.text,
      }),
    );
  return first?.value;
}

/** The cell of a row that fills a field; none where it is empty. */
export function cellOf({ columns, kind }: ListMap, row: ListRow, field: ListField): CellValue[] {
  return [...columns].flatMap(([name, column]) => {
    const its = listField(kind, name);
    if (its?.within !== field.within || its.name !== field.name) return [];
    const text = row.cells.get(column) ?? '';
    return text === '' ? [] : [{ row, field, text }];
  });
}

const FIGURE_TYPES = new Set(['amount', 'rate', 'number', 'count', 'discount', 'percent']);

/** What a cell says as a record has it; undefined where that is not clear. */
export function valueOfCell(making: RowsRead, cell: CellValue): string | undefined {
  const { map } = making.ground;
  const { spec, name } = cell.field;
  const word = map.words.get(name)?.get(cell.text);
  if (word !== undefined) return word;
  if (spec.type === 'day' || spec.type === 'paid') return dayOfCell(making, cell);
  if (FIGURE_TYPES.has(spec.type) && !cell.text.endsWith('%')) return figureOf(making, cell);
  if (spec.type === 'quantity') return quantityOf(making, cell);
  if (spec.type === 'reference' || spec.type === 'word') return idOf(making, cell);
  return cell.text.replace(/\s+/g, ' ');
}

/** Money with the currency's decimals, any other number as it is. */
function figureOf(making: RowsRead, cell: CellValue): string | undefined {
  const { map, digits } = making.ground;
  const { type } = cell.field.spec;
  const number = numberOfCell(cell.text, map.decimals);
  if (!number) return notNumber(making, cell);
  if (type !== 'amount' && type !== 'discount') return number.toFixed();
  return number.decimalPlaces() > digits ? tooFine(making, cell) : number.toFixed(digits);
}

function dayOfCell(making: RowsRead, cell: CellValue): string | undefined {
  const { dates = 'year-month-day' } = making.ground.map;
  const day = dayOfDate(cell.text, dates);
  if (day !== undefined) return day;
  return unclear(making, cell, {
    message: `"${cell.text}" is not a day in the order ${dates}`,
    hint: `write dates: in the map as the list has them, or skip the row`,
  });
}

function notNumber(making: RowsRead, cell: CellValue): string | undefined {
  const { decimals } = making.ground.map;
  return unclear(making, cell, {
    message: `"${cell.text}" is not a number with a decimal ${decimals}`,
    hint: 'write decimals: point or comma in the map, as the list has them, or skip the row',
  });
}

function tooFine(making: RowsRead, cell: CellValue): string | undefined {
  return unclear(making, cell, {
    message: `"${cell.text}" has more decimals than the currency`,
    hint: 'correct the row, or skip it in the map',
  });
}

/** `2,5 kg`, `2 x 25 kg`: the figures as the list writes them, then the unit. */
function quantityOf(making: RowsRead, cell: CellValue): string | undefined {
  const [, times = '', figures = '', unit = ''] =
    /^(?:(.*?) ?[x×] ?)?(.*?)\s*([A-Za-z][\w-]*)?$/.exec(cell.text) ?? [];
  const numbers = [times, figures]
    .filter((text) => text !== '')
    .map((text) => numberOfCell(text, making.ground.map.decimals)?.toFixed());
  if (numbers.length === 0 || numbers.includes(undefined)) return notNumber(making, cell);
  return `${numbers.join(' x ')} ${unit}`.trim();
}

/** An id or a word as the book has it, or a definition's own name; else it is asked for. */
function idOf({ ground, findings }: RowsRead, cell: CellValue): string | undefined {
  const { spec, name } = cell.field;
  const words = spec.type === 'word' || spec.type === 'reference' ? (spec.words ?? []) : [];
  if (words.includes(cell.text)) return cell.text;
  const kinds = spec.type === 'reference' ? spec.to : [];
  const found = ground.lexicon.find(cell.text);
  if (found && kinds.includes(found.kind)) return found.id;
  const names = namesIn(ground.lexicon)(kinds);
  const named = names.get(cell.text.toLowerCase());
  if (named !== undefined) return named;
  const near = nearest(cell.text, [...words, ...ground.lexicon.ids(kinds)]);
  const byName = names.get(nearest(cell.text, names.keys()) ?? '');
  const meant = near ?? byName;
  const ask = didYouMean(meant, '', '"');
  findings.push(
    unclearRow(cell.row, {
      message: `"${cell.text}" is nothing in the book that ${name} can be`,
      hint: `${ask === '' ? '' : `${ask} `}add under words, ${name}: the line ${mapLine(cell.text, meant ?? 'ID')}`,
      value: cell.text,
    }),
  );
  return undefined;
}

/** Definitions by their names in small letters; a name that two have is none. */
const namesIn = cachedFor((lexicon: Lexicon) => {
  const known = new Map<string, ReadonlyMap<string, string>>();
  return (kinds: readonly Kind[]): ReadonlyMap<string, string> => {
    const key = kinds.join(' ');
    const found = known.get(key) ?? idsByName(lexicon, kinds);
    known.set(key, found);
    return found;
  };
});

function idsByName(lexicon: Lexicon, kinds: readonly Kind[]): ReadonlyMap<string, string> {
  const ids = new Map<string, string>();
  const twice = new Set<string>();
  for (const { id, raw } of lexicon.records(kinds)) {
    const name = textUnder(raw, 'name').toLowerCase();
    if (ids.has(name)) twice.add(name);
    ids.set(name, id);
  }
  for (const name of ['', ...twice]) ids.delete(name);
  return ids;
}

function unclear(
  { findings }: RowsRead,
  { row, text }: CellValue,
  words: { readonly message: string; readonly hint: string },
): string | undefined {
  findings.push(unclearRow(row, { ...words, value: text }));
  return undefined;
}
