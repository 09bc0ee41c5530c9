/** Parts of the tax summary on when what is due, and on what of the period is closed. */
import type { Day } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { ONE, type Decimal } from '../../number/decimal.ts';
import type { Money } from '../../number/money.ts';
import type { Estimate } from '../../reckon/tax/estimated-tax.ts';
import type { TaxPeriod } from '../../reckon/tax/tax-period.ts';
import { nextOn, type TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import type { FromRows, QuarterPart, QuarterRow } from './quarter-rows.ts';
import { shareInWords } from './tax-words.ts';

/** A record that was changed after its days were closed. */
interface ChangedRecord {
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

/** Makes a row of one period of estimated tax. */
type EstimateRow = (
  key: string,
  name: string,
  figure: { readonly amount: Money; readonly from: FromRows },
) => QuarterRow;

function toDateRows(estimate: Estimate, { rate, sheet }: EstimateBy): QuarterRow[] {
  const { to, toDate } = estimate;
  const { profit, self, incomeTax, together } = toDate;
  const item = estimateItem(estimate);
  const row = rowsIn(estimate);
  const rates = ratesOf(sheet);
  const taxed = (words: string): FromRows => ({ of: [item('earnings')], words });
  const dues = ['self-employment', ...(incomeTax === undefined ? [] : ['income-tax'])].map(item);
  return [
    row('profit', 'Net profit to that day', { amount: profit, from: profitTo(to) }),
    row('earnings', 'Net earnings from self-employment', {
      amount: self.earnings,
      from: { of: [item('profit')], words: rates.share },
    }),
    row('social-security', 'Social security', {
      amount: self.socialSecurity,
      from: taxed(rates.social),
    }),
    row('medicare', 'Medicare', { amount: self.medicare, from: taxed(rates.medicare) }),
    row('self-employment', 'Self-employment tax (both)', {
      amount: self.tax,
      from: { plus: ['social-security', 'medicare'].map(item) },
    }),
    row('half', 'Half of it, deductible', {
      amount: self.half,
      from: { of: [item('self-employment')], words: 'half of it' },
    }),
    ...(rate && incomeTax !== undefined
      ? [
          row('income-tax', `Income tax at ${shareInWords(rate)} on the rest`, {
            amount: incomeTax,
            from: { of: [item('profit'), item('half')], words: 'at your own rate' },
          }),
        ]
      : []),
    row('set-aside', 'Set aside by the due date', {
      amount: together,
      from: { plus: dues },
    }),
  ];
}

function estimateItem({ number }: Estimate): (key: string) => string {
  return (key) => `estimate.${number}.${key}`;
}

function rowsIn(estimate: Estimate): EstimateRow {
  const item = estimateItem(estimate);
  return (key, name, figure) => ({ item: item(key), name, ...figure, toDate: null });
}

function profitTo(to: Day): FromRows {
  const words = `of its records, those that count by ${to}; stock as it was that day`;
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
    share: `${shareInWords(share)} of it, ${sheet}`,
    social: `${shareInWords(socialSecurity)} of it up to ${wageBase.toString()}, ${sheet}`,
    medicare: `${shareInWords(medicare)} of it, ${sheet}`,
  };
}

/** The last period is the whole year, of which the rows above say all. */
function yearRows(estimate: Estimate, { rate, sheet }: EstimateBy): QuarterRow[] {
  const { factor, annualised } = estimate;
  const { profit, self, incomeTax } = annualised;
  const item = estimateItem(estimate);
  const row = rowsIn(estimate);
  const pace = `times ${factor.toString()}`;
  const year = row('annualised', `Annualised profit (× ${factor.toString()})`, {
    amount: profit,
    from: { of: [item('profit')], words: pace },
  });
  if (factor.eq(ONE)) return [year];
  const selfTax = 'annualised-self-employment';
  return [
    year,
    row(selfTax, 'Self-employment tax on that', {
      amount: self.tax,
      from: { of: [item('annualised')], words: `by the figures of the sheet ${sheet.id}` },
    }),
    ...(rate && incomeTax !== undefined
      ? [
          row('annualised-income-tax', `Income tax at ${shareInWords(rate)} on that`, {
            amount: incomeTax,
            from: { of: [item('annualised'), item(selfTax)], words: 'at your own rate' },
          }),
        ]
      : []),
  ];
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
  if (closedThrough < from)
    return `Books closed: not this period (closed through ${closedThrough})`;
  if (closedThrough >= to)
    return `Books closed: all of this period (closed through ${closedThrough})`;
  return `Books closed: its days through ${closedThrough}`;
}
