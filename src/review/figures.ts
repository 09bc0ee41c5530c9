/** Consequences as people see them: rounded, with signs, and without those that look alike. */
import { setApart } from '../in-words.ts';
import { decimal, roundTo, type Decimal } from '../number/decimal.ts';
import type { Consequence } from './follows.ts';

/** One figure before and after; what is not there is empty. */
export interface FigureWords {
  readonly label: string;
  readonly before: string;
  readonly after: string;
  readonly difference: string;
}

const HUNDRED = decimal(100);
const QUANTITY_PLACES = 2;
const PERCENT_PLACES = 1;

/**
 * The figures rounded half up as they are shown (money to the currency's minor digits, quantities to 2
 * decimals, shares of 1 as percentages with one), each difference that of the shown figures. Figures
 * that are shown alike are left out.
 */
export function figureWords(
  consequences: readonly Consequence[],
  minorDigits: number,
): FigureWords[] {
  return consequences.flatMap((each) => {
    const show = shower(each, minorDigits);
    const [before, after] = [
      each.before && show.round(each.before),
      each.after && show.round(each.after),
    ];
    const zero = decimal(0);
    const difference = (after ?? zero).minus(before ?? zero);
    if (before && after && difference.isZero()) return [];
    return [
      {
        label: labelOf(each),
        before: before ? show.write(before) : '',
        after: after ? show.write(after) : '',
        difference: `${difference.isNegative() ? '' : '+'}${show.write(difference)}`,
      },
    ];
  });
}

function labelOf({ figure, of, unit }: Consequence): string {
  const name = of === '' ? figure : `${figure}, ${of}`;
  return unit === undefined || unit === 'each' ? name : `${name} (${unit})`;
}

interface Shower {
  readonly round: (value: Decimal) => Decimal;
  readonly write: (value: Decimal) => string;
}

function shower({ type, unit }: Consequence, minorDigits: number): Shower {
  if (type === 'fraction')
    return {
      round: (value) => roundTo(value.times(HUNDRED), PERCENT_PLACES),
      write: (value) => `${setApart(value.toFixed(PERCENT_PLACES))}%`,
    };
  const places = {
    money: minorDigits,
    rate: minorDigits,
    count: 0,
    quantity: unit === 'each' ? 0 : QUANTITY_PLACES,
  }[type];
  return {
    round: (value) => roundTo(value, places),
    write: (value) => setApart(value.toFixed(places)),
  };
}
