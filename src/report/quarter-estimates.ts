/** Parts of the tax summary on when what is due, and on what of the period is closed. */
import type { Day } from '../book.ts';
import { ONE, decimal, type Decimal } from '../number/decimal.ts';
import type { Estimate } from '../reckon/estimated-tax.ts';
import type { TaxPeriod } from '../reckon/tax-period.ts';
import { nextOn, type TaxSheet } from '../reckon/tax-sheet.ts';
import { counted } from './head.ts';
import type { QuarterPart, QuarterRow } from './quarter-rows.ts';

/** A record that was changed after its days were closed. */
export interface ChangedRecord {
  readonly id: string;
  /** What changed, in a few words. */
  readonly words?: string;
}

/** What to set aside for each period of estimated tax that ends in the period of the summary. */
export function estimateParts(
  estimates: readonly Estimate[],
  rate: Decimal | undefined,
): QuarterPart[] {
  return estimates.map((estimate) => {
    const { from, to, due } = estimate;
    const part = `Estimated tax on ${from} to ${to}, due ${due}`;
    return { part, rows: [...toDateRows(estimate, rate), ...yearRows(estimate, rate)] };
  });
}

function toDateRows({ number, toDate }: Estimate, rate: Decimal | undefined): QuarterRow[] {
  const { profit, self, incomeTax, together } = toDate;
  return [
    estimateRow(number, ['profit', 'Net profit to that day'], profit),
    estimateRow(number, ['earnings', 'Of that, under self-employment tax'], self.earnings),
    estimateRow(number, ['social-security', 'Social security'], self.socialSecurity),
    estimateRow(number, ['medicare', 'Medicare'], self.medicare),
    estimateRow(number, ['self-employment', 'Self-employment tax: both'], self.tax),
    estimateRow(number, ['half', 'Half of it, which is taken off income'], self.half),
    ...incomeTaxRows(number, ['income-tax', 'on the rest'], { rate, incomeTax }),
    estimateRow(number, ['set-aside', 'To have set aside by the day it is due'], together),
  ];
}

/** The last period is the whole year, of which the rows above say all. */
function yearRows(
  { number, factor, annualised }: Estimate,
  rate: Decimal | undefined,
): QuarterRow[] {
  const { profit, self, incomeTax } = annualised;
  const words = `A year's profit at that pace: times ${factor.toString()}`;
  const year = estimateRow(number, ['annualised', words], profit);
  if (factor.eq(ONE)) return [year];
  return [
    year,
    estimateRow(number, ['annualised-self-employment', 'Self-employment tax on that'], self.tax),
    ...incomeTaxRows(number, ['annualised-income-tax', 'on that'], { rate, incomeTax }),
  ];
}

function incomeTaxRows(
  number: number,
  [key, words]: readonly [key: string, words: string],
  { rate, incomeTax }: { rate: Decimal | undefined; incomeTax: Decimal | undefined },
): QuarterRow[] {
  if (!rate || !incomeTax) return [];
  return [estimateRow(number, [key, `Income tax at ${percent(rate)} ${words}`], incomeTax)];
}

function estimateRow(
  number: number,
  [key, name]: readonly [key: string, name: string],
  amount: Decimal,
): QuarterRow {
  return { item: `estimate.${number}.${key}`, name, amount, toDate: null };
}

function percent(rate: Decimal): string {
  return `${rate.times(decimal(100)).toString()}%`;
}

/** When a cumulative update to the end of the period is due, where the sheet says. */
export function updateDue({ updates = [] }: TaxSheet, { to }: TaxPeriod): Day | undefined {
  const update = updates.find((each) => to.endsWith(each.to));
  return update && nextOn(update.due, to);
}

/** How much of the period is finished business, and which records of it were changed since. */
export function closedPart(
  { from, to }: TaxPeriod,
  closedThrough: Day | undefined,
  changed: readonly ChangedRecord[],
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
    rows: [{ item: 'closed', name, amount: null, toDate: null }, ...rows, ...moreChanged(changed)],
  };
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
