/** An old answer beside a new one: what names a row, what may differ and how far, and what is not as it was. */
import { minorDigits } from '../../src/number/money.ts';
import { byDay } from './old-histories.ts';
import { byLine, byStage, inNewWords } from './old-layouts.ts';

export type Cell = string | number | boolean | null;
export type Row = Readonly<Record<string, Cell>>;

export interface Column {
  readonly key: string;
  readonly type: string;
  readonly unit?: string;
}

/** A report as the program prints it with `--as json`. */
export interface Answer {
  readonly report: string;
  readonly studio: string;
  readonly asOf: string;
  readonly currency: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  readonly totals?: Row;
  readonly notes: readonly string[];
}

/** How far a figure may be from the old one. */
export interface Tolerance {
  /** Minor units between two amounts, each rounded to the currency's decimals. */
  readonly money: number;
  /** Of a ratio, as a share of the larger of the two: per piece, per hour, percentages. */
  readonly ratio: number;
  /** Of a quantity, in its own unit. */
  readonly quantity: number;
}

/** What two answers are compared by. */
export interface Terms {
  /** How far the figure of a column may be off; `row` is what names the row, or `totals`. */
  readonly toleranceOf: (column: string, row: string) => Tolerance;
  /** Whether every amount of the new answer has to have just the currency's decimals. */
  readonly wholeCents: boolean;
}

/** Something that is not as it was. */
export interface Difference {
  /** What names the row, `totals`, `note` with its number from 0, or what part of the answer it is. */
  readonly row: string;
  readonly column: string;
  readonly old: string;
  readonly new: string;
}

/** A difference that is allowed, and from what to what. */
export interface Known extends Difference {
  readonly studio: string;
  /** The answer's file. */
  readonly report: string;
  readonly why: string;
}

/** Columns of words and days that say how a row came out, and not which row it is. */
const FIGURES: ReadonlySet<string> = new Set([
  ...['day says', 'day orderBy', 'day since', 'materials runsOut', 'materials orderBy'],
  ...['materials state', 'quarter name', 'costs belowAt', 'firings why'],
]);

/** Columns that were money and now are what they always were, a rate, by report. */
const RATES: Readonly<Record<string, RegExp>> = {
  materials: /^unitCost$/,
  firings: /^perPiece$/,
  income: /^marginPerHour$/,
  fairs: /^profitPerHour$/,
  galleries: /^soldEach$/,
  // What one piece costs and leaves, but for prices that are named and the least ones that cover it.
  costs: /^(?!floor|secondPrice$|wholesalePrice$)/,
};

/** All that is not as it was; findings of `check` by rule and place only, since words may change. */
export function differences(before: Answer, after: Answer, terms: Terms): Difference[] {
  const [old, now] = byLine([byStage(inNewWords(before)), byStage(after)]);
  if (old.report === 'check') return changedFindings(old, now);
  const heads = ['report', 'studio', 'asOf', 'currency'] as const;
  const scale = { places: minorDigits(old.currency) ?? 2, ...terms };
  return [
    ...heads.flatMap((key) => unlike(old[key], now[key], { row: 'head', column: key })),
    ...changedColumns(old, now),
    ...changedRows(byDay(old), byDay(now), scale),
    ...changedNotes(byDay(old), byDay(now), scale),
  ];
}

interface Scale extends Terms {
  readonly places: number;
}

type Where = Pick<Difference, 'row' | 'column'>;

function unlike(old: Cell, now: Cell | undefined, where: Where): Difference[] {
  return old === now ? [] : [{ ...where, old: String(old), new: String(now) }];
}

function changedFindings(old: Answer, now: Answer): Difference[] {
  const placed = ({ rows }: Answer): string[] =>
    rows.map(({ rule, severity, file, line }) => [rule, severity, file, line].join(' '));
  const [before, after] = [placed(old), placed(now)];
  return Array.from({ length: Math.max(before.length, after.length) }, (_, at) =>
    unlike(before[at] ?? null, after[at] ?? null, { row: String(at), column: 'finding' }),
  ).flat();
}

function changedColumns(old: Answer, now: Answer): Difference[] {
  const formOf = (column: Column | undefined): string =>
    column === undefined ? 'gone' : [column.type, column.unit ?? ''].join(' ').trim();
  return old.columns.flatMap((column) => {
    const after = now.columns.find(({ key }) => key === column.key);
    if (becameRate(old, column, after)) return [];
    return unlike(formOf(column), formOf(after), { row: 'columns', column: column.key });
  });
}

function becameRate({ report }: Answer, { key, type }: Column, after: Column | undefined): boolean {
  return type === 'money' && after?.type === 'rate' && RATES[report]?.test(key) === true;
}

function changedNotes(old: Answer, now: Answer, scale: Scale): Difference[] {
  return [
    ...unlike(old.notes.length, now.notes.length, { row: 'notes', column: 'count' }),
    ...old.notes.flatMap((note, at) => {
      const where = { row: `note ${at}`, column: 'notes' };
      const after = now.notes[at] ?? '';
      const tolerance = scale.toleranceOf(where.column, where.row);
      return isSameText(note, after, { ...scale, tolerance }) ? [] : unlike(note, after, where);
    }),
  ];
}

