/** Parts of the tax summary that are laid beside what others have: sales tax returns, and processors' forms. */
import type { Book } from '../../book.ts';
import { NO_MONEY, less, total, type Money } from '../../number/money.ts';
import { CHARGED, type Processed } from '../../reckon/tax/processed.ts';
import type { TaxReturn } from '../../reckon/tax/sales-tax.ts';
import type { Brought } from '../../reckon/brought.ts';
import type { FromRows, QuarterPart, QuarterRow } from './quarter-rows.ts';

const RETURN_ROWS = [
  ['gross', 'Gross sales, after discounts and returns, without tax'],
  ['exempt', 'Less exempt or not taxed'],
  ['taxable', 'Taxable'],
  ['due', 'Tax due: collected less given back'],
  ['paidOver', 'Paid over in the period'],
] as const;

/** A sales tax return for each place and filing period. */
export function returnParts(returns: readonly TaxReturn[]): QuarterPart[] {
  return returns.map((each) => {
    const { place, period } = each;
    const { name, from, to } = period;
    return {
      part: `Sales tax return, ${place}, ${name}: ${from} to ${to}`,
      rows: RETURN_ROWS.map(([key, words]) => ({
        ...broughtRow(`return.${place}.${name}.${key}`, words, each[key]),
        isKept: true,
      })),
    };
  });
}

/** A row whose figure is the sum of what records bring. */
function broughtRow(item: string, name: string, brought: Brought): QuarterRow {
  const kept = new Map([...brought].filter(([, amount]) => amount !== NO_MONEY));
  return {
    item,
    name,
    amount: sumOf(kept),
    toDate: null,
    behind: [...kept.keys()],
    brought: kept,
  };
}

const CHARGED_WORDS: Readonly<Record<(typeof CHARGED)[number], string>> = {
  sales: 'Sales after discounts and returns, without tax',
  shipping: 'Shipping charged',
  tax: 'Sales tax',
  taken: 'Deposits and certificates taken',
  used: 'Less deposits and certificates used',
  otherwise: 'Less paid in cash or another way',
};

/** Each card reader and shop: from the book's sales to the gross of its form, and to what it paid out. */
export function processedParts(
  { channels }: Pick<Book, 'channels'>,
  processed: readonly Processed[],
): QuarterPart[] {
  return processed.map((each) => ({
    part: `Through the card reader or shop: ${channels.get(each.channel)?.name ?? each.channel}`,
    rows: processedRows(each),
  }));
}

function processedRows(processed: Processed): QuarterRow[] {
  const { channel, refunds, fees, gross } = processed;
  const item = (key: string): string => `processed.${channel}.${key}`;
  const row = (key: string, name: string, brought: Brought): QuarterRow =>
    broughtRow(item(key), name, brought);
  const sum = (key: string, name: string, of: { amount: Money; from: FromRows }): QuarterRow => ({
    item: item(key),
    name,
    toDate: null,
    ...of,
  });
  return [
    ...CHARGED.map((key) => row(key, CHARGED_WORDS[key], processed[key])),
    row('back', 'Plus refunds, which its form leaves in', refunds),
    sum('gross', 'Gross, as its yearly form has it', {
      amount: sumOf(gross),
      from: { plus: [...CHARGED.map(item), item('back')] },
    }),
    row('refunds', 'Less refunds', refunds),
    row('fees', 'Less fees kept', fees),
    sum('out', 'Paid out', {
      amount: less(sumOf(gross), sumOf(refunds), sumOf(fees)),
      from: { plus: [item('gross')], less: [item('refunds'), item('fees')] },
    }),
  ];
}

function sumOf(brought: Brought): Money {
  return total([...brought.values()]);
}
