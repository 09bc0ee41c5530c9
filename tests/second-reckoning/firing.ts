/** A firing: what it cost, each load line's shares, and what came out (rules 4, 10, 13). */
import type { Book, Firing, LoadLine } from '../../src/book.ts';
import type { GlazeUse } from '../../src/definitions.ts';
import { FREE, add, type Cost } from './costs.ts';
import { energyOf } from './energy.ts';
import { NOTHING, R, count, exact, over, sumOf, times, type Fraction } from './fraction.ts';
import { goodOf, isOut, load, unload } from './loading.ts';
import { comeOut, dayOut, keepInKiln } from './opening.ts';
import type { Lot } from './lots.ts';
import { priceIn } from './money.ts';
import type { FiringResult, LineShares } from './result.ts';
import { largestRemainder } from './shares.ts';
import { causeOf, drawFrom, fitting, goTo, type State } from './state.ts';
import { together, type Part } from './stock.ts';
import { labourRateOn, productOn } from './on-day.ts';

/** A line of the load that counts: pieces of a lot, a class's or a customer's. */
interface Place {
  readonly at: number;
  readonly line: LoadLine;
  readonly lot: Lot | undefined;
  readonly weight: Fraction;
}

const SHARED = ['energy', 'fuel', 'wear', 'supplies', 'labour'] as const;

type Costs = Readonly<Record<(typeof SHARED)[number], bigint>>;

export function fire(state: State, firing: Firing): void {
  const places = placesIn(state, firing);
  const supplies = suppliesOf(state, firing);
  const { cost: energy, known, estimated } = energyOf(state.book, firing);
  const fuel = fuelOf(state, firing);
  const glaze = glazeOf(state, firing, places);
  const wear = wearOf(state.book, firing);
  const labour = R(
    times(exact(firing.tended), priceIn(state.book, labourRateOn(state.book, firing.date))),
  );
  const costs = { energy, fuel, wear, supplies, labour };
  const shares = sharesOf(costs, places);
  const lines = firing.load.map((_, at): LineShares => {
    const place = places.findIndex((one) => one.at === at);
    return { ...(shares[place] ?? NONE), glaze: glaze.get(at) ?? 0n };
  });
  const result: FiringResult = {
    ...{ ...costs, lines },
    ...{ energyKnown: known, energyEstimated: estimated },
  };
  state.firings.set(firing.id, result);
  if (places.length === 0) give(state, firing, { what: 'empty', cost: { ...FREE, ...costs } });
  for (const place of places) settle(state, firing, { place, shares: lines[place.at] ?? NO_LINE });
}

const NONE: Costs = { energy: 0n, fuel: 0n, wear: 0n, supplies: 0n, labour: 0n };
const NO_LINE: LineShares = { ...NONE, glaze: 0n };

function placesIn(state: State, { load: lines }: Firing): Place[] {
  return lines.flatMap((line, at): Place[] => {
    const lot = line.lot === undefined ? undefined : state.lots.get(line.lot);
    const isKnown = lot ?? line.outside ?? state.book.classes.get(line.class ?? '');
    if (isKnown === undefined) return [];
    return [{ at, line, lot, weight: weightOf(state.book, line, lot?.product) }];
  });
}

/** Place in the load → how many firings its pieces had: gone through line by line, as they will be. */
function rehearse(firing: Firing, places: readonly Place[]): Map<number, number> {
  const { date, kind } = firing;
  const copies = new Map<Lot, Lot>();
  const from = new Map<number, number>();
  for (const { at, line, lot } of places) {
    if (!lot) continue;
    const copy = copies.get(lot) ?? copyOf(lot);
    copies.set(lot, copy);
    const loaded = load(copy, line, kind);
    from.set(at, loaded.from);
    if (goodOf(line) > 0 && dayOut(firing) === date) unload(loaded, date, FREE);
  }
  return from;
}

function copyOf(lot: Lot): Lot {
  return { ...lot, stages: [...lot.stages], places: lot.places.map((one) => ({ ...one })) };
}

/** in × space. */
function weightOf(book: Book, line: LoadLine, product: string | undefined): Fraction {
  const made = book.pieces.get(line.lot ?? '')?.date ?? '';
  const space = line.space ?? productOn(book, product, made)?.space;
  return times(count(line.in), space ? exact(space) : count(1));
}

function sharesOf(costs: Costs, places: readonly Place[]): Costs[] {
  const weights = places.map(({ weight }) => weight);
  const shared = SHARED.map((one) => [one, largestRemainder(costs[one], weights)] as const);
  return places.map(
    (_, at) => Object.fromEntries(shared.map(([one, each]) => [one, each[at] ?? 0n])) as Costs,
  );
}