/** Rows by what names them; of those with the same names the first belongs to the first, and so on. */
function changedRows(old: Answer, now: Answer, scale: Scale): Difference[] {
  const [before, after] = [namedRows(old, old), namedRows(now, old)];
  const added = [...after.keys()].filter((name) => !before.has(name));
  return [
    ...added.map((row) => ({ row, column: 'row', old: 'none', new: 'there' })),
    ...[...before].flatMap(([name, row]) => {
      const match = after.get(name);
      if (match === undefined) return [{ row: name, column: 'row', old: 'there', new: 'none' }];
      return changedCells(old, { name, old: row, now: match }, scale);
    }),
  ];
}

function namedRows({ rows, totals }: Answer, { report, columns }: Answer): Map<string, Row> {
  const names = columns.filter(
    ({ key, type }) => /^(id|text|date)$/.test(type) && !FIGURES.has(`${report} ${key}`),
  );
  const named = new Map<string, Row>();
  for (const row of rows) {
    const words = names.flatMap(({ key }) => row[key] ?? []).join(', ');
    let name = words;
    for (let count = 2; named.has(name); count += 1) name = `${words} (${count})`;
    named.set(name, row);
  }
  return totals === undefined ? named : named.set('totals', totals);
}

interface Pair {
  readonly name: string;
  readonly old: Row;
  readonly now: Row;
}

function changedCells({ report, columns }: Answer, pair: Pair, scale: Scale): Difference[] {
  return columns.flatMap((column) => {
    const [old, now] = [pair.old[column.key], pair.now[column.key]];
    if (old === undefined) return [];
    const tolerance = scale.toleranceOf(column.key, pair.name);
    if (isSame([old, now], { column, report }, { ...scale, tolerance })) return [];
    return [{ row: pair.name, column: column.key, old: String(old), new: String(now) }];
  });
}

type Limits = Pick<Scale, 'places' | 'wholeCents'> & { readonly tolerance: Tolerance };

function isSame(
  [old, now]: readonly [Cell, Cell | undefined],
  { column, report }: { readonly column: Column; readonly report: string },
  limits: Limits,
): boolean {
  if (typeof old !== 'string' || typeof now !== 'string') return old === now;
  const { tolerance, places } = limits;
  const isRate = column.type === 'money' && RATES[report]?.test(column.key) === true;
  if (column.type === 'quantity')
    return isNear(old, now, { least: tolerance.quantity, share: 1e-12 });
  if (column.type === 'text') return isSameText(old, now, limits);
  if (column.type !== 'money' && column.type !== 'fraction') return old === now;
  if (column.type === 'money' && !isRate) return isSameMoney(old, now, limits);
  // Half a minor unit of a rate, and a twentieth of a percent, are no more than what is shown of it.
  const least = isRate ? 0.5 * 10 ** -places : 0.0005;
  return isNear(old, now, { least, share: tolerance.ratio });
}

interface Nearness {
  readonly least: number;
  readonly share: number;
}

function isNear(old: string, now: string, { least, share }: Nearness): boolean {
  return Math.abs(+old - +now) <= Math.max(least, share * Math.max(Math.abs(+old), Math.abs(+now)));
}

/** Whether an amount is near enough to the old one, and whole where it has to be. */
export function isSameMoney(
  old: string,
  now: string,
  { places, tolerance, wholeCents }: Limits,
): boolean {
  const apart = minorUnits(old, places) - minorUnits(now, places);
  if (apart > BigInt(tolerance.money) || -apart > BigInt(tolerance.money)) return false;
  return !wholeCents || (now.split('.')[1] ?? '').length === places;
}

/** An amount in minor units, half up by its magnitude. */
function minorUnits(text: string, places: number): bigint {
  const [, sign = '', whole, decimals = ''] = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text) ?? [];
  if (whole === undefined) throw new Error(`not an amount: ${text}`);
  const kept = BigInt(whole + decimals.slice(0, places).padEnd(places, '0'));
  const units = (decimals[places] ?? '0') >= '5' ? kept + 1n : kept;
  return sign === '-' ? -units : units;
}

/** Whether two texts are the same but for amounts in them that are near enough to each other. */
function isSameText(old: string, now: string, limits: Limits): boolean {
  const decimals = limits.places === 0 ? '' : `\\.\\d{${limits.places}}`;
  const amount = new RegExp(`(?<![\\w.,-])-?\\d[\\d,]*${decimals}(?![\\w-]|[.,]\\d)`, 'g');
  const amounts = (text: string): string[] =>
    (text.match(amount) ?? []).map((shown) => shown.replaceAll(',', ''));
  if (old.replace(amount, '#') !== now.replace(amount, '#')) return false;
  const after = amounts(now);
  return amounts(old).every((each, at) =>
    isSameMoney(each, after[at] ?? '', { ...limits, wholeCents: false }),
  );
}

/** The differences as lines, without those that are known; a known one that does not occur is a line too. */
export function asLines(found: readonly Difference[], known: readonly Known[]): string[] {
  const isOne = (one: Known, { row, column, old, new: now }: Difference): boolean =>
    one.row === row && one.column === column && one.old === old && one.new === now;
  return [
    ...found
      .filter((difference) => !known.some((one) => isOne(one, difference)))
      .map(({ row, column, old, new: now }) => `${row} | ${column}: ${old} became ${now}`),
    ...known
      .filter((one) => !found.some((difference) => isOne(one, difference)))
      .map((one) => `${one.row} | ${one.column}: is known to become ${one.new}, but does not`),
  ];
}
