/** Figures that a change moves, and how people see them: rounded, with signs, without those that look alike. */
import { setApart } from '../in-words.ts';
import type { Book } from '../book.ts';
import { ZERO, decimal, roundTo, type Decimal } from '../number/decimal.ts';
import { decimalOf, type Money } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';

/** What a figure is: money, money for one piece, a share of 1, pieces, or so much in its unit. */
type FigureType = 'money' | 'rate' | 'fraction' | 'count' | 'quantity';

/** One figure that comes out otherwise; undefined where there is none. */
export interface Consequence {
  /** The figure: `income`, `loss rate`. */
  readonly figure: string;
  /** Which one of several: a quarter, a product, a material, a kind of firing. */
  readonly of: string;
  readonly type: FigureType;
  readonly unit?: string;
  readonly before: Decimal | undefined;
  readonly after: Decimal | undefined;
}

/** A figure on one side. */
export type SideFigure = Omit<Consequence, 'before' | 'after'> & {
  readonly value: Decimal | undefined;
};

/** One figure before and after; what is not there is empty. */
export interface FigureWords {
  readonly label: string;
  readonly before: string;
  readonly after: string;
  readonly difference: string;
}

/** A figure in money. */
export function moneyFigure(
  book: Book,
  which: Pick<Consequence, 'figure' | 'of'>,
  value: Money,
): SideFigure {
  return { ...which, type: 'money', value: decimalOf(value, digitsOf(book)) };
}

/** After less before; what is not there counts as nothing. */
export function differenceOf({ before, after }: Consequence): Decimal {
  return (after ?? ZERO).minus(before ?? ZERO);
}

/**
 * The figures rounded half up as they are shown (money to the currency's minor digits, quantities to 2
 * decimals, shares of 1 as percentages with one), each difference that of the shown figures, of percentages in points. Figures
 * that are shown alike are left out.
 */
export function figureWords(
  consequences: readonly Consequence[],
  minorDigits: number,
): FigureWords[] {
  return consequences.flatMap((each) => {
    const { figure, of, type, unit } = each;
    const isShare = type === 'fraction';
    const places = placesFor(each, minorDigits);
    const rounded = (value: Decimal | undefined): Decimal | undefined =>
      value && roundTo(isShare ? value.times(decimal(100)) : value, places);
    const written = (value: Decimal | undefined, sign = '%'): string =>
      value ? setApart(value.toFixed(places)) + (isShare ? sign : '') : '';
    const [before, after] = [rounded(each.before), rounded(each.after)];
    const difference = (after ?? ZERO).minus(before ?? ZERO);
    if (before && after && difference.isZero()) return [];
    const name = of === '' ? figure : `${figure}, ${of}`;
    return [
      {
        label: unit === undefined || unit === 'each' ? name : `${name} (${unit})`,
        before: written(before),
        after: written(after),
        difference: `${difference.isNegative() ? '' : '+'}${written(difference, ' points')}`,
      },
    ];
  });
}

function placesFor({ type, unit }: Consequence, minorDigits: number): number {
  const places = { money: minorDigits, rate: minorDigits, count: 0, quantity: 2, fraction: 1 };
  return unit === 'each' && type === 'quantity' ? 0 : places[type];
}
