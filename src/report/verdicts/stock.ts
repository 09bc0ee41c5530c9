/** What matters of materials: what to order now, else what runs low or is next; and where their value went. */
import type { Day } from '../../book.ts';
import type { Depletion } from '../../reckon/stock/depletion.ts';
import type { RowAlerts, Table, Verdict } from '../table.ts';
import { figureIn, namesSaid } from './parts.ts';

type Cells = Pick<Table, 'columns' | 'rows' | 'totals' | 'asOf'>;

/** Of every material, the most urgent first as the rows are. */
export function stockVerdict(
  stock: readonly Depletion[],
  { columns, rows, totals, asOf }: Cells,
): Verdict | undefined {
  const [first] = stock;
  if (!first) return undefined;
  const label = `Days left of ${first.name}`;
  return {
    sentence: orderWords(stock, asOf),
    figures: [
      ...(first.isToOrder ? figureIn(columns, rows[0], { key: 'daysLeft', label }) : []),
      ...figureIn(columns, totals, { key: 'value', label: 'Value of all' }),
    ],
  };
}

function orderWords(stock: readonly Depletion[], asOf: Day): string {
  const toOrder = stock.filter(({ isToOrder }) => isToOrder);
  const [only, second] = toOrder;
  if (only && !second) return `Order ${only.name} now: ${leftWords(only, asOf)}.`;
  if (only) return `Order ${toOrder.length} materials now: ${namesSaid(toOrder.map(nameWithEnd))}.`;
  const low = stock.filter(({ state }) => state === 'low').map(({ name }) => name);
  if (low.length > 0) return `Nothing has to be ordered today; running low: ${namesSaid(low)}.`;
  const [next] = stock
    .filter(({ orderBy }) => orderBy !== undefined)
    .sort((one, other) => ((one.orderBy ?? '') < (other.orderBy ?? '') ? -1 : 1));
  const then = next ? `; next is ${next.name}, by ${next.orderBy ?? ''}` : '';
  return `Nothing has to be ordered today${then}.`;
}

function leftWords({ state, orderBy = '', runsOut = '' }: Depletion, asOf: Day): string {
  if (state === 'out') return 'it is out';
  return `it lasts to ${runsOut}, so it ${orderBy < asOf ? 'was' : 'is'} to be ordered by ${orderBy}`;
}

function nameWithEnd({ name, state, runsOut = '' }: Depletion): string {
  return `${name} (${state === 'out' ? 'out' : `lasts to ${runsOut}`})`;
}

/** The state says why. */
export function stockAlerts(stock: readonly Depletion[]): RowAlerts {
  const of = stock.map(({ isToOrder, state }) =>
    isToOrder ? 'now' : state === 'low' ? 'soon' : undefined,
  );
  return { column: 'state', of };
}
