/** Where the material value of a period came from and went to: both sides add up to the same. */
import { once } from '../once.ts';
import type { Book, Day } from '../book.ts';
import { NO_MONEY, add, less, total, type Money } from '../number/money.ts';
import { goodsRecords, standingRecords } from '../reckon/goods-records.ts';
import type { Account } from '../reckon/ware.ts';
import { STANDING, materialValue, type MaterialValue } from '../reckon/where.ts';
import { LEAVING_WORDS, STANDING_WORDS } from './goods-words.ts';
import { moneyColumn, spanInWords, tableHead, textColumn } from './head.ts';
import type { Table } from './table.ts';
import type { Flows } from '../reckon/flows.ts';

const COLUMNS = [
  textColumn('side', 'Side'),
  textColumn('part', 'Part'),
  moneyColumn('cameFrom', 'Came from'),
  moneyColumn('wentTo', 'Went to'),
];

/**
 * Opening value + what was counted when the book began + bought = what stands at the end + what left. `eve` is the flow up
 * to the day before the period, where it doesn't start with the book.
 */
export function materialValueTable(
  book: Book,
  flows: Flows,
  start: { from: Day; eve: Flows } | undefined,
): Table {
  const end = materialValue(flows);
  const before = start && materialValue(start.eve);
  const came = cameParts(end, before);
  const went = wentParts(end, before);
  const { asOf } = flows.stock;
  return {
    report: 'materials',
    title: `Where the material value is, ${spanInWords({ from: start?.from, to: asOf })}`,
    ...tableHead(book, asOf),
    columns: COLUMNS,
    rows: [
      ...came.map(({ amount, ...part }) => ({ ...part, cameFrom: amount, wentTo: null })),
      ...went.map(({ amount, ...part }) => ({ ...part, cameFrom: null, wentTo: amount })),
    ],
    totals: { side: 'total', cameFrom: sumOf(came), wentTo: sumOf(went) },
    notes: [
      'Materials at landed cost; energy, wear and labour are not in it. Both sides add up to the same.',
    ],
    behind: once(() => recordsBehind(book, flows, { start, hasOpened: came.length > 2 })),
  };
}

/** In the order of the rows. */
function recordsBehind(
  book: Book,
  flows: Flows,
  { start, hasOpened }: { start: { from: Day; eve: Flows } | undefined; hasOpened: boolean },
): (readonly string[])[] {
  const period = { from: start?.from ?? '0000-01-01', to: flows.stock.asOf };
  const { opened, purchases, ownUse, consumed } = goodsRecords(book, flows, period);
  const before = start ? Object.values(standingRecords(start.eve)).flat() : [];
  const standing = standingRecords(flows);
  const given = [...consumed.given, ...ownUse];
  return [
    [...new Set(before)],
    ...(hasOpened ? [opened] : []),
    purchases,
    ...STANDING.map((part) => standing[part]),
    consumed.sold,
    consumed.lost,
    [...new Set(given)],
    consumed.others,
    consumed.differences,
  ];
}

interface Part {
  readonly side: string;
  readonly part: string;
  readonly amount: Money;
}

function cameParts(end: MaterialValue, before: MaterialValue | undefined): Part[] {
  const opening = before ? total(Object.values(before.standing)) : NO_MONEY;
  const opened = less(openedIn(end), before ? openedIn(before) : NO_MONEY);
  const bought = less(end.bought, before?.bought ?? NO_MONEY);
  return [
    { side: 'came from', part: 'standing before', amount: opening },
    ...(opened === NO_MONEY ? [] : [{ side: 'came from', part: OPENED, amount: opened }]),
    { side: 'came from', part: 'bought', amount: bought },
  ];
}

const OPENED = 'counted when the book began';

function openedIn({ opened }: MaterialValue): Money {
  return total(Object.values(opened));
}

function wentParts(end: MaterialValue, before: MaterialValue | undefined): Part[] {
  const left = (way: Account): Money => less(end.leaving[way], before?.leaving[way] ?? NO_MONEY);
  const ways = {
    [LEAVING_WORDS.sold]: left('sold'),
    [LEAVING_WORDS.lost]: left('lost'),
    [GIVEN_AND_KEPT]: add(left('given'), left('kept')),
    [LEAVING_WORDS.others]: left('others'),
    [LEAVING_WORDS.differences]: left('differences'),
  };
  return [
    ...STANDING.map((place) => ({
      side: 'stands',
      part: STANDING_WORDS[place],
      amount: end.standing[place],
    })),
    ...Object.entries(ways).map(([part, amount]) => ({ side: 'left', part, amount })),
  ];
}

const GIVEN_AND_KEPT = 'given away and kept';

function sumOf(parts: readonly Part[]): Money {
  return total(parts.map(({ amount }) => amount));
}
