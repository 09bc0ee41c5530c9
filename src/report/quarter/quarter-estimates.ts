/** Parts of the tax summary on when what is due, and on what of the period is closed. */
import type { Day } from '../../book.ts';
import { counted } from '../../in-words.ts';
import type { Decimal } from '../../number/decimal.ts';
import { less, type Money } from '../../number/money.ts';
import type { Estimate } from '../../reckon/tax/estimated-tax.ts';
import type { Instalment } from '../../reckon/tax/instalments.ts';
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
    return {
      part,
      rows: [...taxRows(estimate, by), ...annualisedRows(estimate), ...regularRows(estimate)],
    };
  });
}

/** Makes a row of one period of estimated tax. */
type EstimateRow = (
  key: string,
  name: string,
  figure: { readonly amount: Money; readonly from: FromRows },
) => QuarterRow;

/** How the tax on a year's profit at the pace of the period comes about. */
function taxRows(estimate: Estimate, { rate, sheet }: EstimateBy): QuarterRow[] {
  const { to, profit, factor, annualised } = estimate;
  const { self, incomeTax, together } = annualised;
  const item = estimateItem(estimate);
  const row = rowsIn(estimate);
  const rates = ratesOf(sheet);
  const taxed = (words: string): FromRows => ({ of: [item('earnings')], words });
  const dues = ['self-employment', ...(incomeTax === undefined ? [] : ['income-tax'])].map(item);
  const times = `× ${factor.toString()}`;
  return [
    row('profit', 'Net profit to that day', { amount: profit, from: profitTo(to) }),
    row('annualised', `Annualized profit (${times})`, {
      amount: annualised.profit,
      from: { of: [item('profit')], words: times },
    }),
    row('earnings', 'Net earnings from self-employment', {
      amount: self.earnings,
      from: { of: [item('annualised')], words: rates.share },
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
            from: { of: [item('annualised'), item('half')], words: 'at your own rate' },
          }),
        ]
      : []),
    row('tax', 'Tax on the annualized profit', { amount: together, from: { plus: dues } }),
  ];
}

/** What the annualized method asks for by the due date. */
function annualisedRows(estimate: Estimate): QuarterRow[] {
  const { share, asked } = estimate;
  const item = estimateItem(estimate);
  const words = `${shareInWords(share)} of it, and never less than was asked before`;
  return instalmentRows(estimate, asked, {
    key: '',
    lead: 'Annualized method',
    from: { of: [item('tax')], words },
  });
}

/** What the regular method asks for; nothing where last year's tax is not known. */
function regularRows(estimate: Estimate): QuarterRow[] {
  const { number, regular } = estimate;
  if (!regular) return [];
  const { whole, lastYear, share, isOfThisYear } = regular;
  const item = estimateItem(estimate);
  const year = isOfThisYear ? 'this year' : lastYear.year;
  const words = isOfThisYear
    ? shareInWords(share)
    : `${shareInWords(share)}, tax-years in studio.yaml`;
  return [
    rowsIn(estimate)(
      'regular-year',
      `Regular method: ${shareInWords(share)} of the tax of ${year}`,
      {
        amount: whole,
        from: isOfThisYear ? { of: [item('tax')], words } : { words },
      },
    ),
    ...instalmentRows(estimate, regular, {
      key: 'regular-',
      lead: 'Regular method',
      from: { of: [item('regular-year')], words: `${number} of 4 equal parts` },
    }),
  ];
}

/** What to have set aside by the due date, and what of it is this payment. */
function instalmentRows(
  estimate: Estimate,
  { inAll, before }: Instalment,
  { key, lead, from }: { readonly key: string; readonly lead: string; readonly from: FromRows },
): QuarterRow[] {
  const row = rowsIn(estimate);
  const item = estimateItem(estimate);
  const [all, earlier] = [`${key}set-aside`, `${key}before`];
  return [
    row(all, `${lead}: set aside by the due date`, { amount: inAll, from }),
    row(earlier, `${lead}: of that, due earlier this year`, {
      amount: before,
      from: { words: 'by the earlier periods' },
    }),
    row(`${key}payment`, `${lead}: this payment`, {
      amount: less(inAll, before),
      from: { plus: [item(all)], less: [item(earlier)] },
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
  return { of: ['line.net-profit'], words };
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

/** When a cumulative update to the end of the period is due, where the sheet says. */
export function updateDue({ updates }: TaxSheet, { to }: TaxPeriod): Day | undefined {
  const update = updates?.periods.find((each) => to.endsWith(each.to));
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
