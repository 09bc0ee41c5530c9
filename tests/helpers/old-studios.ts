/** The studios put aside with their reports: asks again, and tells what is no longer as it was. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { COMMANDS } from '../../src/commands/catalogue.ts';
import { minorDigits } from '../../src/number/money.ts';
import { runCommand } from './studio-commands.ts';

/** Where they are; nothing in it is ever edited. */
export const OLD_STUDIOS = resolve(import.meta.dirname, '../old-studios');

/** A studio put aside: the day that it is looked at, and what was asked of it. */
export interface OldStudio {
  readonly asOf: string;
  readonly asked: readonly { readonly args: readonly string[]; readonly answer: string }[];
}

type Cell = string | number | boolean | null;
type Row = Readonly<Record<string, Cell>>;

interface Column {
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
  /** Minor units between the two amounts, each rounded to the currency's decimals. */
  readonly money: number;
  /** Of a ratio, as a share of the larger of the two: per piece, per hour, rates, percentages. */
  readonly ratio: number;
  /** Of a quantity, in its own unit. */
  readonly quantity: number;
}

/** A figure that is allowed to differ, and from what to what. */
export interface Known {
  readonly studio: string;
  /** The answer's file. */
  readonly report: string;
  /** The row's number from 0, `totals`, `note` with its number from 0, or as the line has it. */
  readonly row: string;
  readonly column: string;
  readonly old: string;
  readonly new: string;
  readonly why: string;
}

/** What two answers are compared by. */
export interface Terms {
  readonly tolerance: Tolerance;
  /** Whether every amount of the new answer has to be a whole number of minor units. */
  readonly wholeCents: boolean;
}

/** Something that is not as it was. */
export interface Difference {
  readonly row: string;
  readonly column: string;
  readonly old: string;
  readonly new: string;
  /** The row's words. */
  readonly name: string;
}

/** Columns of money that are no amount but one figure divided by another, by report. */
const RATIOS: Readonly<Record<string, RegExp>> = {
  materials: /^unitCost$/,
  firings: /^perPiece$/,
  income: /^marginPerHour$/,
  fairs: /^profitPerHour$/,
  galleries: /^soldEach$/,
  // What one piece costs, whichever part of it.
  costs: /^(?!lotCost$)/,
};

/** Every studio that was put aside, by its name. */
export function oldStudios(): Readonly<Record<string, OldStudio>> {
  return JSON.parse(readFileSync(`${OLD_STUDIOS}/asked.json`, 'utf8')) as Record<string, OldStudio>;
}

/** What the program said of the studio when it was put aside. */
export function oldAnswer(studio: string, answer: string): Answer {
  return answerIn(readFileSync(`${OLD_STUDIOS}/${studio}/reports/${answer}`, 'utf8'));
}

/** What the program says now of a studio in a folder. */
export async function askAgain(
  folder: string,
  args: readonly string[],
  asOf: string,
): Promise<Answer> {
  const { command, argument, options } = toldBy(args);
  const { status, out, complaints } = await runCommand(
    command,
    { asOf, ...options, as: 'json' },
    { folder, ...(argument === undefined ? {} : { argument }) },
  );
  if (status !== 0 || complaints !== '')
    throw new Error(`${args.join(' ')} ended with ${status}: ${complaints}`);
  return answerIn(out);
}

function answerIn(text: string): Answer {
  return JSON.parse(text) as Answer;
}

function toldBy([command = '', ...rest]: readonly string[]): {
  command: string;
  argument: string | undefined;
  options: Record<string, string | true>;
} {
  const flags = COMMANDS.find(({ name }) => name === command)?.options ?? [];
  const options: Record<string, string | true> = {};
  let argument: string | undefined;
  for (let at = 0; at < rest.length; at += 1) {
    const word = rest[at] ?? '';
    const takesValue = flags.some((option) => option.flags.startsWith(`${word} <`));
    if (!word.startsWith('--')) argument = word;
    else options[keyOf(word)] = takesValue ? (rest[(at += 1)] ?? '') : true;
  }
  return { command, argument, options };
}

function keyOf(flag: string): string {
  return flag.slice(2).replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}

/** All that is not as it was; findings of `check` by rule and place only, since words may change. */
export function differences(old: Answer, now: Answer, terms: Terms): Difference[] {
  if (old.report === 'check') return changedFindings(old, now);
  const scale = { report: old.report, places: minorDigits(old.currency) ?? 2, ...terms };
  const heads = ['report', 'studio', 'asOf', 'currency'] as const;
  return [
    ...heads.flatMap((key) => unlike(old[key], now[key], { row: 'head', column: key })),
    ...changedColumns(old, now),
    ...unlike(old.rows.length, now.rows.length, { row: 'rows', column: 'count' }),
    ...rowPairs(old, now).flatMap((pair) => changedCells(old.columns, pair, scale)),
    ...unlike(old.notes.length, now.notes.length, { row: 'notes', column: 'count' }),
    ...old.notes.flatMap((note, at) =>
      isSameText(note, now.notes[at] ?? '', scale)
        ? []
        : unlike(note, now.notes[at] ?? '', { row: `note ${at}`, column: 'notes' }),
    ),
  ];
}

