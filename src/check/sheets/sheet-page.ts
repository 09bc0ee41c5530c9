/** Takes the values of a tax sheet's file one by one, and notes what is wrong with each. */
import { isDay } from '../../number/date.ts';
import { decimal, type Decimal } from '../../number/decimal.ts';
import type { Finding } from '../../problem.ts';
import { isMap, type Raw } from '../../read/raw.ts';
import { didYouMean, nearest } from '../../nearest.ts';

/** A file while it is taken in: a tax sheet, or what its `noun` says. */
export interface Page {
  readonly file: string;
  readonly noun?: string;
  /** The rule that its faults are of, where it is no tax sheet. */
  readonly rule?: string;
  readonly findings: Finding[];
}

/** A value with the way to it. */
export interface SheetSpot {
  readonly page: Page;
  readonly raw: Raw | undefined;
  readonly path: readonly (string | number)[];
}

const PLAIN_FIGURES = /^\d{1,12}(?:\.\d{1,8})?$/;
const PERCENT = /^\d{1,3}(?:\.\d{1,8})?%$/;
const MONTH_DAY = /^\d\d-\d\d$/;
const HUNDREDTH = decimal('0.01');

const FAULT = { rule: 'tax-sheet', severity: 'error' } as const;

/** Notes that something is wrong. */
export function fault({ page, path }: SheetSpot, message: string, hint: string): void {
  const at = { file: page.file, path };
  page.findings.push({ ...faultOn(page), at, message, hint });
}

function faultOn({ rule = FAULT.rule }: Page): Pick<Finding, 'rule' | 'severity'> {
  return { ...FAULT, rule };
}

/** A field of a mapping. */
export function fieldOf({ page, path, raw }: SheetSpot, key: string): SheetSpot {
  return { page, raw: isMap(raw) ? raw[key] : undefined, path: [...path, key] };
}

/** Whether a mapping has the field. */
export function has(spotted: SheetSpot, key: string): boolean {
  return fieldOf(spotted, key).raw !== undefined;
}

/** What a field of a mapping comes to; nothing where it has none. */
export function ifSaid<T extends object>(
  spotted: SheetSpot,
  key: string,
  read: (at: SheetSpot) => T,
): Partial<T> {
  return has(spotted, key) ? read(fieldOf(spotted, key)) : {};
}

/** Whether it is a mapping with these fields only; says which one is not known. */
export function isRecord(spotted: SheetSpot, known: readonly string[]): boolean {
  const { raw } = spotted;
  if (!isMap(raw)) {
    fault(spotted, 'fields with values belong here', `the fields are ${known.join(', ')}`);
    return false;
  }
  for (const key of Object.keys(raw).filter((each) => !known.includes(each))) {
    const near = nearest(key, known);
    const hint = didYouMean(near, `the fields are ${known.join(', ')}`, '');
    const at = { file: spotted.page.file, path: [...spotted.path, key], on: 'key' } as const;
    const { page } = spotted;
    const message = `${page.noun ?? 'a sheet'} has no field "${key}" here`;
    page.findings.push({ ...faultOn(page), at, message, hint });
  }
  return true;
}

/** The keys of a mapping, in the file's order. */
export function keysOf({ raw }: SheetSpot): string[] {
  return isMap(raw) ? Object.keys(raw) : [];
}

/** Words; empty where there are none, which is a fault. */
export function textIn(spotted: SheetSpot): string {
  const { raw } = spotted;
  if (typeof raw === 'string' && raw.trim() !== '') return raw;
  fault(spotted, `${placeName(spotted)} is missing or is not a text`, 'write a text there');
  return '';
}

/** A list of values; a single one counts as a list of one, and nothing as an empty list. */
export function listIn({ page, raw, path }: SheetSpot): SheetSpot[] {
  if (raw === undefined) return [];
  if (!Array.isArray(raw)) return [{ page, raw, path }];
  const items = raw as readonly Raw[];
  return items.map((item, index) => ({ page, raw: item, path: [...path, index] }));
}

/** A list of texts. */
export function textsIn(spotted: SheetSpot): string[] {
  return listIn(spotted).map(textIn);
}

/** A number, or a percentage as a fraction of 1; zero where there is neither, which is a fault. */
export function numberIn(spotted: SheetSpot): Decimal {
  const { raw } = spotted;
  if (typeof raw === 'string' && PLAIN_FIGURES.test(raw)) return decimal(raw);
  if (typeof raw === 'string' && PERCENT.test(raw)) {
    return decimal(raw.slice(0, -1)).times(HUNDREDTH);
  }
  fault(
    spotted,
    `${placeName(spotted)} is missing or is not a number`,
    'write it as 0.45 or 12.4%',
  );
  return decimal(0);
}

/** One of some words; undefined for any other, which is a fault. */
export function wordIn<T extends string>(spotted: SheetSpot, words: readonly T[]): T | undefined {
  const said = textIn(spotted);
  const word = words.find((each) => each === said);
  if (said === '' || word !== undefined) return word;
  const near = nearest(said, words);
  const hint = didYouMean(near, `it is ${words.join(' or ')}`, '');
  fault(spotted, `${placeName(spotted)} is "${said}"`, hint);
  return undefined;
}

/** A month and day, `04-05`; 29 February is none. */
export function monthDayIn(spotted: SheetSpot): string {
  const { raw } = spotted;
  if (typeof raw === 'string' && MONTH_DAY.test(raw) && isDay(`2025-${raw}`)) return raw;
  fault(spotted, `${placeName(spotted)} is not a month and day`, 'write it as "04-05", in quotes');
  return '01-01';
}

function placeName({ path }: SheetSpot): string {
  return path.findLast((key) => typeof key === 'string') ?? 'the sheet';
}
