/** What a plan takes of materials: needed, on hand, short from which day on, and how it was bought last. */
import { recordsNaming } from '../../among.ts';
import type { Book, BoughtLine, Bought, Firing, Product } from '../../book.ts';
import { addTo } from '../../grouping.ts';
import { dayNumber } from '../../number/date.ts';
import {
  inBaseUnits,
  inUnit,
  measureOf,
  lessOf,
  sumOf,
  NO_QUANTITY,
  type Measure,
} from '../../number/measure.ts';
import { dimensionOf, parseQuantity, type Quantity, type Unit } from '../../number/unit.ts';
import { byDate } from '../../text-order.ts';
import type { Flows } from '../flows.ts';
import { versionOn } from '../stock/recipe.ts';
import { weighedMix } from '../stock/weigh-sheet.ts';
import { glazingOf } from '../ware/stages.ts';
import type { Calendar } from './calendar.ts';
import type { WareGoal } from './goals.ts';
import type { Schedule } from './schedule.ts';

/** So much of a material or a mixed recipe that a plan takes on a day. */
interface PlannedTaking {
  readonly day: number;
  readonly what: string;
  readonly quantity: Measure;
}

/** The last purchase of a material, and what one pack of it was. */
export interface LastBought {
  readonly bought: Bought;
  readonly line: BoughtLine;
  readonly pack: Quantity;
}

/** A material, or a recipe's bucket, that a plan takes from. */
export interface PlannedUse {
  readonly what: string;
  readonly unit: Unit;
  readonly needed: Measure;
  readonly onHand: Measure;
  /** What is missing; nothing where there is enough. */
  readonly short: Measure;
  /** The day on which it runs out; undefined where it doesn't. */
  readonly shortOn: number | undefined;
  /** The last day to order it on; undefined of what is mixed, and of what is enough. */
  readonly orderBy: number | undefined;
  readonly last: LastBought | undefined;
  /** Packs to buy, as it was bought last. */
  readonly packs: number | undefined;
}

/** What is to be bought or mixed. */
export interface Shopping {
  readonly materials: readonly PlannedUse[];
  readonly mixes: readonly PlannedUse[];
}

/** What a plan is made of, as far as its materials go by it. */
interface Planned {
  readonly calendar: Calendar;
  readonly schedule: Schedule;
  readonly goals: readonly WareGoal[];
}

/** What the schedule takes; what buckets lack is weighed out of its materials. */
export function shoppingFor(book: Book, flows: Flows, planned: Planned): Shopping {
  const takings = [
    ...claysOf(book, planned),
    ...glazeTakings(book, planned),
    ...packingOf(book, planned),
    ...suppliesOf(book, planned),
  ].filter(({ what, quantity }) => quantity > NO_QUANTITY && flows.stock.pools.has(what));
  const isMixed = ({ what }: PlannedTaking): boolean => book.recipes.has(what);
  const mixes = plannedUses(book, flows, takings.filter(isMixed));
  const weighed = mixes.flatMap((mix) => materialsOf(book, flows, mix));
  const bought = [...takings.filter((each) => !isMixed(each)), ...weighed];
  return { mixes, materials: plannedUses(book, flows, bought) };
}

function claysOf({ products }: Book, { schedule }: Planned): PlannedTaking[] {
  return schedule.making.flatMap(({ sort, count, day }) => {
    const clay = products.get(sort.product)?.clay;
    return clay ? [{ day, what: clay.material, quantity: measureOf(clay.each, count) }] : [];
  });
}

/** Glaze is put on before the load that melts it. */
function glazeTakings({ products }: Book, { schedule, calendar }: Planned): PlannedTaking[] {
  return schedule.loads.flatMap(({ kind, day, pieces }) =>
    pieces.flatMap(({ sort, count, ready }) => {
      const product = products.get(sort.product);
      if (glazingOf(product) !== kind) return [];
      const on = Math.max(calendar.today, Math.min(day, ready) - calendar.waits.glazing.days);
      return glazesFor(product, sort.glaze).map(({ recipe, each }) => {
        return { day: on, what: recipe, quantity: measureOf(each, count) };
      });
    }),
  );
}

/** A product's glazes; another than these takes the place of its first. */
function glazesFor(
  product: Product | undefined,
  glaze: string | undefined,
): NonNullable<Product['glazes']> {
  const { glazes = [] } = product ?? {};
  const isOwn = glaze === undefined || glazes.some(({ recipe }) => recipe === glaze);
  return isOwn ? glazes : glazes.map((use, at) => (at === 0 ? { ...use, recipe: glaze } : use));
}

