/** What was earned in a period: by product, channel, month, class or buyer, down to the margin. */
import type { Book, Day, Lot, Sale } from '../book.ts';
import type { IncomeGroup } from '../groups.ts';
import { ZERO, decimal, divide, sum, type Decimal } from '../number/decimal.ts';
import { monthOf } from '../number/date.ts';
import { minorDigits } from '../number/money.ts';
import { advanceFacts } from './advance.ts';
import { totalOf } from './cost.ts';
import { enrolmentParts, hasClass, meetingsOf } from './enrolment.ts';
import { firingShares } from './firing-cost.ts';
import type { Flows } from './flow.ts';
import {
  NO_MONEY,
  incomeTotal,
  isWithin,
  marginOf,
  type Basis,
  type IncomeFact,
  type IncomeMoney,
  type ItemKind,
  type Period,
} from './income-fact.ts';
import { minutesOfLot } from './lot-making.ts';
import { paidOn } from './paid.ts';
import { saleMoney, type LineMoney } from './sale-money.ts';
import { costOfSold, type SoldLine } from './selling.ts';

export { incomeTotal, marginOf, netOf } from './income-fact.ts';
export type { Basis, IncomeFact, IncomeMoney, ItemKind, Period } from './income-fact.ts';

/** Income of one group. */
export interface IncomeRow extends IncomeMoney {
  readonly item: string;
  readonly kind: ItemKind | undefined;
  /** Ids of the records behind it. */
  readonly by: readonly string[];
}

/**
 * Every line of income in the period, with what classes and others cost in it; nothing that is later
 * than the flows' day, a payment neither. On the cash basis a sale counts on the day it is paid, and
 * an advance when it comes in. On the accrual basis a sale counts on its date, an enrolment meeting by
 * meeting, and an advance when a sale uses it. The basis is the studio's unless another is given.
 */
export function incomeFacts(
  book: Book,
  flows: Flows,
  ...[period, basis = book.studio.basis ?? 'cash']: [period: Period, basis?: Basis]
): IncomeFact[] {
  const { asOf } = flows.stock;
  const digits = minorDigits(book.studio.currency) ?? 2;
  const sales = [...book.sales.values()].filter((sale) => sale.date <= asOf);
  const sold = sales.flatMap((sale) => saleFacts({ book, flows, digits, period, basis }, sale));
  const advances = advanceFacts(book, { basis, asOf, minorDigits: digits });
  return [
    ...[...sold, ...advances].filter(({ day }) => day <= asOf && isWithin(day, period)),
    ...usedFacts(flows, period, book),
    ...firedFacts(book, flows, period),
  ];
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

interface SaleContext {
  readonly book: Book;
  readonly flows: Flows;
  readonly digits: number;
  readonly period: Period;
  readonly basis: Basis;
}

/** What a sale earns; on the accrual basis its class lines on other days too, whatever the period. */
function saleFacts(context: SaleContext, sale: Sale): IncomeFact[] {
  const { book, flows, digits, period, basis } = context;
  const isSpread = basis === 'accrual' && hasClass(sale);
  const day = basis === 'accrual' ? sale.date : paidOn(sale);
  if (day === undefined || !(isSpread || isWithin(day, period))) return [];
  const money = saleMoney(book, sale, digits);
  const sold = flows.ware.sold.get(sale.id) ?? [];
  const common = { day, channel: sale.channel, buyer: sale.buyer, by: sale.id };
  const lines = money.lines.flatMap((line, index) => {
    const whole = {
      ...common,
      ...itemOf(line),
      ...timed(lineMoney(line, sold[index]), minutesSold(book, line, sold[index])),
    };
    return isSpread ? spread(context, line, whole) : [whole];
  });
  if (money.shipping.isZero()) return lines;
  const shipping = { ...NO_MONEY, gross: money.shipping };
  return [...lines, { ...common, kind: 'shipping', item: 'shipping', ...shipping }];
}

/** A class line meeting by meeting; places and fees count on the sale's own date. */
function spread({ book, digits }: SaleContext, line: LineMoney, whole: IncomeFact): IncomeFact[] {
  const taught = book.classes.get(line.line.class ?? '');
  if (!taught) return [whole];
  const { day } = whole;
  const parts = enrolmentParts(meetingsOf(taught), { date: day, line, minorDigits: digits });
  const onItsDate = { ...whole, gross: ZERO, discounts: ZERO, returns: ZERO };
  const later = { ...onItsDate, ...NO_MONEY };
  return [onItsDate, ...parts.map((part) => ({ ...later, ...part }))];
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
  const kind = isItem ? facts[0]?.kind : undefined;
  return { item, kind, ...incomeTotal(facts), by: [...new Set(facts.map((fact) => fact.by))] };
}
