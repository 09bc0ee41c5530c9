/** The steps that a piece would go through that nothing came out of lately: its recipe, and the usual firings. */
import type { Book, FiringKind, Product } from '../../book.ts';
import { ONE, ZERO, decimal, divide, portion, sum, type Decimal } from '../../number/decimal.ts';
import { NO_MONEY, add, decimalOf, total, type Money } from '../../number/money.ts';
import { inBaseUnits, measureOf, type Measure } from '../../number/measure.ts';
import { inBase, type Quantity } from '../../number/unit.ts';
import { digitsOf } from '../booked.ts';
import { bookOn } from '../../in-force.ts';
import { firingsOf, glazingOf } from '../ware/stages.ts';
import { spaceOf, spaceOfOne, type FiringCost } from '../kilns/firing-cost.ts';
import { isFirstFiring, lossFacts, lossRows, type LossStage } from '../kilns/losses.ts';
import type { Span } from '../../number/date.ts';
import type { Overhead } from './overhead.ts';
import { overheadOfMaking } from './overhead.ts';
import type { PartCosts, Step } from './piece-cost.ts';
import type { Worth } from '../stock/pool.ts';
import { versionOn, weighOut } from '../stock/recipe.ts';
import { BUCKET_UNIT, fits } from '../stock/stock.ts';
import { firingsOn, type Flows } from '../flows.ts';
import { madeOnce } from '../../once.ts';

/** What a step of one kind usually takes and loses, of all ware together. */
interface UsualTake {
  /** Pieces that went in, and how many of them were lost. */
  readonly in: Decimal;
  readonly lost: Decimal;
  /** For the kiln space of one. */
  readonly costs: PartCosts;
  readonly minutes: Decimal;
}

/** How things usually go in a span: by stage, and the overhead that is spread. */
export interface UsualWay {
  readonly book: Book;
  /** The book with its definitions as they are on the flows' day. */
  readonly now: Book;
  readonly flows: Flows;
  readonly overhead: Overhead;
  readonly stageOf: (stage: LossStage) => UsualTake | undefined;
}

/**
 * The usual way of a span. A kind that was not fired in it is as it was in all firings before; one that
 * was never fired costs nothing.
 */
export function usualWay(
  book: Book,
  flows: Flows,
  { span, overhead }: { span: Span; overhead: Overhead },
): UsualWay {
  const lately = usualStages(book, flows, span);
  const before = madeOnce(() => usualStages(book, flows, { from: '0000-01-01', to: span.to }));
  const now = bookOn(book, flows.stock.asOf);
  return {
    book,
    now,
    flows,
    overhead,
    stageOf: (stage) => lately.get(stage) ?? before().get(stage),
  };
}

/** What a quantity costs at today's stock cost; a glaze that was never mixed, at that of its materials. */
export function stockCost(
  book: Book,
  flows: Flows,
  { what, quantity }: { what: string; quantity: Quantity },
): Decimal {
  const stock = flows.stock.pools.get(what);
  if (!stock || !fits(stock, quantity)) return ZERO;
  const unit = stock.pool.cameLast;
  if (unit.value !== NO_MONEY) return costByWorth(book, unit, measureOf(quantity));
  return inBase(quantity.value, quantity.unit).times(unmixedCost(book, flows, what));
}

/** What so much costs by a pool's unit cost, as a ratio. */
function costByWorth(book: Book, { value, quantity }: Worth, amount: Measure): Decimal {
  if (value === NO_MONEY) return ZERO;
  const unit = decimalOf(value, digitsOf(book));
  return portion(unit, inBaseUnits(amount), inBaseUnits(quantity));
}

/** What a product takes by its own recipe that the book has no cost of, since none came in so far. */
export function withoutCost(book: Book, flows: Flows, product: Product): string[] {
  const { clay, glazes = [], packing = [] } = product;
  const lines = [...(clay ? [clay] : []), ...packing].map(
    ({ material, each }) => [material, each] as const,
  );
  const all = [...lines, ...glazes.map(({ recipe, each }) => [recipe, each] as const)];
  const unknown = all.filter(
    ([what, quantity]) =>
      flows.stock.pools.get(what)?.since === undefined &&
      stockCost(book, flows, { what, quantity }).isZero(),
  );
  return [...new Set(unknown.map(([what]) => what))];
}

/** The steps of one piece of a product by its own recipe and clay, with the usual share of each firing. */
export function usualSteps(way: UsualWay, product: Product): Step[] {
  const making = way.stageOf('making');
  const steps = firingsOf(product).map((kind, at, fired) =>
    firingStep(way, product, { kind, isGlazed: at === fired.indexOf(glazingOf(product) ?? kind) }),
  );
  return [ofMany(makingOf(way, product), making), ...steps];
}

