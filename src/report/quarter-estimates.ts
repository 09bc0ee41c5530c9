/** Parts of the tax summary on when what is due, and on what of the period is closed. */
import type { Day } from '../book.ts';
import { counted } from '../in-words.ts';
import { ONE, decimal, type Decimal } from '../number/decimal.ts';
import type { Money } from '../number/money.ts';
import type { Estimate } from '../reckon/estimated-tax.ts';
import type { TaxPeriod } from '../reckon/tax-period.ts';
import { nextOn, type TaxSheet } from '../reckon/tax-sheet.ts';
import type { FromRows, QuarterPart, QuarterRow } from './quarter-rows.ts';

/** A record that was changed after its days were closed. */
export interface ChangedRecord {
  readonly id: string;
  /** What changed, in a few words. */
  readonly words?: string;
}

/** What estimates are reckoned by. */
interface EstimateBy {
  readonly rate: Decimal | undefined;
  readonly sheet: TaxSheet;
}

/** What to set aside for each period of estimated tax that ends in the period of the summary. */
export function estimateParts(estimates: readonly Estimate[], by: EstimateBy): QuarterPart[] {
  return estimates.map((estimate) => {
    const { from, to, due } = estimate;
    const part = `Estimated tax on ${from} to ${to}, due ${due}`;
    return { part, rows: [...toDateRows(estimate, by), ...yearRows(estimate, by)] };
  });
}

/** Names the rows of one period of estimated tax. */
type Named = (key: string) => string;

function toDateRows({ number, to, toDate }: Estimate, { rate, sheet }: EstimateBy): QuarterRow[] {
  const { profit, self, incomeTax, together } = toDate;
  const named: Named = (key) => `estimate.${number}.${key}`;
  const row = estimateRow(named);
  const rates = ratesOf(sheet);
  const taxed = (words: string): FromRows => ({ of: [named('earnings')], words });
  const half = { of: [named('self-employment')], words: 'half of it' };
  const onRest = { of: [named('profit'), named('half')], words: 'at your own rate' };
  const dues = ['self-employment', ...(incomeTax === undefined ? [] : ['income-tax'])].map(named);
  return [
    row(['profit', 'Net profit to that day'], profit, profitTo(to)),
    row(['earnings', 'Of that, under self-employment tax'], self.earnings, {
      of: [named('profit')],
      words: rates.share,
    }),
    row(['social-security', 'Social security'], self.socialSecurity, taxed(rates.social)),
    row(['medicare', 'Medicare'], self.medicare, taxed(rates.medicare)),
    row(['self-employment', 'Self-employment tax: both'], self.tax, {
      plus: ['social-security', 'medicare'].map(named),
    }),
    row(['half', 'Half of it, which is taken off income'], self.half, half),
    ...incomeTaxRows(row, ['income-tax', 'on the rest'], { rate, incomeTax, from: onRest }),
    row(['set-aside', 'To have set aside by the day it is due'], together, { plus: dues }),
  ];
}

function profitTo(to: Day): FromRows {
  const words = `of the records behind it, those that count by ${to}; stock as it stood that day`;
  return { of: ['net-profit'], words };
}

/** The sheet's figures of the self-employment tax, as its rows go by them. */
function ratesOf({
  id,
  selfEmployment: figures,
}: TaxSheet): Record<'share' | 'social' | 'medicare', string> {
  const sheet = `as in the sheet ${id}`;
  if (!figures) return { share: sheet, social: sheet, medicare: sheet };
  const { share, socialSecurity, medicare, wageBase } = figures;
  return {
    share: `${percent(share)} of it, ${sheet}`,
    social: `${percent(socialSecurity)} of it up to ${wageBase.toString()}, ${sheet}`,
    medicare: `${percent(medicare)} of it, ${sheet}`,
  };
}

