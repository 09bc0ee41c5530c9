/** What each line of a purchase really cost: its share of freight, tax and discount with it. */
import type { Book, Bought, BoughtLine } from '../book.ts';
import { integersOf } from '../number/decimal.ts';
import { NO_MONEY, less, shareOut, total, type Money } from '../number/money.ts';
import { convert } from '../number/unit.ts';
import { booked } from './booked.ts';

/**
 * Landed cost of each line: line cost + its share of freight + tax − discount, each shared by itself by
 * the lines' cost, freight by weight where the purchase says so; the lines add up to the invoice.
 * Freight by weight falls back to cost where a line has no weight.
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

function freightWeights(bought: Bought): bigint[] | undefined {
  if (bought.shareFreightBy !== 'weight') return undefined;
  const grams = bought.lines.map(gramsOf);
  return grams.every((weight) => weight !== undefined) ? integersOf(grams) : undefined;
}

function gramsOf(line: BoughtLine): ReturnType<typeof convert> {
  return convert(line.quantity.value, line.quantity.unit, 'g');
}
