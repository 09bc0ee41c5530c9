/** Figures that a change moves as people see them: rounded, with signs, the long lists folded. */
import { grouped } from '../grouping.ts';
import { setApart } from '../in-words.ts';
import { ZERO, roundTo, type Decimal } from '../number/decimal.ts';
import type { ColumnType } from '../report/table.ts';
import type { ReportFigure } from './report-figures.ts';

/** One figure that comes out otherwise; undefined where there is none. */
export interface Consequence {
  /** The figure: `income`, `net profit`. */
  readonly figure: string;
  /** Which one of several: a quarter, a product, a material. */
  readonly of: string;
  readonly type: ColumnType;
  readonly unit?: string;
  /** Whether it is of a quarter that is closed. */
  readonly isClosed?: boolean;
  readonly before: ReportFigure | undefined;
  readonly after: ReportFigure | undefined;
}

/** One figure before and after; what is not there is empty. */
export interface FigureWords {
  readonly label: string;
  readonly before: string;
  readonly after: string;
  readonly difference: string;
}

/** After less before; what is not there counts as nothing; undefined for words. */
export function differenceOf({
  before = ZERO,
  after = ZERO,
}: Pick<Consequence, 'before' | 'after'>): Decimal | undefined {
  return typeof before === 'string' || typeof after === 'string' ? undefined : after.minus(before);
}

/** By how much a figure moved, with its sign: `-1,066.81`; empty for words. */
export function signedText(
  figure: Pick<Consequence, 'type' | 'before' | 'after'>,
  minorDigits: number,
): string {
  const difference = differenceOf(figure);
  if (difference === undefined) return '';
  const places = figure.type === 'money' ? minorDigits : difference.decimalPlaces();
  return `${difference.isNegative() ? '' : '+'}${setApart(difference.toFixed(places))}`;
}

/** By how much a figure moved, whichever way. */
export function sizeOfMove(figure: Pick<Consequence, 'before' | 'after'>): number {
  return Math.abs(differenceOf(figure)?.toNumber() ?? 0);
}

/** Of one figure so many are shown; of more, the most of them that moved furthest. */
const MOST_ALIKE = 6;
/** And of all of them so many. */
const MOST_SHOWN = 32;

/**
 * The figures as they are shown: money with the currency's minor digits, quantities rounded half up to 2
 * decimals, each difference that of the shown figures. Figures that are shown alike are left out; of a
 * figure of many, those that moved furthest are shown, then how many more there are.
 */
export function figureWords(
  consequences: readonly Consequence[],
  minorDigits: number,
): FigureWords[] {
  const all = [...grouped(consequences, ({ figure }) => figure)].flatMap(([figure, alike]) => {
    const words = alike.flatMap((each) => wordsOfFigure(each, minorDigits));
    if (words.length <= MOST_ALIKE) return words;
    const furthest = new Set(words.toSorted(byMove).slice(0, MOST_ALIKE - 1));
    const left = words.length - furthest.size;
    const more = { label: `${figure}, ${left} more`, before: '', after: '', difference: '' };
    return [...words.filter((each) => furthest.has(each)), more];
  });
  if (all.length <= MOST_SHOWN) return all;
  const left = all.length - MOST_SHOWN + 1;
  const rest = `and ${left} more; --as json has them all`;
  return [...all.slice(0, MOST_SHOWN - 1), { label: rest, before: '', after: '', difference: '' }];
}

function byMove(one: FigureWords, other: FigureWords): number {
  const size = ({ difference }: FigureWords): number =>
    Math.abs(Number(difference.replaceAll(',', '')) || 0);
  return size(other) - size(one);
}

function wordsOfFigure(each: Consequence, minorDigits: number): FigureWords[] {
  const { before, after } = each;
  const label = labelOf(each);
  if (typeof before === 'string' || typeof after === 'string')
    return [{ label, before: wordOf(before), after: wordOf(after), difference: '' }];
  const places = placesFor(each, minorDigits);
  const rounded = (value: Decimal = ZERO): Decimal => roundTo(value, places);
  const written = (value: Decimal): string => setApart(value.toFixed(places));
  const difference = rounded(after).minus(rounded(before));
  if (difference.isZero()) return [];
  return [
    {
      label,
      before: written(rounded(before)),
      after: written(rounded(after)),
      difference: `${difference.isNegative() ? '' : '+'}${written(difference)}`,
    },
  ];
}

const NO_WORD = 'none';

function wordOf(figure: ReportFigure | undefined): string {
  return typeof figure === 'string' && figure !== '' ? figure : NO_WORD;
}

function labelOf({ figure, of, unit, isClosed }: Consequence): string {
  const which = isClosed ? of.replace(/^[^,]+/, '$& (closed)') : of;
  const name = which === '' ? figure : `${figure}, ${which}`;
  return unit === undefined || unit === 'each' ? name : `${name} (${unit})`;
}

function placesFor({ type, unit }: Consequence, minorDigits: number): number {
  if (type === 'money' || type === 'rate') return minorDigits;
  return type === 'count' || unit === 'each' ? 0 : 2;
}
