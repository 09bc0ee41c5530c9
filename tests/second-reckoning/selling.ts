/** What a sale takes off the piles and the boxes, and what comes back (rules 4, 12, 14, 15). */
import type { Day, Sale, SaleLine } from '../../src/book.ts';
import { FREE, add, addAll, costOf, less, type Cost } from './costs.ts';
import { count as countOf, shareOf, sumOf, times, type Fraction } from './fraction.ts';
import {
  inOrder,
  isMeant,
  joinFinished,
  mayCarry,
  ofGrade,
  standing,
  takeFinished,
  type Lot,
  type Named,
  type Taken,
} from './lots.ts';
import { meetingParts } from './meetings.ts';
import { addLone, howMany, pick, placeOf } from './moving.ts';
import { saleMoney } from './sale-money.ts';
import { largestRemainder } from './shares.ts';
import { causeOf, drawFrom, fitting, goTo, type State } from './state.ts';
import { productOn } from './on-day.ts';

/** What a line's goods cost. */
interface Goods {
  readonly cost: Cost;
  readonly beyond: Cost;
  readonly estimated: boolean;
}

const NO_GOODS: Goods = { cost: FREE, beyond: FREE, estimated: false };

export function sell(state: State, sale: Sale): void {
  const packing = pack(state, sale);
  const money = saleMoney(state.book, sale);
  const lines = sale.lines.map((line, at) => {
    const goods = goodsOf(state, sale, { line, at });
    const packed = { ...FREE, packing: packing[at] ?? 0n };
    return { ...goods, cost: add(goods.cost, packed) };
  });
  state.sales.set(sale.id, {
    ...money,
    lines: money.lines.map((one, at) => {
      const line = sale.lines[at];
      const meetings = line ? meetingParts(state.book, sale, { line, money: one }) : [];
      return { ...one, ...(lines[at] ?? NO_GOODS), meetings };
    }),
  });
}

/** Packing of all lines that are sold, each material drawn once; what it cost each line. */
function pack(state: State, sale: Sale): bigint[] {
  const uses = sale.lines.map((line) => packingOf(state, line, sale.date));
  const costs = uses.map(() => 0n);
  for (const material of new Set(uses.flatMap((use) => [...use.keys()]))) {
    const weights = uses.map((use) => use.get(material) ?? countOf(0));
    const quantity = sumOf(weights);
    if (quantity.top === 0n) continue;
    const cost = drawFrom(state, material, { ...causeOf(sale, 'packing'), quantity });
    goTo(state, 'sold', {
      ...{ day: sale.date, record: sale.id, what: material },
      cost: { ...FREE, packing: cost },
    });
    largestRemainder(cost, weights).forEach((share, at) => (costs[at] = (costs[at] ?? 0n) + share));
  }
  return costs;
}

function packingOf(state: State, line: SaleLine, day: Day): Map<string, Fraction> {
  const uses = new Map<string, Fraction>();
  if (line.returned === 'yes') return uses;
  for (const { material, each } of productOn(state.book, line.product, day)?.packing ?? []) {
    const fits = fitting(state, material, each);
    const quantity = fits && times(fits, countOf(line.count));
    if (quantity) uses.set(material, sumOf([uses.get(material) ?? countOf(0), quantity]));
  }
  return uses;
}

interface Line {
  readonly line: SaleLine;
  readonly at: number;
}

function goodsOf(state: State, sale: Sale, one: Line): Goods {
  const { product } = one.line;
  if (product === undefined) return NO_GOODS;
  const named = { ...one.line, product };
  return one.line.returned === 'yes'
    ? comeBack(state, sale, { ...one, named })
    : goOut(state, sale, { ...one, named });
}

type NamedLine = Line & { readonly named: Named };

function goOut(state: State, sale: Sale, { line, named }: NamedLine): Goods {
  const place = placeOf(state.book, sale.channel);
  const grades = [line.grade ?? 'first'] as const;
  const found = pick(state, { named, grades, place, count: line.count });
  const costs = found.map(({ lot, grade, count }) => {
    const cost = takeFinished(lot, { grade, place }, count);
    state.sold.push({ lot, product: named.product, count, cost, returned: 0 });
    goTo(state, 'sold', { day: sale.date, record: sale.id, what: lot.id, cost });
    return cost;
  });
  const missing = line.count - howMany(found);
  if (missing > 0) state.shortfalls.push({ of: line.lot ?? named.product, record: sale.id });
  return {
    ...{ cost: addAll(costs), beyond: likeLastLoad(state, named.product, missing) },
    estimated: missing > 0,
  };
}

/** R(cost ÷ good pieces × so many) of the product's load that came out last. */
function likeLastLoad(state: State, product: string, pieces: number): Cost {
  const load = state.lastLoads.get(product);
  if (!load || pieces === 0) return FREE;
  return costOf((one) => shareOf(load.cost[one], countOf(pieces), countOf(load.good)));
}

/** What was sold last comes back first; what never was comes back at an estimate. */
function comeBack(state: State, sale: Sale, { line, at, named }: NamedLine): Goods {
  const where = { place: placeOf(state.book, sale.channel), day: sale.date };
  const costs: Cost[] = [];
  const give = (lot: Lot, count: number, cost: Cost): void => {
    joinFinished(lot, where, ofGrade(line.grade ?? 'first', count, cost));
    const back = less(FREE, cost);
    goTo(state, 'sold', { day: sale.date, record: sale.id, what: lot.id, cost: back });
    costs.push(cost);
  };
  let open = line.count;
  for (const taken of [...state.sold].reverse().filter((one) => isThatWare(one, named))) {
    const some = Math.min(open, taken.count - taken.returned);
    if (some > 0) give(taken.lot, some, giveBack(taken, some));
    open -= some;
  }
  if (open > 0) {
    const lots = inOrder(state.lots.values()).filter((lot) => isMeant(lot, named));
    const own = named.lot === undefined ? undefined : state.lots.get(named.lot);
    const grade = line.grade ?? 'first';
    // As what is found (rule 16): the pile of the lot finished last that has that grade there.
    const there = lots.filter((each) => standing(each, grade, where.place) > 0);
    const lot =
      own ?? there.at(-1) ?? lots.at(-1) ?? addLone(state, `${sale.id}/${String(at)}`, named);
    give(lot, open, likeLastLoad(state, named.product, open));
  }
  return { cost: addAll(costs), beyond: FREE, estimated: open > 0 };
}

function isThatWare({ lot, product }: Taken, named: Named): boolean {
  const { lot: id, glaze } = named;
  if (id !== undefined && lot.id !== id) return false;
  return product === named.product && mayCarry(lot, glaze);
}

/** The running share of what the sold pieces cost. */
function giveBack(taken: Taken, count: number): Cost {
  const part = (many: number): Cost =>
    costOf((one) => shareOf(taken.cost[one], countOf(many), countOf(taken.count)));
  const before = part(taken.returned);
  taken.returned += count;
  return less(part(taken.returned), before);
}
