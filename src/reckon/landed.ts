/** What each line of a purchase really cost: its share of freight, tax and discount with it. */
import type { Book, Bought, BoughtLine } from '../book.ts';
import { ZERO, integersOf, type Decimal } from '../number/decimal.ts';
import { NO_MONEY, less, shareOut, total, type Money } from '../number/money.ts';
import { convert } from '../number/unit.ts';
import { booked } from './booked.ts';

/**
 * Landed cost of each line: line cost + its share of freight + tax − discount, each shared by itself by
 * the lines' cost, freight by weight where the purchase says so; the lines add up to the invoice.
 * By weight a line without a weight bears no freight; where no line has one, each bears the same.
 */
export function landedCosts(book: Pick<Book, 'studio'>, bought: Bought): Money[] {
  const costs = bought.lines.map((line) => booked(book, line.cost));
  if (!bought.freight && !bought.tax && !bought.discount) return costs;
  const freight = shareOut(booked(book, bought.freight), freightWeights(bought) ?? costs);
  const tax = shareOut(booked(book, bought.tax), costs);
  const discount = shareOut(booked(book, bought.discount), costs);
  return costs.map((cost, at) =>
    less(total([cost, freight[at] ?? NO_MONEY, tax[at] ?? NO_MONEY]), discount[at] ?? NO_MONEY),
  );
}

/** What a whole line weighs in g: its own weight where it says one, else its quantity. */
export function gramsOf({ quantity, weight = quantity }: BoughtLine): Decimal | undefined {
  return convert(weight.value, weight.unit, 'g');
}

function freightWeights(bought: Bought): bigint[] | undefined {
  if (bought.shareFreightBy !== 'weight') return undefined;
  return integersOf(bought.lines.map((line) => gramsOf(line) ?? ZERO));
}