function usualStages(book: Book, flows: Flows, span: Span): Map<LossStage, UsualTake> {
  const facts = lossFacts(book, span, flows.stock.asOf);
  const fired = firingsOn(flows.ware, span).filter(({ firing }) => firing.load.length > 0);
  const rows = lossRows(facts, 'firing').filter(
    ({ stage }) => stage === 'making' || isFirstFiring(stage),
  );
  return new Map(
    rows.map((row) => {
      const ofKind = fired.filter(({ firing }) => firing.kind === row.stage);
      const counts = { in: decimal(row.in), lost: decimal(row.lost) };
      return [row.stage, { ...counts, ...usualPerSpace(book, ofKind) }];
    }),
  );
}

/** Firings of a kind, by the space that was loaded in all of them. */
function usualPerSpace(
  book: Book,
  fired: readonly FiringCost[],
): Pick<UsualTake, 'costs' | 'minutes'> {
  const lines = fired.flatMap(({ firing }) => firing.load.map((line) => ({ firing, line })));
  const space = sum(lines.map(({ firing, line }) => spaceOf(book, firing, line)));
  const each = (whole: Decimal): Decimal => (space.isZero() ? ZERO : divide(whole, space));
  const money = (amount: (cost: FiringCost) => Money): Decimal =>
    each(decimalOf(total(fired.map(amount)), digitsOf(book)));
  const costs = {
    energy: money((cost) => add(cost.energyCost ?? NO_MONEY, cost.fuelCost)),
    wear: money((cost) => cost.wearCost),
    supplies: money((cost) => cost.suppliesCost),
    labour: money((cost) => cost.labourCost),
  };
  const hours = sum(fired.map(({ firing }) => firing.tended ?? ZERO));
  return { costs, minutes: each(hours.times(SIXTY)) };
}

const SIXTY = decimal(60);

function makingOf(way: UsualWay, product: Product): Omit<Step, 'in' | 'lost'> {
  const { book, now, flows, overhead } = way;
  const { clay, minutes } = product;
  const labour = divide((minutes ?? ZERO).times(now.studio.labourRate ?? ZERO), SIXTY);
  const costs = {
    clay: clay ? stockCost(book, flows, { what: clay.material, quantity: clay.each }) : ZERO,
    labour,
    overhead: overheadOfMaking(overhead, minutes),
  };
  return { costs, minutes };
}

function firingStep(
  way: UsualWay,
  product: Product,
  { kind, isGlazed }: { kind: FiringKind; isGlazed: boolean },
): Step {
  const usual = way.stageOf(kind);
  const space = spaceOfOne(product, kind);
  const costs = Object.entries(usual?.costs ?? {}).map(
    ([part, cost]) => [part, cost.times(space)] as const,
  );
  const minutes = (usual?.minutes ?? ZERO).times(space);
  const more = {
    glaze: isGlazed ? glazeOf(way, product) : ZERO,
    overhead: (way.overhead.by === 'space' ? space : minutes).times(way.overhead.rate),
  };
  return ofMany({ costs: { ...Object.fromEntries(costs), ...more }, minutes }, usual);
}

function glazeOf({ book, flows }: UsualWay, { glazes = [] }: Product): Decimal {
  return sum(
    glazes.map(({ recipe, each }) => stockCost(book, flows, { what: recipe, quantity: each })),
  );
}

/** What one piece takes, as a step of as many as usually went in, with as many lost: but never all. */
function ofMany(one: Omit<Step, 'in' | 'lost'>, usual: UsualTake | undefined): Step {
  const count = usual?.in.gt(ZERO) ? usual.in : ONE;
  const costs = Object.entries(one.costs).map(([part, cost]) => [part, cost.times(count)] as const);
  const minutes = one.minutes?.times(count);
  const lost = usual?.lost.lt(count) ? usual.lost : ZERO;
  return { in: count, lost, costs: Object.fromEntries(costs), minutes };
}

/** A gram of a glaze by its recipe in force, at the stock cost of its materials. */
export function unmixedCost(book: Book, flows: Flows, id: string): Decimal {
  const recipe = book.recipes.get(id);
  const version = recipe && versionOn(recipe, flows.stock.asOf);
  const one = { value: ONE, unit: BUCKET_UNIT, text: '' };
  const mix = { id, file: '', date: flows.stock.asOf, recipe: id, totalWeight: one };
  const parts = (version && weighOut(mix, version)?.parts) ?? [];
  return sum(
    parts.map(({ material, weight }) => {
      const stock = flows.stock.pools.get(material);
      const isWeighed = stock && fits(stock, { unit: BUCKET_UNIT });
      return isWeighed ? costByWorth(book, stock.pool.cameLast, weight) : ZERO;
    }),
  );
}
