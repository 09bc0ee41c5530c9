/** Parts of the tax summary on when what is due, and on what of the period is closed. */
import type { Day } from '../book.ts';
import { decimal, type Decimal } from '../number/decimal.ts';
import type { Estimate, TaxOn } from '../reckon/estimated-tax.ts';
import type { TaxPeriod } from '../reckon/tax-period.ts';
import { nextOn, type TaxSheet } from '../reckon/tax-sheet.ts';
import type { QuarterPart, QuarterRow } from './quarter-rows.ts';

/** A record that was changed after its days were closed. */
export interface ChangedRecord {
  readonly id: string;
  /** What changed, in a few words. */
  readonly words?: string;
}

/** What to set aside for each period of estimated tax that ends in the period of the summary. */
export function estimatesPart(
  estimates: readonly Estimate[],
  rate: Decimal | undefined,
): QuarterPart {
  return {
    part: 'Estimated tax: to set aside',
    rows: estimates.flatMap((estimate) => estimateRows(estimate, rate)),
  };
}

function estimateRows(estimate: Estimate, rate: Decimal | undefined): QuarterRow[] {
  const { number, from, to, due, factor, toDate, annualised } = estimate;
  const row = (key: string, name: string, amount: Decimal): QuarterRow => ({
    item: `estimate.${number}.${key}`,
    name,
    amount,
    toDate: null,
  });
  const income = (on: TaxOn, key: string, words: string): QuarterRow[] =>
    on.incomeTax && rate ? [row(key, `Income tax at ${percent(rate)}${words}`, on.incomeTax)] : [];
  return [
    row('profit', `Net profit ${from} to ${to}; due ${due}`, toDate.profit),
    row('earnings', 'Of that, subject to self-employment tax', toDate.self.earnings),
    row('social-security', 'Social security', toDate.self.socialSecurity),
    row('medicare', 'Medicare', toDate.self.medicare),
    row('self-employment', 'Self-employment tax', toDate.self.tax),
    row('half', 'Half of it, taken off income', toDate.self.half),
    ...income(toDate, 'income-tax', ' on the rest'),
    row('set-aside', `To have set aside by ${due}`, toDate.together),
    row(
      'annualised',
      `A year's profit at that pace: times ${factor.toString()}`,
      annualised.profit,
    ),
    row('annualised-self-employment', 'Self-employment tax on that', annualised.self.tax),
    ...income(annualised, 'annualised-income-tax', ' on that'),
  ];
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
  const rows = changed.map(({ id, words = 'changed since' }) => ({
    item: `closed.${id}`,
    name: `${id}: ${words}`,
    amount: null,
    toDate: null,
    behind: [id],
  }));
  const name = closedWords({ from, to, closedThrough });
  return { part, rows: [{ item: 'closed', name, amount: null, toDate: null }, ...rows] };
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
