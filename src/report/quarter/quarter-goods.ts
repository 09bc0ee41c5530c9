/** The part of the tax summary on what the ware cost: stock, purchases, and where they went. */
import { earlierDay } from '../../number/date.js';
import type { Book, Day } from '../../book.ts';
import { type Span, addDays } from '../../number/date.ts';
import { NO_MONEY, add, total, type Money } from '../../number/money.ts';
import { keyed } from '../../grouping.ts';
import { cachedFor } from '../../once.ts';
import { broughtTogether, type Brought } from '../../reckon/brought.ts';
import { flow } from '../../reckon/flow.ts';
import {
  goodsBrought,
  standingBrought,
  type GoodsBrought,
} from '../../reckon/stock/goods-brought.ts';
import type { TaxAccount } from '../../reckon/tax/tax-profit.ts';
import { CONSUMED, STANDING, type Standing } from '../../reckon/stock/where.ts';
import { LEAVING_WORDS, STANDING_WORDS } from '../goods-words.ts';
import {
  isByStock,
  type Accounts,
  type LineOf,
  type QuarterPart,
  type QuarterRow,
  both,
} from './quarter-rows.ts';

/** The book that the accounts are of, and its last day. */
interface GoodsBook {
  readonly book: Book;
  readonly asOf: Day;
}

/** What records, materials and lots bring to the goods of a period. */
interface GoodsOfPeriod extends GoodsBrought {
  readonly opening: Readonly<Record<Standing, Brought>>;
  readonly closing: Readonly<Record<Standing, Brought>>;
}

type RowOf = (
  item: string,
  name: string,
  figure: {
    readonly of: (of: TaxAccount) => Money;
    readonly by: (of: GoodsOfPeriod) => Brought;
  },
) => QuarterRow;

/** The cost of goods: by stock, or as the basis and the sheet have it. */
export function goodsPart(from: GoodsBook, accounts: Accounts, lineOf: LineOf): QuarterPart {
  const [period, year] = accounts;
  const row: RowOf = (item, name, { of, by }) => ({
    item,
    name,
    ...both(accounts, of),
    brought: () => by(goodsOf(from, period.period)),
    broughtToDate: () => by(goodsOf(from, year.period)),
  });
  const rows = { row, accounts, lineOf };
  const { way } = accounts[0].goodsCost;
  if (way === 'paid')
    return {
      part: 'Cost of goods: materials paid for, your own labour not included',
      rows: paidRows(rows),
    };
  return {
    part: 'Cost of goods sold: materials only, your own labour not included',
    rows: [...byStockRows(rows), ...(isByStock(accounts) ? [] : unpaidRows(rows))],
  };
}

interface GoodsRows {
  readonly row: RowOf;
  readonly accounts: Accounts;
  readonly lineOf: LineOf;
}

/** Stock at the start and the end by kind, what was bought between, and where it went. */
function byStockRows({ row, accounts, lineOf }: GoodsRows): QuarterRow[] {
  const isAtPrice = accounts[0].kept !== undefined;
  return [
    ...stockRows(row, 'opening', 'At the start:'),
    stockTotal(accounts, { when: 'opening', name: 'Stock at the start', lineOf }),
    {
      ...row('purchases', 'Materials bought, landed', {
        of: ({ goods }) => goods.purchases,
        by: ({ purchases }) => purchases,
      }),
      sheetLine: lineOf('purchases'),
    },
    ...(isAtPrice ? [] : [ownUseRow(row, lineOf)]),
    ...stockRows(row, 'closing', 'At the end:'),
    stockTotal(accounts, { when: 'closing', name: 'Less stock at the end', lineOf }),
    {
      item: 'cost-of-goods-sold',
      name: 'Cost of goods sold',
      ...both(accounts, ({ goods, kept }) =>
        add(goods.costOfGoodsSold, kept ? goods.ownUse : NO_MONEY),
      ),
      from: {
        plus: ['opening', 'purchases'],
        less: [...(isAtPrice ? [] : ['own-use']), 'closing'],
      },
    },
    ...CONSUMED.map((way) =>
      row(`consumed.${slug(LEAVING_WORDS[way])}`, `Of that, ${LEAVING_WORDS[way]}`, {
        of: ({ goods }) => goods.consumed[way],
        by: ({ consumed }) => consumed[way],
      }),
    ),
    ...(isAtPrice
      ? [
          row('consumed.kept', 'Of that, kept for personal use', {
            of: ({ goods }) => goods.ownUse,
            by: ({ ownUse }) => ownUse,
          }),
        ]
      : []),
  ];
}

