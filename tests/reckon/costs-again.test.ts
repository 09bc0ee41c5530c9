/** The example studio's costs reckoned again by another way: lot by lot as a whole, in plain numbers. */
import { inBaseUnits } from '../../src/number/measure.ts';
import { readFileSync, readdirSync } from 'node:fs';
import { join, sep } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Book, Firing, LoadLine, Lot } from '../../src/book.ts';
import { KINDS } from '../../src/book.ts';
import type { Decimal } from '../../src/number/decimal.ts';
import type { Money } from '../../src/number/money.ts';
import { leftIn } from '../../src/reckon/costs/cost.ts';
import { flow } from '../../src/reckon/flow.ts';
import { productCosts } from '../../src/reckon/costs/product-cost.ts';
import { borneBy } from '../helpers/accounts.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { EXAMPLE, EXAMPLE_DAY } from '../helpers/studio-commands.ts';

const SPAN = { from: '2025-07-01', to: EXAMPLE_DAY };
const book = exampleBook();
const flows = flow(book, EXAMPLE_DAY);
const inSpan = ({ date }: { readonly date: string }): boolean =>
  date >= SPAN.from && date <= SPAN.to;

function exampleBook(): Book {
  const names = readdirSync(EXAMPLE, { recursive: true, encoding: 'utf8' })
    .map((name) => name.split(sep).join('/'))
    .filter((name) => name.endsWith('.yaml') && !name.startsWith('.'));
  const textOf = (kind: string): string =>
    names
      .filter((name) => name === `${kind}.yaml` || name.startsWith(`${kind}/`))
      .map((name) => readFileSync(join(EXAMPLE, name), 'utf8'))
      .join('\n');
  const texts = ['studio', ...KINDS].map((kind) => [kind, textOf(kind)]);
  return bookFrom(Object.fromEntries(texts) as Files);
}

/** A figure as a plain number: money in units of the currency. */
function num(value: Decimal | Money | undefined): number {
  return typeof value === 'bigint' ? Number(value) / 100 : Number(value?.toString() ?? 0);
}

/** To the cent, as each event is booked. */
function booked(amount: number): number {
  return Math.round(amount * 100) / 100;
}

function total(amounts: readonly number[]): number {
  return amounts.reduce((all, amount) => all + amount, 0);
}

function room(line: LoadLine): number {
  const lot = book.pieces.get(line.lot ?? '');
  return line.in * Number(line.space ?? book.products.get(lot?.product ?? '')?.space ?? 1);
}

const RUNNING =
  'rent-place insurance bank professional office licences education repairs tools supplies';

/** What is spread over the room of one: rent and the like, and utilities beyond the kilns' energy. */
function overheadForOne(): number {
  const spent = [...book.spent.values()].filter((each) => inSpan(each) && !each.channel);
  const running = spent.filter((each) => RUNNING.split(' ').includes(each.for));
  const bills = spent.filter((each) => each.for === 'utilities');
  const fired = [...book.firings.values()].filter(inSpan);
  const energy = total(fired.map(({ id }) => num(flows.ware.firings.get(id)?.energyCost)));
  const money = total([...running, ...bills].map(({ amount }) => num(amount))) - energy;
  return money / total(fired.flatMap(({ load }) => load.map(room)));
}

interface Load {
  readonly firing: Firing;
  readonly line: LoadLine;
}

function loadsOf(lot: Lot): Load[] {
  return [...book.firings.values()]
    .sort((a, b) => (a.date + a.id < b.date + b.id ? -1 : 1))
    .flatMap((firing) => firing.load.map((line) => ({ firing, line })))
    .filter(({ line }) => line.lot === lot.id);
}

function drawnFor(id: string, why: string): number {
  const drawn = [...flows.stock.movements].filter(({ by, reason }) => by === id && reason === why);
  return -total(drawn.map(({ value }) => num(value)));
}

/** Everything that went into a lot. */
function spentOn(lot: Lot, forOne: number): number {
  const product = book.products.get(lot.product);
  const minutes = num(lot.minutes) || num(product?.minutes) * lot.made;
  const making = drawnFor(lot.id, 'clay') + booked((minutes * 24) / 60);
  const fired = loadsOf(lot).map(({ firing, line }) => {
    const at = firing.load.indexOf(line);
    const share = Object.values(flows.ware.firings.get(firing.id)?.shares[at] ?? {}).map(num);
    const glaze = num(borneBy(flows.ware.facts, firing.id)[at]?.glaze);
    return total(share) + glaze + forOne * room(line);
  });
  return making + total(fired);
}

function goodOf(lot: Lot): number {
  const outside = total((lot.lost ?? []).map(({ count }) => count));
  return lot.made - outside - total(loadsOf(lot).map(({ line }) => line.lost ?? 0));
}

/** The day of the first finished pieces. */
function dayOut(lot: Lot): string {
  const last = (book.products.get(lot.product)?.fired ?? ['bisque', 'glaze']).at(-1);
  const out = loadsOf(lot).filter(
    ({ firing, line }) => firing.kind === last && (line.first ?? 0) + (line.second ?? 0) > 0,
  );
  return out[0]?.firing.date ?? '';
}

/** Whether nothing of a lot stands at an earlier stage or in a kiln. */
function isWhole(lot: Lot): boolean {
  const state = flows.ware.lots.get(lot.id);
  return state?.inKiln.length === 0 && state.stages.every((batch) => leftIn(batch) === 0);
}

function packed(product: string): number {
  const lines = book.products.get(product)?.packing ?? [];
  return total(
    lines.map(({ material, each }) => {
      const all = [...flows.stock.movements].filter(({ pool }) => pool === material);
      // What is drawn later doesn't change what one costs.
      const movements = all.slice(0, all.findLastIndex(({ reason }) => reason === 'bought') + 1);
      const value = total(movements.map((movement) => num(movement.value)));
      return (
        (num(each.value) * value) /
        total(movements.map(({ quantity }) => num(inBaseUnits(quantity))))
      );
    }),
  );
}

describe('costs of the example studio', () => {
  const { products } = productCosts(book, flows, { span: SPAN, by: 'space' });
  const forOne = overheadForOne();

  const lotsOf = (id: string): Lot[] =>
    [...book.pieces.values()].filter((lot) => lot.product === id && inSpan({ date: dayOut(lot) }));
  const whole = products.filter(({ product }) => lotsOf(product.id).every(isWhole));

  it('but for noodle bowls, of which four wait for their glaze, are of whole lots', () => {
    const others = products.filter((cost) => !whole.includes(cost));
    expect(others.map(({ product }) => product.id)).toEqual(['noodle-bowl']);
  });

  it.each(whole.map((cost) => [cost.product.id, cost] as const))(
    'of a %s are all that went into its lots, by the good ones that came out',
    (id, { cost, made, good }) => {
      const lots = lotsOf(id);
      expect(made).toBe(total(lots.map((lot) => lot.made)));
      expect(good).toBe(total(lots.map(goodOf)));
      const spent = total(lots.map((lot) => spentOn(lot, forOne)));
      expect(num(cost.total)).toBeCloseTo(spent / good + packed(id), 8);
    },
  );
});
