/** The part of the tax summary on what the ware cost: stock, purchases, and where they went. */
import type { Book, Day } from '../../book.ts';
import { type Span, addDays } from '../../number/date.ts';
import { NO_MONEY, add, total, type Money } from '../../number/money.ts';
import { once } from '../../once.ts';
import { flow } from '../../reckon/flow.ts';
import {
  goodsRecords,
  standingRecords,
  type GoodsRecords,
  type StandingRecords,
} from '../../reckon/stock/goods-records.ts';
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

/** The records behind the goods of a period. */
interface GoodsBehind extends GoodsRecords {
  readonly opening: StandingRecords;
  readonly closing: StandingRecords;
}

type RowOf = (
  item: string,
  name: string,
  figure: {
    readonly of: (of: TaxAccount) => Money;
    readonly ids?: (of: GoodsBehind) => readonly string[];
  },
) => QuarterRow;

/** The cost of goods: by stock, or as the basis and the sheet have it. */
export function goodsPart(from: GoodsBook, accounts: Accounts, lineOf: LineOf): QuarterPart {
  const [inPeriod, inYear] = accounts.map(({ period }) =>
    once(() => recordsBehindGoods(from, period)),
  );
  const row: RowOf = (item, name, { of, ids = () => [] }) => {
    const idsIn = (behind: GoodsBehind | undefined): readonly string[] =>
      behind ? ids(behind) : [];
    return {
      item,
      name,
      ...both(accounts, of),
      behind: () => idsIn(inPeriod?.()),
      behindToDate: () => idsIn(inYear?.()),
    };
  };
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
    stockTotal(row, { when: 'opening', name: 'Stock at the start', lineOf }),
    {
      ...row('purchases', 'Materials bought, landed', {
        of: ({ goods }) => goods.purchases,
        ids: ({ purchases }) => purchases,
      }),
      sheetLine: lineOf('purchases'),
    },
    ...(isAtPrice ? [] : [ownUseRow(row, lineOf)]),
    ...stockRows(row, 'closing', 'At the end:'),
    stockTotal(row, { when: 'closing', name: 'Less stock at the end', lineOf }),
    {
      ...row('cost-of-goods-sold', 'Cost of goods sold', {
        of: ({ goods, kept }) => add(goods.costOfGoodsSold, kept ? goods.ownUse : NO_MONEY),
      }),
      from: {
        plus: ['opening', 'purchases'],
        less: [...(isAtPrice ? [] : ['own-use']), 'closing'],
      },
    },
    ...CONSUMED.map((way) =>
      row(`consumed.${slug(LEAVING_WORDS[way])}`, `Of that, ${LEAVING_WORDS[way]}`, {
        of: ({ goods }) => goods.consumed[way],
        ids: ({ consumed }) => consumed[way],
      }),
    ),
    ...(isAtPrice
      ? [
          row('consumed.kept', 'Of that, kept for personal use', {
            of: ({ goods }) => goods.ownUse,
            ids: ({ ownUse }) => ownUse,
          }),
        ]
      : []),
  ];
}

function ownUseRow(row: RowOf, lineOf: LineOf): QuarterRow {
  const figure = {
    of: ({ goods }: TaxAccount) => goods.ownUse,
    ids: ({ ownUse }: GoodsBehind) => ownUse,
  };
  const name = 'Less ware for personal use';
  return { ...row('own-use', name, figure), sheetLine: lineOf('own-use') };
}

/** What was paid for goods, whatever of them is still there. */
function paidRows({ row, accounts, lineOf }: GoodsRows): QuarterRow[] {
  const [period, year] = accounts;
  return [
    {
      ...row('purchases', 'Materials paid for', { of: ({ goodsCost }) => goodsCost.paid }),
      sheetLine: lineOf('purchases'),
      behind: period.goodsCost.paidFor,
      behindToDate: year.goodsCost.paidFor,
    },
    ownUseRow(row, lineOf),
    {
      ...row('cost-of-goods', 'Cost of goods', { of: ({ goodsCost }) => goodsCost.cost }),
      from: { plus: ['purchases'], less: ['own-use'] },
    },
  ];
}

/** From what was used to what was used and paid for. */
function unpaidRows({ row, accounts, lineOf }: GoodsRows): QuarterRow[] {
  const unpaid = (when: 'before' | 'unpaid', item: string, name: string): QuarterRow => ({
    ...row(item, name, { of: ({ goodsCost }) => goodsCost[when].amount }),
    sheetLine: lineOf(item),
    behind: accounts[0].goodsCost[when].behind,
    behindToDate: accounts[1].goodsCost[when].behind,
  });
  return [
    unpaid('before', 'used-unpaid-before', 'Plus materials used before, unpaid at the start'),
    unpaid('unpaid', 'used-unpaid', 'Less materials used, unpaid at the end'),
    {
      ...row('cost-of-goods', 'Cost of goods sold, used and paid for', {
        of: ({ goodsCost }) => goodsCost.cost,
      }),
      from: { plus: ['cost-of-goods-sold', 'used-unpaid-before'], less: ['used-unpaid'] },
    },
  ];
}

function recordsBehindGoods({ book, asOf }: GoodsBook, period: Span): GoodsBehind {
  const on = (day: Day): ReturnType<typeof flow> => flow(book, day < asOf ? day : asOf);
  const end = on(period.to);
  return {
    opening: standingRecords(on(addDays(period.from, -1))),
    closing: standingRecords(end),
    ...goodsRecords(book, end, period),
  };
}

type When = 'opening' | 'closing';

function stockRows(row: RowOf, when: When, words: string): QuarterRow[] {
  return STANDING.map((place) =>
    row(stockItem(when, place), `${words} ${STANDING_WORDS[place]}`, {
      of: ({ goods }) => goods[when][place],
      ids: (behind) => idsBehind(behind, when, place),
    }),
  );
}

/** What was counted when the book began is of every place that it may have been in. */
function idsBehind(behind: GoodsBehind, when: When, place: Standing): readonly string[] {
  const ids = behind[when][place];
  return when === 'opening' ? [...new Set([...ids, ...behind.opened])] : ids;
}

function stockTotal(
  row: RowOf,
  { when, name, lineOf }: { when: When; name: string; lineOf: LineOf },
): QuarterRow {
  return {
    ...row(when, name, { of: ({ goods }) => total(Object.values(goods[when])) }),
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