/** Supplies by material, each drawn once; one sum. */
function suppliesOf(state: State, firing: Firing): bigint {
  const parts = (firing.supplies ?? []).flatMap(({ material, quantity }): Part[] => {
    const fits = fitting(state, material, quantity);
    return fits ? [{ material, quantity: fits }] : [];
  });
  return together(parts)
    .map(({ material, quantity }) =>
      drawFrom(state, material, { ...causeOf(firing, 'supplies'), quantity }),
    )
    .reduce((sum, cost) => sum + cost, 0n);
}

function fuelOf(state: State, firing: Firing): bigint {
  const { fuelUsed } = firing;
  if (!fuelUsed || !('material' in fuelUsed)) return 0n;
  const quantity = fitting(state, fuelUsed.material, fuelUsed.quantity);
  if (!quantity) return 0n;
  return drawFrom(state, fuelUsed.material, { ...causeOf(firing, 'fuel'), quantity });
}

/** R(cost ÷ firings) for each part that is in the kiln on the day; one sum. */
function wearOf(book: Book, { kiln, date }: Firing): bigint {
  const parts = (book.kilns.get(kiln)?.wear ?? []).filter(
    ({ fitted = '', replaced }) => fitted <= date && (replaced === undefined || date < replaced),
  );
  return parts
    .filter(({ firings }) => exact(firings).top !== 0n)
    .map(({ cost, firings }) => R(over(priceIn(book, cost), exact(firings))))
    .reduce((sum, each) => sum + each, 0n);
}

const GLAZING: readonly string[] = ['glaze', 'once', 'raku'];

/** Place in the load → what its glaze cost; each recipe is drawn once for the firing. */
function glazeOf(state: State, firing: Firing, places: readonly Place[]): Map<number, bigint> {
  const had = rehearse(firing, places);
  const uses = places.flatMap((place) =>
    glazeUses(state, firing, { place, from: had.get(place.at) ?? 0 }),
  );
  const costs = new Map<number, bigint>();
  for (const recipe of new Set(uses.map((use) => use.recipe))) {
    const some = uses.filter((use) => use.recipe === recipe);
    const quantity = sumOf(some.map((use) => use.quantity));
    const cost = drawFrom(state, recipe, { ...causeOf(firing, 'glaze'), quantity });
    const shares = largestRemainder(
      cost,
      some.map((use) => use.quantity),
    );
    some.forEach(({ at }, index) => costs.set(at, (costs.get(at) ?? 0n) + (shares[index] ?? 0n)));
  }
  return costs;
}

interface LineGlaze {
  readonly at: number;
  readonly recipe: string;
  readonly quantity: Fraction;
}

/**
 * `each` × in at the first glaze firing of the product, or where none is one at its last. Where that
 * kind comes again, only on pieces that have not had the first.
 */
function glazeUses(
  state: State,
  { kind }: Firing,
  { place: { at, line, lot }, from }: { place: Place; from: number },
): LineGlaze[] {
  if (!lot || line.refire === 'yes') return [];
  const { fired } = lot;
  const first = fired.findIndex((one) => GLAZING.includes(one));
  const glazing = first < 0 ? fired.length - 1 : first;
  const isTold = fired.indexOf(kind) === fired.lastIndexOf(kind);
  if (fired[glazing] !== kind || (!isTold && from > glazing)) return [];
  const sums = new Map<string, Fraction>();
  for (const { recipe, each } of glazesOn(state.book, lot.id)) {
    const fits = state.book.recipes.has(recipe) ? fitting(state, recipe, each) : undefined;
    const quantity = times(fits ?? NOTHING, count(line.in));
    if (fits) sums.set(recipe, sumOf([sums.get(recipe) ?? NOTHING, quantity]));
  }
  return [...sums].map(([recipe, quantity]) => ({ at, recipe, quantity }));
}

function glazesOn(book: Book, lot: string): readonly GlazeUse[] {
  const record = book.pieces.get(lot);
  return record?.glazes ?? productOn(book, record?.product, record?.date ?? '')?.glazes ?? [];
}

/** Pieces go in, and what they and their shares come to goes on with what came out good. */
function settle(
  state: State,
  firing: Firing,
  { place, shares }: { place: Place; shares: LineShares },
): void {
  const { line, lot } = place;
  const share = { ...FREE, ...shares };
  if (!lot) {
    give(state, firing, { what: line.class ?? line.outside ?? '', cost: share });
    return;
  }
  const loaded = load(lot, line, firing.kind);
  if (loaded.taken < line.in) state.shortfalls.push({ of: lot.id, record: firing.id });
  const cost = add(loaded.cost, share);
  if (isOut(line) && dayOut(firing) === firing.date) comeOut(state, { firing, loaded, cost });
  else keepInKiln(state, { firing, loaded, cost });
}

function give(state: State, { date, id }: Firing, one: { what: string; cost: Cost }): void {
  goTo(state, 'others', { day: date, record: id, ...one });
}
