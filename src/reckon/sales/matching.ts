/** Holds the amounts of a list against those of the book: by numbers, by amount and day, one to many. */
import type { Day } from '../../book.ts';
import { daysBetween } from '../../number/date.ts';
import { addTo } from '../../grouping.ts';
import { NO_MONEY, add, total, type Money } from '../../number/money.ts';
import type { MovedMoney } from './money-moved.ts';

/** A row of a list that says what was paid. */
export interface ListedMoney {
  /** What tells the row apart: its number in the list, or its line. */
  readonly row: string;
  readonly date: Day;
  readonly amount: Money;
  /** What else the row says, in which numbers of the book may stand. */
  readonly text: string;
}

/** How a row was found in the book. */
export type MatchedBy = 'number' | 'amount' | 'payout';

/** A row and the records that it is of. */
export interface MoneyMatch {
  readonly listed: ListedMoney;
  readonly moved: readonly MovedMoney[];
  readonly by: MatchedBy;
  /** What the records come to, as the list has it: before the fees that were kept, or after them. */
  readonly amount: Money;
}

/** What is on both sides, and what on one alone. */
export interface Matching {
  readonly matches: readonly MoneyMatch[];
  readonly onlyListed: readonly ListedMoney[];
  readonly onlyMoved: readonly MovedMoney[];
}

interface MoneySides {
  readonly listed: readonly ListedMoney[];
  readonly moved: readonly MovedMoney[];
  /** So many days may lie between the two. */
  readonly days: number;
}

interface Searching extends MoneySides {
  readonly matches: MoneyMatch[];
  readonly rowsLeft: Set<ListedMoney>;
  readonly movedLeft: Set<MovedMoney>;
}

/**
 * Each row and each record is used once. Numbers go first, since they say which it is; then single
 * amounts, the nearest day first; then payouts, which are several records of one channel one after the
 * other, of which some were sold last before it.
 */
export function matchMoney(sides: MoneySides): Matching {
  const search: Searching = {
    ...sides,
    matches: [],
    rowsLeft: new Set(sides.listed),
    movedLeft: new Set(sides.moved),
  };
  matchNumbers(search);
  matchAmounts(search);
  matchPayouts(search);
  return {
    matches: search.matches,
    onlyListed: [...search.rowsLeft],
    onlyMoved: [...search.movedLeft],
  };
}

function take(search: Searching, match: MoneyMatch): void {
  search.matches.push(match);
  search.rowsLeft.delete(match.listed);
  for (const each of match.moved) search.movedLeft.delete(each);
}

/** A number of fewer signs stands in many a text by chance. */
const SHORTEST_NUMBER = 4;

/** The row names the number; where the amounts differ the row is still of these records. */
function matchNumbers(search: Searching): void {
  const byNumber = new Map<string, MovedMoney[]>();
  for (const each of search.moved)
    for (const number of new Set(each.numbers.map(plainNumber))) addTo(byNumber, number, each);
  for (const listed of search.listed) {
    const moved = numbersIn(listed)
      .map((number) => (byNumber.get(number) ?? []).filter((each) => isOfRow(search, listed, each)))
      .find((found) => found.length > 0);
    if (moved)
      take(search, { listed, moved, by: 'number', amount: nearestSum(moved, listed.amount) });
  }
}

function isOfRow(
  { movedLeft, days }: Searching,
  { date, amount }: ListedMoney,
  each: MovedMoney,
): boolean {
  const isSameWay = amount < NO_MONEY === each.gross < NO_MONEY;
  // A statement is paid weeks after its sales, if they say no other day.
  return movedLeft.has(each) && isSameWay && Math.abs(daysBetween(each.date, date)) <= days + MONTH;
}

const MONTH = 31;

/** The row's own number, then whatever its text has that could be one: with a digit, and not too short. */
function numbersIn({ row, text }: ListedMoney): string[] {
  const words = text.split(/[^\p{L}\p{N}-]+/u).map(plainNumber);
  return [plainNumber(row), ...words].filter(
    (word) => word.length >= SHORTEST_NUMBER && /\d/.test(word),
  );
}

function plainNumber(text: string): string {
  return text.toLowerCase().replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '');
}

/** Of what was paid and what came of it the sum that is nearer to the list's. */
function nearestSum(moved: readonly MovedMoney[], amount: Money): Money {
  const gross = total(moved.map((each) => each.gross));
  const net = total(moved.map((each) => each.net));
  const distance = (sum: Money): bigint => (sum > amount ? sum - amount : amount - sum);
  return distance(gross) < distance(net) ? gross : net;
}

function matchAmounts(search: Searching): void {
  const byAmount = new Map<Money, MovedMoney[]>();
  for (const each of search.movedLeft)
    for (const amount of new Set([each.net, each.gross])) addTo(byAmount, amount, each);
  for (const listed of inDays(search.rowsLeft)) {
    const near = (byAmount.get(listed.amount) ?? [])
      .filter((each) => search.movedLeft.has(each))
      .map((each) => ({ each, days: Math.abs(daysBetween(each.date, listed.date)) }))
      .filter(({ days }) => days <= search.days)
      .sort((one, other) => one.days - other.days);
    const [found] = near;
    if (found) take(search, { listed, moved: [found.each], by: 'amount', amount: listed.amount });
  }
}

function inDays(rows: Iterable<ListedMoney>): ListedMoney[] {
  return [...rows].sort((one, other) => (one.date < other.date ? -1 : 1));
}

function matchPayouts(search: Searching): void {
  for (const listed of inDays(search.rowsLeft)) {
    const moved = payoutOf(search, listed);
    if (moved) take(search, { listed, moved, by: 'payout', amount: listed.amount });
  }
}

/** The records of one channel, one after the other, that come to the amount after their fees; those that end last. */
function payoutOf(search: Searching, listed: ListedMoney): readonly MovedMoney[] | undefined {
  const byChannel = new Map<string, MovedMoney[]>();
  for (const each of search.movedLeft) {
    const days = daysBetween(each.date, listed.date);
    if (each.channel !== undefined && days >= 0 && days <= search.days + MONTH)
      addTo(byChannel, each.channel, each);
  }
  for (const records of byChannel.values()) {
    const run = runOf(records, listed.amount);
    if (run) return run;
  }
  return undefined;
}

function runOf(records: readonly MovedMoney[], amount: Money): readonly MovedMoney[] | undefined {
  for (let end = records.length; end > 1; end--) {
    const run = runBefore(records, end, amount);
    if (run) return run;
  }
  return undefined;
}

function runBefore(
  records: readonly MovedMoney[],
  end: number,
  amount: Money,
): readonly MovedMoney[] | undefined {
  let sum = NO_MONEY;
  for (let start = end - 1; start >= 0; start--) {
    sum = add(sum, records[start]?.net ?? NO_MONEY);
    if (sum === amount && end - start > 1) return records.slice(start, end);
  }
  return undefined;
}