interface Scale extends Terms {
  readonly report: string;
  readonly places: number;
}

interface Pair {
  readonly row: string;
  readonly old: Row;
  readonly now: Row;
}

function unlike(
  old: Cell,
  now: Cell | undefined,
  where: { row: string; column: string },
): Difference[] {
  if (old === now) return [];
  return [{ ...where, name: '', old: String(old), new: String(now) }];
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
    return unlike(formOf(column), formOf(after), { row: 'columns', column: column.key });
  });
}

function rowPairs(old: Answer, now: Answer): Pair[] {
  const rows = old.rows
    .slice(0, now.rows.length)
    .map((row, at) => ({ row: String(at), old: row, now: now.rows[at] ?? {} }));
  if (old.totals === undefined) return rows;
  return [...rows, { row: 'totals', old: old.totals, now: now.totals ?? {} }];
}

function changedCells(columns: readonly Column[], pair: Pair, scale: Scale): Difference[] {
  const words = columns.filter(({ type }) => type === 'id' || type === 'text');
  const name = words.flatMap(({ key }) => pair.old[key] ?? []).slice(0, 3);
  return columns.flatMap((column) => {
    const [old, now] = [pair.old[column.key], pair.now[column.key]];
    if (old === undefined || isSame(old, now, { column, scale })) return [];
    const where = { row: pair.row, column: column.key, name: name.join(', ') };
    return [{ ...where, old: String(old), new: String(now) }];
  });
}

function isSame(
  old: Cell,
  now: Cell | undefined,
  { column, scale }: { column: Column; scale: Scale },
): boolean {
  if (typeof old !== 'string' || typeof now !== 'string') return old === now;
  const { tolerance } = scale;
  const isRatio = column.type === 'fraction' || RATIOS[scale.report]?.test(column.key);
  if (column.type === 'quantity') return Math.abs(+old - +now) <= tolerance.quantity;
  if (column.type === 'text') return isSameText(old, now, scale);
  if (column.type !== 'money' && column.type !== 'fraction') return old === now;
  return isRatio === true ? isNear(old, now, tolerance.ratio) : isSameMoney(old, now, scale);
}

function isNear(old: string, now: string, share: number): boolean {
  return Math.abs(+old - +now) <= share * Math.max(Math.abs(+old), Math.abs(+now));
}

/** Whether an amount is near enough to the old one, and whole where it has to be. */
export function isSameMoney(
  old: string,
  now: string,
  { places, tolerance, wholeCents }: Terms & { readonly places: number },
): boolean {
  const apart = minorUnits(old, places) - minorUnits(now, places);
  if (apart > BigInt(tolerance.money) || -apart > BigInt(tolerance.money)) return false;
  return !wholeCents || /^0*$/.test((now.split('.')[1] ?? '').slice(places));
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
function isSameText(old: string, now: string, scale: Scale): boolean {
  const decimals = scale.places === 0 ? '' : `\\.\\d{${scale.places}}`;
  const amount = new RegExp(`(?<![\\w.,-])-?\\d[\\d,]*${decimals}(?![\\w-]|[.,]\\d)`, 'g');
  const amounts = (text: string): string[] =>
    (text.match(amount) ?? []).map((shown) => shown.replaceAll(',', ''));
  if (old.replace(amount, '#') !== now.replace(amount, '#')) return false;
  const after = amounts(now);
  return amounts(old).every((each, at) =>
    isSameMoney(each, after[at] ?? '', { ...scale, wholeCents: false }),
  );
}

/** The differences as lines, without those that are known; a known one that does not occur is a line too. */
export function asLines(found: readonly Difference[], known: readonly Known[]): string[] {
  const isOne = (one: Known, { row, column, old, new: now }: Difference): boolean =>
    one.row === row && one.column === column && one.old === old && one.new === now;
  return [
    ...found
      .filter((difference) => !known.some((one) => isOne(one, difference)))
      .map(({ row, column, name, old, new: now }) => {
        const place = name === '' ? row : `${row} (${name})`;
        const what = old === now ? `${now} is not in whole minor units` : `${old} became ${now}`;
        return `${place} ${column}: ${what}`;
      }),
    ...known
      .filter((one) => !found.some((difference) => isOne(one, difference)))
      .map((one) => `${one.row} ${one.column}: is known to become ${one.new}, but does not`),
  ];
}
