/** Makes the record that rows of a list say, value by value; what is not clear is said, and nothing guessed. */
import { digestOf } from '../../digest.ts';
import { decimal, type Decimal } from '../../number/decimal.ts';
import type { Finding } from '../../problem.ts';
import { mapping, newMapping, type Growing, type RawMap } from '../../read/raw.ts';
import { FIELDS } from '../../../schema/generated/fields.js';
import { wholeValue, type ListGround, type RowsRead } from './cell-value.ts';
import { listField } from './list-field.ts';
import { linesOfRows, otherLines } from './lines-of-rows.ts';
import type { ListKind, ListMap } from './map.ts';
import { unclearRow } from './row-words.ts';
import { saleLine, signedSale, turned, type SignedLine } from './signs.ts';
import type { RowGroup } from './sort-rows.ts';
import { NOTE_DAY, NOTE_LINE, type ListRow } from './table.ts';

/** A record as its rows say it. */
export interface RecordOfRows extends RowGroup {
  /** Fields as they are typed: sentences may stand in them, and a price may be missing. */
  readonly fields: RawMap;
  /** A fingerprint of what the cells say. */
  readonly as: string;
  /** What the list says of the whole: what was charged, and what came of it. */
  readonly told: Readonly<Partial<Record<'total' | 'net', Decimal>>>;
  readonly findings: readonly Finding[];
}

/** The record of a group of rows. */
export function recordOfRows(ground: ListGround, group: RowGroup): RecordOfRows {
  const making: RowsRead = { ground, findings: [] };
  for (const row of group.rows)
    if (row.odd !== undefined)
      making.findings.push(
        unclearRow(row, { message: row.odd, hint: 'correct the row, or skip it in the map' }),
      );
  const isNotes = ground.map.form === 'notes';
  const said = isNotes ? noteFields(ground, group) : cellFields(making, group);
  return { ...group, ...said, as: fingerprint(ground.map, group), findings: making.findings };
}

/** Of the cells that the map names, as they stand: a map that is written otherwise changes nothing. */
function fingerprint({ columns, other, form }: ListMap, { rows }: RowGroup): string {
  const names = form === 'notes' ? [NOTE_DAY, NOTE_LINE] : [...columns.values(), ...other.values()];
  const used = [...new Set(names)].sort();
  const said = rows.map(({ cells }) => used.map((name) => [name, cells.get(name) ?? '']));
  return digestOf(JSON.stringify(said)).slice(0, FINGERPRINT);
}

const FINGERPRINT = 10;

function noteFields(
  { map }: ListGround,
  { key, rows }: RowGroup,
): Pick<RecordOfRows, 'fields' | 'told'> {
  const lines = rows.map(({ cells }) => cells.get(NOTE_LINE) ?? '');
  return { fields: mapping([['date', key], ...map.fixed, ['lines', lines]]), told: {} };
}

function cellFields(making: RowsRead, { rows }: RowGroup): Pick<RecordOfRows, 'fields' | 'told'> {
  const { map, digits, feesBelowZero } = making.ground;
  const fields: Growing = newMapping();
  const told: Partial<Record<'total' | 'net', Decimal>> = {};
  const fixed = [...map.fixed].map(([name, text]) => ({ field: listField(map.kind, name), text }));
  for (const { field, text } of fixed) if (field?.within === 'record') fields[field.name] = text;
  for (const name of map.columns.keys()) {
    const field = listField(map.kind, name);
    if (!field || field.within === 'line' || name === 'amount') continue;
    const value = wholeValue(making, rows, field);
    if (value === undefined) continue;
    if (field.within === 'record') fields[name] = value;
    else if (name === 'total' || name === 'net') told[name] = decimal(value);
  }
  if (!('lines' in FIELDS[map.kind].fields)) return withAmount(making, { fields, told }, rows);
  const lines = [...linesOfRows(making, rows), ...otherLines(making, rows)];
  if (map.kind !== 'sales')
    return {
      fields: { ...fields, lines: lines.map((line) => plainLine(map.kind, line, digits)) },
      told,
    };
  const sale = signedSale({ fields, told, feesBelowZero, digits }, lines);
  return { fields: { ...sale, lines: lines.map((line) => saleLine(line, digits)) }, told };
}

/** The line of an order or a purchase: it knows no returns, and a purchase counts nothing. */
function plainLine(kind: ListKind, line: SignedLine, digits: number): RawMap {
  const none = kind === 'bought' ? ['returned', 'count', 'price'] : ['returned'];
  const fields = Object.entries(saleLine(line, digits));
  return mapping(fields.filter(([name]) => !none.includes(name)));
}

/** An expense or an advance has one amount. */
function withAmount(
  making: RowsRead,
  { fields, told }: { readonly fields: Growing; readonly told: RecordOfRows['told'] },
  rows: readonly ListRow[],
): Pick<RecordOfRows, 'fields' | 'told'> {
  const { map, digits } = making.ground;
  const field = listField(map.kind, 'amount');
  const value = field && map.columns.has('amount') ? wholeValue(making, rows, field) : undefined;
  if (value !== undefined && map.money === 'out')
    fields['amount'] = turned(decimal(value)).toFixed(digits);
  else if (value !== undefined) fields['amount'] = value;
  if (rows.length > 1 && rows[1] && !map.eachRow.includes('amount'))
    making.findings.push(
      unclearRow(rows[1], {
        message: 'another row has the same number in the column that tells rows apart',
        hint: 'name a column under unique in which no two rows are alike, or skip the row',
      }),
    );
  return { fields, told };
}