/** What is kept ready is packed when it is sold. */
function packingOf({ products }: Book, { goals }: Planned): PlannedTaking[] {
  return goals.flatMap(({ sort, demands }) =>
    demands.flatMap(({ source, due, count }) => {
      if (source === 'keep' || due === undefined) return [];
      const { packing = [] } = products.get(sort.product) ?? {};
      return packing.map(({ material, each }) => {
        return { day: dayNumber(due), what: material, quantity: measureOf(each, count) };
      });
    }),
  );
}

/** Cones and the like: as the last firing of that kind in that kiln took. */
function suppliesOf({ firings }: Book, { schedule }: Planned): PlannedTaking[] {
  if (schedule.loads.length === 0) return [];
  const last = new Map<string, Firing>();
  for (const firing of [...firings.values()].sort(byDate))
    last.set(`${firing.kiln} ${firing.kind}`, firing);
  return schedule.loads.flatMap(({ kiln, kind, day }) =>
    (last.get(`${kiln.id} ${kind}`)?.supplies ?? []).map(({ material, quantity }) => {
      return { day, what: material, quantity: measureOf(quantity) };
    }),
  );
}

function materialsOf(
  book: Book,
  { stock }: Flows,
  { what, short, shortOn }: PlannedUse,
): PlannedTaking[] {
  const recipe = book.recipes.get(what);
  const version = recipe && versionOn(recipe, stock.asOf);
  if (!version || shortOn === undefined || recipe.kind === 'clay') return [];
  const value = inBaseUnits(short);
  const totalWeight = { value, unit: 'g', text: `${value.toFixed()} g` } as const;
  const parts = weighedMix(version, { totalWeight })?.parts ?? [];
  return parts.map(({ material, weight }) => ({ day: shortOn, what: material, quantity: weight }));
}

function plannedUses(book: Book, flows: Flows, takings: readonly PlannedTaking[]): PlannedUse[] {
  const byWhat = new Map<string, PlannedTaking[]>();
  for (const each of takings) addTo(byWhat, each.what, each);
  return [...byWhat].map(([what, some]) => useOf(book, flows, { what, takings: some }));
}

function useOf(
  book: Book,
  { stock }: Flows,
  { what, takings }: { readonly what: string; readonly takings: readonly PlannedTaking[] },
): PlannedUse {
  const { pool, unit = 'g' } = stock.pools.get(what) ?? {};
  const onHand = pool && pool.onHand > NO_QUANTITY ? pool.onHand : NO_QUANTITY;
  let needed = NO_QUANTITY;
  let shortOn: number | undefined;
  for (const { day, quantity } of takings.toSorted((one, other) => one.day - other.day)) {
    needed = sumOf(needed, quantity);
    if (needed > onHand) shortOn ??= day;
  }
  const short = shortOn === undefined ? NO_QUANTITY : lessOf(needed, onHand);
  const use = { what, unit, needed, onHand, short, shortOn };
  if (shortOn === undefined || book.recipes.has(what))
    return { ...use, orderBy: undefined, last: undefined, packs: undefined };
  const last = lastBought(book, what, stock.asOf);
  const packs = last && packsOf(short, last.pack, unit);
  return { ...use, orderBy: shortOn - leadDays(book, what), last, packs };
}

function leadDays({ materials, studio }: Book, material: string): number {
  return materials.get(material)?.leadDays ?? studio.leadDays ?? 0;
}

function packsOf(short: Measure, pack: Quantity, unit: Unit): number | undefined {
  const size = measureOf(pack);
  if (dimensionOf(pack.unit) !== dimensionOf(unit) || size <= NO_QUANTITY) return undefined;
  return Math.ceil(inUnit(short, unit).toNumber() / inUnit(size, unit).toNumber() - A_HAIR);
}

/** A whole number of packs that division leaves a hair above it. */
const A_HAIR = 1e-9;

function lastBought({ bought }: Book, material: string, asOf: string): LastBought | undefined {
  const naming = [...recordsNaming(bought, new Set([material]))]
    .filter(({ date, lines }) => date <= asOf && lines.some((line) => line.material === material))
    .sort(byDate);
  const last = naming.at(-1);
  const line = last?.lines.findLast((each) => each.material === material);
  return last && line && { bought: last, line, pack: packOf(line.quantity) };
}

/** Of `4 x 25 lb`, 25 lb. */
function packOf(quantity: Quantity): Quantity {
  const [, one] = / x (.+)$/.exec(quantity.text) ?? [];
  return (one === undefined ? undefined : parseQuantity(one)) ?? quantity;
}
