/** What matters of fairs: which paid best and least for an hour at the stall, or what one left. */
import { NO_MONEY, opposite } from '../../number/money.ts';
import type { FairFigures } from '../../reckon/sales/fair.ts';
import { amountText, rateText } from '../day/day-words.ts';
import type { Table, Verdict } from '../table.ts';
import { figuresIn, greatest } from './parts.ts';

type FairCells = Pick<Table, 'columns' | 'totals' | 'minorDigits'>;

/** Of those whose profit is known; by the hour where hours are on record, else by the profit. */
export function fairsVerdict(
  fairs: readonly FairFigures[],
  { columns, totals, minorDigits }: FairCells,
): Verdict | undefined {
  const known = fairs.filter(({ money }) => !money.unknown);
  const figures = figuresIn(columns, totals, ['profit', 'net', 'count']);
  const [only, second] = known;
  if (only && !second && fairs.length === 1)
    return { sentence: `${fairWords(only, minorDigits)}.`, figures };
  const byHour = hourWords(known, minorDigits);
  const sentence = byHour ?? profitWords(known, minorDigits);
  return sentence === undefined ? undefined : { sentence, figures };
}

/** Of one fair, from its own lines. */
export function fairVerdict(
  figures: FairFigures,
  { columns, totals, minorDigits }: FairCells,
): Verdict | undefined {
  if (figures.money.unknown) return undefined;
  return {
    sentence: `${fairWords(figures, minorDigits)}.`,
    figures: figuresIn(columns, totals, ['profit', 'net', 'cost']),
  };
}

/** `Spring market left 412.00 after all that it cost, 24.24 for each of 17 hours at the stall`. */
function fairWords({ fair, profit, perHour }: FairFigures, digits: number): string {
  const { name, hours } = fair;
  if (profit < NO_MONEY)
    return `${name} cost ${amountText(opposite(profit), digits)} more than it brought in`;
  const each =
    perHour && hours
      ? `, ${rateText(perHour, digits)} for each of ${hours.toFixed()} hours at the stall`
      : '';
  return `${name} left ${amountText(profit, digits)} after all that it cost${each}`;
}

function hourWords(fairs: readonly FairFigures[], digits: number): string | undefined {
  const paid = fairs.flatMap(({ fair, perHour }) =>
    perHour ? [{ name: fair.name, perHour }] : [],
  );
  if (paid.length < 2) return undefined;
  const best = greatest(paid, (one, other) => one.perHour.cmp(other.perHour));
  const least = greatest(paid, (one, other) => other.perHour.cmp(one.perHour));
  const [top, bottom] = [best[0], least[0]];
  if (!top || !bottom || best.length > 1 || least.length > 1) return undefined;
  return `${top.name} paid best for an hour at the stall (${rateText(top.perHour, digits)}), ${bottom.name} least (${rateText(bottom.perHour, digits)}).`;
}

function profitWords(fairs: readonly FairFigures[], digits: number): string | undefined {
  const [best, other] = greatest(fairs, (one, another) => Number(one.profit - another.profit));
  if (!best || other || fairs.length < 2 || best.profit <= NO_MONEY) return undefined;
  return `${best.fair.name} brought most: ${amountText(best.profit, digits)} is left after all that it cost.`;
}
