/** What matters of costs: what sells below its cost, else what pays least for an hour of work. */
import { counted } from '../../in-words.ts';
import { belowCost, type ProductCost } from '../../reckon/costs/product-cost.ts';
import { rateText } from '../day/day-words.ts';
import { isDecimal } from '../../number/decimal.ts';
import type { RowAlerts, Table, Verdict } from '../table.ts';
import { figureIn, namesSaid } from './parts.ts';

/** Of products with what pays least for an hour first, as the rows are; undefined where no price is known. */
export function costsVerdict(
  costs: readonly ProductCost[],
  { columns, rows, minorDigits }: Pick<Table, 'columns' | 'rows' | 'minorDigits'>,
): Verdict | undefined {
  const [first] = costs;
  const isPriced = costs.some(({ prices }) => prices.some(({ margin }) => margin !== undefined));
  if (!first || !isPriced) return undefined;
  const perHour = rows[0]?.['perHour'];
  const pay = isDecimal(perHour)
    ? `; an hour of work is paid least by ${first.product.name} (${rateText(perHour, minorDigits)})`
    : '';
  const label = `Per hour, ${first.product.name}`;
  return {
    sentence: belowWords(costs) ?? `No product sells below its cost${pay}.`,
    figures: figureIn(columns, rows[0], { key: 'perHour', label }),
  };
}

/** `2 products sell below cost: Mug (wholesale) and Jar (online, fair).` */
function belowWords(costs: readonly ProductCost[]): string | undefined {
  const below = costs.filter((cost) => belowCost(cost).length > 0);
  if (below.length === 0) return undefined;
  const named = below.map(
    (cost) =>
      `${cost.product.name} (${belowCost(cost)
        .map(({ kind }) => kind)
        .join(', ')})`,
  );
  const verb = below.length === 1 ? 'sells' : 'sell';
  return `${counted(below.length, 'product')} ${verb} below cost: ${namesSaid(named)}.`;
}

/** Those that sell below cost somewhere, where it says so. */
export function costsAlerts(costs: readonly ProductCost[]): RowAlerts {
  const of = costs.map((cost) => (belowCost(cost).length > 0 ? 'now' : undefined));
  return { column: 'belowAt', of };
}
