/** The part of the tax summary on sales tax: by place, taxed and untaxed sales, and what is owed. */
import { NO_MONEY, opposite, type Money } from '../../number/money.ts';
import { broughtBy, type Brought } from '../../reckon/brought.ts';
import type { TaxAtPlace } from '../../reckon/tax/sales-tax.ts';
import type { QuarterPart, QuarterRow } from './quarter-rows.ts';

/** One row of a place. */
interface PlaceRow {
  readonly item: string;
  readonly words: string;
  readonly figure: keyof Omit<TaxAtPlace, 'place' | 'brought'>;
  /** Whether it is shown below zero. */
  readonly isOff?: true;
  /** Items of the rows that it is the sum of, or words on what it rests. */
  readonly plus?: readonly string[];
  readonly before?: string;
  /** Whether it is there only where there is something to say. */
  readonly seldom?: true;
}

const OWED = ['opening-tax', 'sales-tax', 'sales-tax-back', 'sales-tax-paid'];

const ROWS: readonly PlaceRow[] = [
  {
    item: 'sales-there',
    words: 'sales',
    figure: 'sales',
    plus: ['sales-taxed', 'sales-untaxed'],
  },
  { item: 'sales-taxed', words: 'of that, taxed', figure: 'taxed', seldom: true },
  {
    item: 'sales-untaxed',
    words: 'of that, not taxed',
    figure: 'untaxed',
    seldom: true,
  },
  {
    item: 'shipping-taxed',
    words: 'taxed shipping',
    figure: 'shipping',
    seldom: true,
  },
  {
    item: 'opening-tax',
    words: 'tax owed at the start',
    figure: 'opening',
    before: 'collected before, less what was given back and paid over',
    seldom: true,
  },
  { item: 'sales-tax', words: 'tax collected', figure: 'collected' },
  {
    item: 'sales-tax-back',
    words: 'tax given back',
    figure: 'givenBack',
    isOff: true,
    seldom: true,
  },
  {
    item: 'sales-tax-paid',
    words: 'tax paid over',
    figure: 'paidOver',
    isOff: true,
    seldom: true,
  },
  {
    item: 'closing-tax',
    words: 'tax owed at the end',
    figure: 'closing',
    plus: OWED,
  },
];

/** Sales at no place are no part of a return; only the tax on them is. */
const OF_NO_PLACE: ReadonlySet<string> = new Set(['sales-there', 'sales-untaxed']);

/** Sales tax by place; of the period, and of the business year up to its end. */
export function salesTaxPart(
  period: readonly TaxAtPlace[],
  year: readonly TaxAtPlace[],
): QuarterPart {
  const rows = year.flatMap((toDate) => {
    const now = period.find(({ place }) => place === toDate.place);
    const all = ROWS.map((row) => rowOf(row, now, toDate));
    const isNeeded = ({ amount, toDate: sum }: QuarterRow): boolean =>
      amount !== NO_MONEY || sum !== NO_MONEY;
    if (toDate.place !== '')
      return all.some(isNeeded) ? all.filter((row, at) => isNeeded(row) || !ROWS[at]?.seldom) : [];
    return all.filter((row, at) => isNeeded(row) && !OF_NO_PLACE.has(ROWS[at]?.item ?? ''));
  });
  return { part: 'Sales tax collected (to pay over; not income)', rows };
}

function rowOf(
  { item, words, figure, isOff, plus, before }: PlaceRow,
  now: TaxAtPlace | undefined,
  toDate: TaxAtPlace,
): QuarterRow {
  const { place } = toDate;
  const signed = (amount: Money): Money => (isOff ? opposite(amount) : amount);
  const row = {
    item: `${item}.${place}`,
    name: `${place === '' ? 'No place named' : place}: ${words}`,
    amount: now ? signed(now[figure]) : NO_MONEY,
    toDate: signed(toDate[figure]),
  };
  if (plus) return { ...row, from: { plus: plus.map((each) => `${each}.${place}`) } };
  if (before !== undefined) return { ...row, from: { words: before } };
  const bring = (at: TaxAtPlace | undefined): Brought =>
    figure === 'opening' || figure === 'closing' || !at
      ? new Map()
      : broughtBy([...at.brought[figure]].map(([id, amount]) => [id, signed(amount)]));
  return { ...row, brought: bring(now), broughtToDate: bring(toDate) };
}
