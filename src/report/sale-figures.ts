/** Columns of an export on what a sale came to: what its record leaves to rates and shares. */
import type { Book, Sale, SaleLine } from '../book.ts';
import { total, type Money } from '../number/money.ts';
import { cachedFor, madeOnce } from '../once.ts';
import { saleMoney, type LineMoney, type SaleMoney } from '../reckon/sales/sale-money.ts';
import type { Cell, Column } from './table.ts';

/** A column with the figure of a sale or of a line of one. */
interface SaleColumn {
  readonly column: Column;
  readonly to: undefined;
  readonly required: boolean;
  readonly pick: (of: unknown) => Cell;
}

/** Of a whole sale. */
const OF_SALE: readonly (readonly [string, string, (money: SaleMoney) => Money])[] = [
  ['discountTotal', 'Discounts of the sale and its lines', discountOf],
  ['taxTotal', 'Sales tax in it, on top of the prices or within them', ({ tax }) => tax],
  ['feeTotal', 'Fee of the card or shop', ({ fee }) => fee],
  ['commissionTotal', 'Commission', ({ commission }) => commission],
  ['due', 'What the buyer paid or owes', ({ due }) => due],
];

/** Of one line; all positive, also where it came back. */
const OF_LINE: readonly (readonly [string, string, (money: LineMoney) => Money])[] = [
  ['gross', 'Count × price, without tax', ({ gross }) => gross],
  ['discountTotal', "Its own discount and its share of the sale's", ({ discounts }) => discounts],
  ['net', 'After discounts, without tax', ({ net }) => net],
  ['taxIncluded', 'Sales tax within the price', ({ taxIncluded }) => taxIncluded],
  ['feeShare', 'Its share of the fee', ({ fee }) => fee],
  ['commissionShare', 'Its share of the commission', ({ commission }) => commission],
];

function discountOf({ lines }: SaleMoney): Money {
  const sold = lines.filter(({ returned }) => !returned);
  return total(sold.map(({ discounts }) => discounts));
}

/** The columns that are beside those of the records, by the table that they are of. */
export function saleFigures(book: Book): Readonly<Partial<Record<string, readonly SaleColumn[]>>> {
  const moneyOf = cachedFor((sale: Sale) => saleMoney(book, sale));
  const lines = madeOnce(() => {
    const all = [...book.sales.values()].flatMap((sale) => moneyOf(sale).lines);
    return new Map(all.map((money) => [money.line, money]));
  });
  return {
    sales: OF_SALE.map(([key, title, of]) =>
      moneyLeaf(key, title, (sale) => of(moneyOf(sale as Sale))),
    ),
    'sales-lines': OF_LINE.map(([key, title, of]) =>
      moneyLeaf(key, title, (line) => {
        const money = lines().get(line as SaleLine);
        return money && of(money);
      }),
    ),
  };
}

function moneyLeaf(
  key: string,
  title: string,
  pick: (of: unknown) => Money | undefined,
): SaleColumn {
  return {
    column: { key, title, type: 'money' },
    to: undefined,
    required: false,
    pick: (value) => pick(value) ?? null,
  };
}
