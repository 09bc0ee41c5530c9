/** The part of the tax summary on sales tax: by place, taxed and untaxed sales, and what is owed. */
import { NO_MONEY, opposite, type Money } from '../../number/money.ts';
import type { TaxAtPlace } from '../../reckon/tax/sales-tax.ts';
import type { FromRows, QuarterPart, QuarterRow } from './quarter-rows.ts';

/** One row of a place. */
interface PlaceRow {
  readonly item: string;
  readonly words: string;
  readonly figure: (at: TaxAtPlace) => Money;
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
    figure: ({ sales }) => sales,
    plus: ['sales-taxed', 'sales-untaxed'],
  },
  { item: 'sales-taxed', words: 'of that, taxed', figure: ({ taxed }) => taxed, seldom: true },
  {
    item: 'sales-untaxed',
    words: 'of that, not taxed',
    figure: ({ untaxed }) => untaxed,
    seldom: true,
  },
  {
    item: 'shipping-taxed',
    words: 'taxed shipping',
    figure: ({ shipping }) => shipping,
    seldom: true,
  },
  {
    item: 'opening-tax',
    words: 'tax owed at the start',
    figure: ({ opening }) => opening,
    before: 'collected before, less what was given back and paid over',
    seldom: true,
  },
  { item: 'sales-tax', words: 'tax collected', figure: ({ collected }) => collected },
  {
    item: 'sales-tax-back',
    words: 'tax given back',
    figure: ({ givenBack }) => opposite(givenBack),
    seldom: true,
  },
  {
    item: 'sales-tax-paid',
    words: 'tax paid over',
    figure: ({ paidOver }) => opposite(paidOver),
    seldom: true,
  },
  {
    item: 'closing-tax',
    words: 'tax owed at the end',
    figure: ({ closing }) => closing,
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
  { item, words, figure, plus, before }: PlaceRow,
  now: TaxAtPlace | undefined,
  toDate: TaxAtPlace,
): QuarterRow {
  const { place } = toDate;
  const from: FromRows | undefined = plus
    ? { plus: plus.map((each) => `${each}.${place}`) }
    : before === undefined
      ? undefined
      : { words: before };
  return {
    item: `${item}.${place}`,
    name: `${place === '' ? 'No place named' : place}: ${words}`,
    amount: now ? figure(now) : NO_MONEY,
    toDate: figure(toDate),
    ...(from ? { from } : { behind: now?.behind ?? [], behindToDate: toDate.behind }),
  };
}
