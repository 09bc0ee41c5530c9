/** The part of the tax summary on what the ware cost: stock, purchases, and where they went. */
import type { Book, Day } from '../../book.ts';
import { type Span, addDays } from '../../number/date.ts';
import { total, type Money } from '../../number/money.ts';
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

/** Stock at the start and the end by kind, what was bought between, and where it went. */
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
  const rows = [
    ...stockRows(row, 'opening', 'At the start:'),
    stockTotal(row, { when: 'opening', name: 'Stock at the start', lineOf }),
    {
      ...row('purchases', 'Materials bought, landed', {
        of: ({ goods }) => goods.purchases,
        ids: ({ purchases }) => purchases,
      }),
      sheetLine: lineOf('purchases'),
    },
    {
      ...row('own-use', 'Less ware for personal use', {
        of: ({ goods }) => goods.ownUse,
        ids: ({ ownUse }) => ownUse,
      }),
      sheetLine: lineOf('own-use'),
    },
    ...stockRows(row, 'closing', 'At the end:'),
    stockTotal(row, { when: 'closing', name: 'Less stock at the end', lineOf }),
    {
      ...row('cost-of-goods-sold', 'Cost of goods sold', {
        of: ({ goods }) => goods.costOfGoodsSold,
      }),
      from: { plus: ['opening', 'purchases'], less: ['own-use', 'closing'] },
    },
    ...CONSUMED.map((way) =>
      row(`consumed.${slug(LEAVING_WORDS[way])}`, `Of that, ${LEAVING_WORDS[way]}`, {
        of: ({ goods }) => goods.consumed[way],
        ids: ({ consumed }) => consumed[way],
      }),
    ),
  ];
  return { part: 'Cost of goods sold: materials only, your own labour not included', rows };
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
