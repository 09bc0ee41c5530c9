/** What was earned in a period: by product, channel, month, class or buyer, down to the margin. */
import type { Book, Day, Lot, Sale } from '../book.ts';
import type { IncomeGroup } from '../groups.ts';
import { ZERO, decimal, divide, sum, type Decimal } from '../number/decimal.ts';
import { monthOf } from '../number/date.ts';
import { minorDigits } from '../number/money.ts';
import { totalOf } from './cost.ts';
import { firingShares } from './firing-cost.ts';
import type { Flows } from './flow.ts';
import { minutesOfLot } from './lot-making.ts';
import { saleMoney, type LineMoney } from './sale-money.ts';
import { costOfSold, type SoldLine } from './selling.ts';

/** Money of one line, or of many; net = gross − discounts − returns, margin = net − fees − cost. */
export interface IncomeMoney {
  /** Pieces or places sold, less those that came back. */
  readonly count: number;
  readonly gross: Decimal;
  readonly discounts: Decimal;
  readonly returns: Decimal;
  readonly fees: Decimal;
  readonly cost: Decimal;
  /** True where part of the cost is a guess. */
  readonly estimated: boolean;
  /** Minutes of work on the ware whose minutes are known. */
  readonly minutes: Decimal;
  /** Margin of that ware alone; classes, shipping and the like have no minutes. */
  readonly timedMargin: Decimal;
}

/** What is sold: a product, a class, something else in words, shipping, or kiln room for others. */
export type ItemKind = 'product' | 'class' | 'other' | 'shipping' | 'outside';

/** One line of income or of its cost. */
export interface IncomeFact extends IncomeMoney {
  readonly day: Day;
  readonly kind: ItemKind;
  readonly item: string;
  readonly channel: string | undefined;
  readonly buyer: string | undefined;
  /** Id of the record behind it. */
  readonly by: string;
}

/** Income of one group. */
export interface IncomeRow extends IncomeMoney {
  readonly item: string;
  readonly kind: ItemKind | undefined;
}

/** From and to, both within. */
export interface Period {
  readonly from: Day;
  readonly to: Day;
}

/**
 * The day on which a sale counts: on the cash basis the day it is paid (undefined while it isn't), on
 * the accrual basis its date.
 */
export function incomeDay(book: Book, sale: Sale): Day | undefined {
  if (book.studio.basis === 'accrual') return sale.date;
  const paid = sale.paid ?? sale.date;
  return paid === 'no' ? undefined : paid;
}

/**
 * Every line of income in the period, with what classes and others cost in it; nothing that is later
 * than the flows' day, a payment neither.
 */
export function incomeFacts(book: Book, flows: Flows, period: Period): IncomeFact[] {
  const { asOf } = flows.stock;
  const digits = minorDigits(book.studio.currency) ?? 2;
  const sales = [...book.sales.values()].filter((sale) => sale.date <= asOf);
  const facts = sales.flatMap((sale) => {
    const day = incomeDay(book, sale);
    if (day === undefined || day > asOf || !isWithin(day, period)) return [];
    return saleFacts({ book, flows, digits }, sale, day);
  });
  return [...facts, ...usedFacts(flows, period, book), ...firedFacts(book, flows, period)];
}

/** Facts summed up by group, in the order of the items' names. */
export function incomeRows(facts: readonly IncomeFact[], by: IncomeGroup): IncomeRow[] {
  const groups = new Map<string, IncomeFact[]>();
  for (const fact of facts) {
    const key = groupOf(fact, by);
    if (key !== undefined) addTo(groups, key, fact);
  }
  const keys = [...groups.keys()].sort();
  return keys.map((key) => rowOf(key, groups.get(key) ?? [], by));
}

/** All facts together. */
export function incomeTotal(facts: readonly IncomeMoney[]): IncomeMoney {
  const all = (amount: (fact: IncomeMoney) => Decimal): Decimal => sum(facts.map(amount));
  return {
    count: facts.reduce((count, fact) => count + fact.count, 0),
    gross: all((fact) => fact.gross),
    discounts: all((fact) => fact.discounts),
    returns: all((fact) => fact.returns),
    fees: all((fact) => fact.fees),
    cost: all((fact) => fact.cost),
    estimated: facts.some((fact) => fact.estimated),
    minutes: all((fact) => fact.minutes),
    timedMargin: all((fact) => fact.timedMargin),
  };
}

/** Gross − discounts − returns. */
export function netOf({ gross, discounts, returns }: IncomeMoney): Decimal {
  return gross.minus(discounts).minus(returns);
}

/** Net after fees, commission and cost. */
export function marginOf(money: IncomeMoney): Decimal {
  return netOf(money).minus(money.fees).minus(money.cost);
}

interface SaleContext {
  readonly book: Book;
  readonly flows: Flows;
  readonly digits: number;
}

const NO_MONEY: IncomeMoney = {
  count: 0,
  gross: ZERO,
  discounts: ZERO,
  returns: ZERO,
  fees: ZERO,
  cost: ZERO,
  estimated: false,
  minutes: ZERO,
  timedMargin: ZERO,
};