function ownUseRow(row: RowOf, lineOf: LineOf): QuarterRow {
  const figure = {
    of: ({ goods }: TaxAccount) => goods.ownUse,
    by: ({ ownUse }: GoodsOfPeriod) => ownUse,
  };
  const name = 'Less ware for personal use';
  return { ...row('own-use', name, figure), sheetLine: lineOf('own-use') };
}

/** What was paid for goods, whatever of them is still there. */
function paidRows({ row, accounts, lineOf }: GoodsRows): QuarterRow[] {
  const [period, year] = accounts;
  return [
    {
      item: 'purchases',
      name: 'Materials paid for',
      ...both(accounts, ({ goodsCost }) => goodsCost.paid),
      sheetLine: lineOf('purchases'),
      brought: period.goodsCost.paidFor,
      broughtToDate: year.goodsCost.paidFor,
    },
    ownUseRow(row, lineOf),
    costRow(accounts, { name: 'Cost of goods', from: { plus: ['purchases'], less: ['own-use'] } }),
  ];
}

/** From what was used to what was used and paid for. */
function unpaidRows({ accounts, lineOf }: GoodsRows): QuarterRow[] {
  const unpaid = (when: 'before' | 'unpaid', item: string, name: string): QuarterRow => ({
    item,
    name,
    ...both(accounts, ({ goodsCost }) => goodsCost[when].amount),
    sheetLine: lineOf(item),
    brought: accounts[0].goodsCost[when].brought,
    broughtToDate: accounts[1].goodsCost[when].brought,
  });
  return [
    unpaid('before', 'used-unpaid-before', 'Plus materials used before, unpaid at the start'),
    unpaid('unpaid', 'used-unpaid', 'Less materials used, unpaid at the end'),
    costRow(accounts, {
      name: 'Cost of goods sold, used and paid for',
      from: { plus: ['cost-of-goods-sold', 'used-unpaid-before'], less: ['used-unpaid'] },
    }),
  ];
}

function costRow(accounts: Accounts, row: Pick<QuarterRow, 'name' | 'from'>): QuarterRow {
  return { item: 'cost-of-goods', ...row, ...both(accounts, ({ goodsCost }) => goodsCost.cost) };
}

/** What each record, material and lot brings to the cost of goods of an account. */
export function costBrought(
  from: GoodsBook,
  { period, kept, goodsCost: { way, paidFor, before, unpaid } }: TaxAccount,
): Brought {
  const { opening, purchases, ownUse, closing } = goodsOf(from, period);
  if (way === 'paid') return broughtTogether([paidFor], [ownUse]);
  return broughtTogether(
    [...Object.values(opening), purchases, before.brought],
    [...Object.values(closing), ...(kept ? [] : [ownUse]), unpaid.brought],
  );
}

/** Goods of periods, by the book and its last day. */
const knownGoods = cachedFor<Book, Map<string, GoodsOfPeriod>>(() => new Map());

function goodsOf({ book, asOf }: GoodsBook, period: Span): GoodsOfPeriod {
  const known = knownGoods(book);
  const key = [period.from, period.to, asOf].join(' ');
  const goods = known.get(key) ?? goodsGathered({ book, asOf }, period);
  known.set(key, goods);
  return goods;
}

function goodsGathered({ book, asOf }: GoodsBook, period: Span): GoodsOfPeriod {
  const on = (day: Day): ReturnType<typeof flow> => flow(book, earlierDay(day, asOf));
  const end = on(period.to);
  const eve = standingBrought(on(addDays(period.from, -1)));
  const moved = goodsBrought(end, period);
  return {
    ...moved,
    opening: keyed(STANDING, (place) => broughtTogether([eve[place], moved.opened[place]], [])),
    closing: standingBrought(end),
  };
}

type When = 'opening' | 'closing';

function stockRows(row: RowOf, when: When, words: string): QuarterRow[] {
  return STANDING.map((place) =>
    row(stockItem(when, place), `${words} ${STANDING_WORDS[place]}`, {
      of: ({ goods }) => goods[when][place],
      by: (goods) => goods[when][place],
    }),
  );
}

function stockTotal(
  accounts: Accounts,
  { when, name, lineOf }: { when: When; name: string; lineOf: LineOf },
): QuarterRow {
  return {
    item: when,
    name,
    ...both(accounts, ({ goods }) => total(Object.values(goods[when]))),
    sheetLine: lineOf(`${when}-stock`),
    from: { plus: STANDING.map((place) => stockItem(when, place)) },
  };
}

function stockItem(when: When, place: Standing): string {
  return `${when}.${slug(STANDING_WORDS[place])}`;
}

function slug(words: string): string {
  return words.replace(/[^a-z]+/g, '-');
}
