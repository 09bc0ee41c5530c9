/** What lines come to so far: the money of a sale or purchase, the kiln space of a load. */
import type { Book, Kind } from '../../book.ts';
import { setApart } from '../../in-words.ts';
import { ZERO } from '../../number/decimal.ts';
import { add, moneyText, opposite, total as totalOf, type Money } from '../../number/money.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { spaceOf } from '../../reckon/kilns/firing-cost.ts';
import { saleMoney } from '../../reckon/sales/sale-money.ts';

/** The last line's own share, and all lines together, in words; empty where there is nothing to say. */
interface LineProgress {
  readonly line: string;
  readonly total: string;
}

const NO_PROGRESS: LineProgress = { line: '', total: '' };

/** How far a list of a record has come; its lines are those that the book has of it. */
export function progressOf(book: Book, { kind, field }: ListOf, id: string): LineProgress {
  if (field === 'load') return spaceTaken(book, id);
  if (field !== 'lines') return NO_PROGRESS;
  return moneyOf(book, kind === 'sales' ? saleAmounts(book, id) : costs(book, id));
}

/** A list field of a kind of record. */
interface ListOf {
  readonly kind: Kind;
  readonly field: string;
}

/** What buyers pay for the lines of a sale, all discounts taken off; returns are negative. */
export function saleAmounts(book: Book, id: string): readonly Money[] {
  const sale = book.sales.get(id);
  if (!sale) return [];
  return saleMoney(book, sale).lines.map(({ net, taxIncluded, returned }) => {
    const amount = add(net, taxIncluded);
    return returned ? opposite(amount) : amount;
  });
}

/** An amount with the currency's decimals. */
export function inMoney(book: Book, amount: Money): string {
  return moneyText(amount, digitsOf(book));
}

function costs(book: Book, id: string): readonly Money[] {
  return (book.bought.get(id)?.lines ?? []).map(({ cost }) => booked(book, cost));
}

function moneyOf(book: Book, amounts: readonly Money[]): LineProgress {
  const last = amounts.at(-1);
  if (last === undefined) return NO_PROGRESS;
  const total = `total ${setApart(inMoney(book, totalOf(amounts)))} ${book.studio.currency}`;
  return { line: setApart(inMoney(book, last)), total };
}

function spaceTaken(book: Book, id: string): LineProgress {
  const firing = book.firings.get(id);
  const last = firing?.load.at(-1);
  if (!firing || !last) return NO_PROGRESS;
  const taken = firing.load.reduce((total, line) => total.plus(spaceOf(book, firing, line)), ZERO);
  const space = book.kilns.get(firing.kiln)?.space;
  const of = space ? ` of ${space.toString()}` : '';
  return { line: spaceOf(book, firing, last).toString(), total: `space ${taken.toString()}${of}` };
}
