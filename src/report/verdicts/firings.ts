/** What matters of firings: what they cost, which was the dearest, and which lost out of line. */
import { counted } from '../../in-words.ts';
import { isDecimal } from '../../number/decimal.ts';
import { total } from '../../number/money.ts';
import type { FiringCost } from '../../reckon/kilns/firing-cost.ts';
import { amountText, rateText } from '../day/day-words.ts';
import type { ChartedFiring } from '../../reckon/kilns/loss-chart.ts';
import type { Table, Verdict } from '../table.ts';
import { outWords } from './losses.ts';
import { figuresIn, greatest } from './parts.ts';

type FiringCells = Pick<Table, 'columns' | 'rows' | 'totals' | 'minorDigits'>;

/** Of firings in the order of the rows, and how they lie within the limits of their kinds. */
export function firingsVerdict(
  firings: readonly FiringCost[],
  charted: readonly ChartedFiring[],
  { columns, rows, totals, minorDigits }: FiringCells,
): Verdict | undefined {
  if (firings.length === 0) return undefined;
  const cost = amountText(total(firings.map((each) => each.total)), minorDigits);
  const priced = firings.flatMap(({ firing }, at) => {
    const rate = rows[at]?.['perPiece'];
    return isDecimal(rate) ? [{ firing, rate }] : [];
  });
  const [dearest, other] = greatest(priced, (one, another) => one.rate.cmp(another.rate));
  const most =
    dearest && !other && priced.length > 1
      ? `; dearest per piece was the ${dearest.firing.kind} firing of ${dearest.firing.date} (${rateText(dearest.rate, minorDigits)})`
      : '';
  const out = charted.some(({ outOfLine }) => outOfLine) ? `; ${outWords(charted)}` : '';
  return {
    sentence: `${counted(firings.length, 'firing')} cost ${cost}${most}${out}.`,
    figures: figuresIn(columns, totals, ['total', 'pieces', 'energyCost']),
  };
}