/** The last period is the whole year, of which the rows above say all. */
function yearRows(
  { number, factor, annualised }: Estimate,
  { rate, sheet }: EstimateBy,
): QuarterRow[] {
  const { profit, self, incomeTax } = annualised;
  const named: Named = (key) => `estimate.${number}.${key}`;
  const row = estimateRow(named);
  const words = `A year's profit at that pace: times ${factor.toString()}`;
  const pace = { of: [named('profit')], words: `times ${factor.toString()}` };
  const year = row(['annualised', words], profit, pace);
  if (factor.eq(ONE)) return [year];
  const selfTax = ['annualised-self-employment', 'Self-employment tax on that'] as const;
  const onYear = { of: [named('annualised'), named(selfTax[0])], words: 'at your own rate' };
  return [
    year,
    row(selfTax, self.tax, {
      of: [named('annualised')],
      words: `by the figures of the sheet ${sheet.id}`,
    }),
    ...incomeTaxRows(row, ['annualised-income-tax', 'on that'], { rate, incomeTax, from: onYear }),
  ];
}

type KeyAndWords = readonly [key: string, words: string];
type EstimateRow = (names: KeyAndWords, amount: Money, from: FromRows) => QuarterRow;

function incomeTaxRows(
  row: EstimateRow,
  [key, words]: KeyAndWords,
  {
    rate,
    incomeTax,
    from,
  }: { rate: Decimal | undefined; incomeTax: Money | undefined; from: FromRows },
): QuarterRow[] {
  if (!rate || incomeTax === undefined) return [];
  return [row([key, `Income tax at ${percent(rate)} ${words}`], incomeTax, from)];
}

function estimateRow(named: Named): EstimateRow {
  return ([key, name], amount, from) => ({ item: named(key), name, amount, toDate: null, from });
}

function percent(rate: Decimal): string {
  return `${rate.times(decimal(100)).toString()}%`;
}

/** When a cumulative update to the end of the period is due, where the sheet says. */
export function updateDue({ updates = [] }: TaxSheet, { to }: TaxPeriod): Day | undefined {
  const update = updates.find((each) => to.endsWith(each.to));
  return update && nextOn(update.due, to);
}

/** What git tells of a closed period. */
export interface SinceClosed {
  readonly changedSinceClosed?: readonly ChangedRecord[];
  /** Sentences on files of which it can't be told whether they were changed. */
  readonly uncompared?: readonly string[];
}

/** How much of the period is finished business, and which records of it were changed since. */
export function closedPart(
  { from, to }: TaxPeriod,
  closedThrough: Day | undefined,
  { changedSinceClosed: changed = [], uncompared = [] }: SinceClosed,
): QuarterPart {
  const part = 'Closed';
  if (closedThrough === undefined) return { part, rows: [] };
  const rows = changed.slice(0, MOST_CHANGED).map(({ id, words = 'changed since' }) => ({
    item: `closed.${id}`,
    name: `${id}: ${words}`,
    amount: null,
    toDate: null,
    behind: [id],
  }));
  const name = closedWords({ from, to, closedThrough });
  return {
    part,
    rows: [
      { item: 'closed', name, amount: null, toDate: null },
      ...rows,
      ...moreChanged(changed),
      ...uncompared.map(uncomparedRow),
    ],
  };
}

function uncomparedRow(name: string, index: number): QuarterRow {
  return { item: `closed.not-compared.${index + 1}`, name, amount: null, toDate: null };
}

/** More than these are read in a review. */
const MOST_CHANGED = 12;

function moreChanged(changed: readonly ChangedRecord[]): QuarterPart['rows'] {
  const more = changed.slice(MOST_CHANGED).map(({ id }) => id);
  if (more.length === 0) return [];
  const name = `and ${counted(more.length, 'more record')}, to be read with: saggar review`;
  return [{ item: 'closed.more', name, amount: null, toDate: null, behind: more }];
}

function closedWords({
  from,
  to,
  closedThrough,
}: {
  from: Day;
  to: Day;
  closedThrough: Day;
}): string {
  if (closedThrough < from) return `No day of it: the book is closed through ${closedThrough}`;
  if (closedThrough >= to) return `All of it: the book is closed through ${closedThrough}`;
  return `Its days through ${closedThrough}`;
}