function saleFacts({ book, flows, digits }: SaleContext, sale: Sale, day: Day): IncomeFact[] {
  const money = saleMoney(book, sale, digits);
  const sold = flows.ware.sold.get(sale.id) ?? [];
  const common = { day, channel: sale.channel, buyer: sale.buyer, by: sale.id };
  const lines = money.lines.map((line, index) => ({
    ...common,
    ...itemOf(line),
    ...timed(lineMoney(line, sold[index]), minutesSold(book, line, sold[index])),
  }));
  if (money.shipping.isZero()) return lines;
  const shipping = { ...NO_MONEY, gross: money.shipping };
  return [...lines, { ...common, kind: 'shipping', item: 'shipping', ...shipping }];
}

function itemOf({ line }: LineMoney): { kind: ItemKind; item: string } {
  if (line.product !== undefined) return { kind: 'product', item: line.product };
  if (line.class !== undefined) return { kind: 'class', item: line.class };
  return { kind: 'other', item: line.for ?? 'other' };
}

function timed(money: IncomeMoney, minutes: Decimal | undefined): IncomeMoney {
  return minutes ? { ...money, minutes, timedMargin: marginOf(money) } : money;
}

function lineMoney(money: LineMoney, sold: SoldLine | undefined): IncomeMoney {
  const { line, returned, amount, saleDiscount, fees } = money;
  return {
    ...NO_MONEY,
    count: returned ? -line.count : line.count,
    gross: returned ? ZERO : amount,
    discounts: returned ? ZERO : saleDiscount,
    returns: returned ? amount : ZERO,
    fees,
    cost: sold ? totalOf(costOfSold(sold)) : ZERO,
    estimated: sold?.estimated ?? false,
  };
}

/** Minutes of work on the pieces of a line, by the lots that they are from; undefined if any is unknown. */
function minutesSold(
  book: Book,
  money: LineMoney,
  sold: SoldLine | undefined,
): Decimal | undefined {
  const { line, returned } = money;
  if (line.product === undefined) return undefined;
  const from = sold?.from ?? [];
  const known = from.map(({ lot, slice }) => minutesOfPieces(book, lot.lot, slice.count));
  const others = line.count - from.reduce((all, { slice }) => all + slice.count, 0);
  const each = book.products.get(line.product)?.minutes;
  const minutes = sumKnown([...known, others === 0 ? ZERO : each?.times(decimal(others))]);
  return returned ? minutes?.neg() : minutes;
}

function minutesOfPieces(book: Book, lot: Lot, count: number): Decimal | undefined {
  const minutes = minutesOfLot({ book }, lot);
  if (!minutes || lot.made === 0) return undefined;
  return divide(minutes.times(decimal(count)), decimal(lot.made));
}

function sumKnown(amounts: readonly (Decimal | undefined)[]): Decimal | undefined {
  const known = amounts.filter((amount) => amount !== undefined);
  return known.length === amounts.length ? sum(known) : undefined;
}

/** Materials used for classes in the period. */
function usedFacts(flows: Flows, period: Period, book: Book): IncomeFact[] {
  return flows.stock.movements.flatMap((movement) => {
    const id = movement.for;
    if (id === undefined || !book.classes.has(id) || !isWithin(movement.day, period)) return [];
    return [
      costFact('class', id, { day: movement.day, by: movement.by, cost: movement.value.neg() }),
    ];
  });
}

/** What classes and customers bear of the firings in the period. */
function firedFacts(book: Book, flows: Flows, period: Period): IncomeFact[] {
  const costs = [...flows.ware.firings.values()];
  return costs
    .filter(({ firing }) => isWithin(firing.date, period))
    .flatMap((cost) => {
      const shares = firingShares(book, cost);
      return cost.firing.load.flatMap((line, index) => {
        const share = shares[index];
        if (line.lot !== undefined || !share) return [];
        const day = cost.firing.date;
        const bearer = { day, by: cost.firing.id, cost: totalOf({ ...share }) };
        if (line.class !== undefined) return [costFact('class', line.class, bearer)];
        return [costFact('outside', 'kiln room for others', bearer)];
      });
    });
}

function costFact(
  kind: ItemKind,
  item: string,
  { day, by, cost }: { day: Day; by: string; cost: Decimal },
): IncomeFact {
  return { ...NO_MONEY, day, kind, item, channel: undefined, buyer: undefined, by, cost };
}

function isWithin(day: Day, { from, to }: Period): boolean {
  return day >= from && day <= to;
}

/** The group's key with the kind of item before it, so that a class and a product never fall together. */
function groupOf(fact: IncomeFact, by: IncomeGroup): string | undefined {
  switch (by) {
    case 'product':
      return `${fact.kind} ${fact.item}`;
    case 'class':
      return fact.kind === 'class' ? `${fact.kind} ${fact.item}` : undefined;
    case 'channel':
      return fact.channel ?? '';
    case 'month':
      return monthOf(fact.day);
    case 'buyer':
      return fact.buyer ?? '';
  }
}

function addTo(groups: Map<string, IncomeFact[]>, key: string, fact: IncomeFact): void {
  const group = groups.get(key);
  if (group) group.push(fact);
  else groups.set(key, [fact]);
}

function rowOf(key: string, facts: readonly IncomeFact[], by: IncomeGroup): IncomeRow {
  const isItem = by === 'product' || by === 'class';
  const item = isItem ? (facts[0]?.item ?? key) : key;
  return { item, kind: isItem ? facts[0]?.kind : undefined, ...incomeTotal(facts) };
}
