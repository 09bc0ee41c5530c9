/** Holds the rows of a list against the book: what is new, what is there, what changed, what is not clear. */
import type { Book, Day } from '../../book.ts';
import type { Finding } from '../../problem.ts';
import { isMap, mapping, textUnder, valueAt, type RawMap } from '../../read/raw.ts';
import { digitsOf } from '../../reckon/booked.ts';
import { valueDifferences, type ValueDifference } from '../changed.ts';
import type { EntryGround } from '../defaults.ts';
import { expandRecord } from '../expand.ts';
import type { FoundRecord } from '../lexicon.ts';
import { feesAreBelowZero } from './fee-sign.ts';
import { lookAtTotals, recordAmount, type RecordAmount } from './list-totals.ts';
import type { ListKind, ListMap } from './map.ts';
import { recordOfRows, type RecordOfRows } from './record-of-rows.ts';
import { inYaml, unclearRow } from './row-words.ts';
import { sortRows, type SortedRows } from './sort-rows.ts';
import type { ListTable } from './table.ts';

/** A record that a list has and the book has not. */
export interface NewListed extends RecordOfRows {
  readonly date: Day;
  /** The whole record, with where it is from. */
  readonly record: RawMap;
  readonly amount: RecordAmount;
}

/** A record whose row says something else now; it stays as it is. */
export interface ChangedListed {
  readonly key: string;
  readonly id: string;
  /** What the record says, and what the row would make of it now. */
  readonly fields: readonly ValueDifference[];
}

/** What taking a list in comes to. */
export interface ListTaking {
  readonly sorted: SortedRows;
  readonly fresh: readonly NewListed[];
  /** Of days that were taken in before, and not in the book: removed, or late in the list. */
  readonly late: readonly NewListed[];
  readonly changed: readonly ChangedListed[];
  /** How many are there as the row says. */
  readonly there: number;
  /** What is not clear, each at its row: with any of these nothing is taken in. */
  readonly findings: readonly Finding[];
}

/** By what a list is held against the book. */
export interface TakingGround extends EntryGround {
  readonly book: Book;
  readonly map: ListMap & { readonly kind: ListKind };
  /** Is told of each record that was looked at. */
  readonly told?: (done: number, all: number) => void;
}

/** Looks at every row; nothing is written. */
export function takingOf(ground: TakingGround, table: ListTable): ListTaking {
  const { map, book, lexicon } = ground;
  const sorted = sortRows(table, map);
  const reading = {
    map,
    lexicon,
    digits: digitsOf(book),
    feesBelowZero: feesAreBelowZero(map, sorted.used),
  };
  const known = knownRecords(ground);
  const made: NewListed[] = [];
  const changed: ChangedListed[] = [];
  let there = 0;
  for (const [at, group] of sorted.groups.entries()) {
    ground.told?.(at, sorted.groups.length);
    const record = known.get(group.key);
    const listed = recordOfRows(reading, group);
    if (record && textUnder(valueAt(record.raw, ['from']), 'as') === listed.as) there += 1;
    else if (record) changed.push(...changedSince(ground, record, listed));
    else made.push(wholeRecord(ground, listed));
  }
  const days = [...known.values()].map(({ raw }) => textUnder(raw, 'date'));
  const late = made.filter(({ date }) => isBetween(date, days));
  const unknown = unknownColumns(map, table);
  return {
    sorted,
    fresh: made.filter((each) => !late.includes(each)),
    late,
    changed,
    there,
    findings:
      unknown.length > 0
        ? unknown
        : [
            ...unnamedRows(sorted, map),
            ...made.flatMap(({ findings }) => findings),
            ...lookAtTotals(reading, sorted),
          ],
  };
}

/** The records of the book that the list was taken in as, by their rows. */
function knownRecords({ lexicon, map }: TakingGround): ReadonlyMap<string, FoundRecord> {
  const known = new Map<string, FoundRecord>();
  for (const found of lexicon.records([map.kind])) {
    const from = valueAt(found.raw, ['from']);
    if (isMap(from) && from['list'] === map.name) known.set(textUnder(from, 'row'), found);
  }
  return known;
}

function isBetween(day: Day, days: readonly Day[]): boolean {
  return days.some((each) => each <= day) && days.some((each) => each > day);
}

function wholeRecord(ground: TakingGround, listed: RecordOfRows): NewListed {
  const { map, day, book } = ground;
  const from = mapping([
    ['list', map.name],
    ['row', listed.key],
    ['date', day],
    ['as', listed.as],
  ]);
  const typed = mapping([...Object.entries(listed.fields), ['from', from]]);
  const { fields, faults } = expandRecord(map.kind, typed, ground);
  const findings = [...listed.findings];
  for (const { path, message, hint, sentence } of faults) {
    const row = listed.rows[path.find((step) => typeof step === 'number') ?? 0];
    if (row) findings.push(unclearRow(row, { message, hint, value: sentence }));
  }
  const amount = recordAmount(book, map.kind, fields);
  const isClear = findings.length === 0;
  return {
    ...listed,
    date: textUnder(fields, 'date'),
    record: fields,
    amount,
    findings: isClear ? [...amount.differs(listed)] : findings,
  };
}

function changedSince(
  ground: TakingGround,
  { id, raw }: FoundRecord,
  listed: RecordOfRows,
): readonly ChangedListed[] {
  const now = expandRecord(ground.map.kind, listed.fields, ground).fields;
  const own = isMap(raw) ? raw : mapping([]);
  const said = Object.keys(now).filter((name) => own[name] !== undefined);
  const before = mapping(said.map((name) => [name, own[name] ?? '']));
  const fields = valueDifferences(before, now, []);
  return [{ key: listed.key, id, fields }];
}

function unnamedRows({ unnamed }: SortedRows, { unique = '', form }: ListMap): Finding[] {
  const isNotes = form === 'notes';
  return unnamed.map((row) =>
    unclearRow(row, {
      message: isNotes
        ? 'no day is above this line'
        : `it says nothing under ${unique}, which tells rows apart`,
      hint: isNotes
        ? 'write the day, such as 2026-05-09, on a line of its own above it'
        : 'skip such rows in the map, or name another column under unique',
    }),
  );
}

function unknownColumns(map: ListMap, { columns, rows }: ListTable): Finding[] {
  if (map.form === 'notes') return [];
  const named = [
    ...(map.unique === undefined ? [] : [map.unique]),
    ...[map.columns, map.other].flatMap((each) => [...each.values()]),
    ...[map.skip, map.payouts, map.sums].flatMap((test) => [...test.keys()]),
  ];
  const missing = [...new Set(named)].filter((name) => !columns.includes(name));
  const [row] = rows;
  if (missing.length === 0 || !row) return [];
  return missing.map((name) =>
    unclearRow(row, {
      message: `the list has no column ${inYaml(name)}, which the map names`,
      hint: `its columns are ${columns.join(', ')}`,
    }),
  );
}
