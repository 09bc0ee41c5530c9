/** What follows from a change: the figures that come out otherwise, before and after. */
import { recordsDuring } from '../among.ts';
import type { Book, Day, Kind } from '../book.ts';
import { decimal } from '../number/decimal.ts';
import { addDays } from '../number/date.ts';
import { total } from '../number/money.ts';
import { inUnit } from '../number/measure.ts';
import { booked } from '../reckon/booked.ts';
import { invoiceTotal } from '../reckon/sales/debts.ts';
import { flow } from '../reckon/flow.ts';
import type { Flows } from '../reckon/flows.ts';
import { isFirstFiring, lossFacts, lossRows } from '../reckon/kilns/losses.ts';
import { productCosts } from '../reckon/costs/product-cost.ts';
import { piecesOf, readyWare } from '../reckon/ware/standing.ts';
import { spentIn } from '../reckon/tax/tax-expenses.ts';
import { quarterOn, type TaxPeriod } from '../reckon/tax/tax-period.ts';
import { countingDay, countsIn, type Billed } from '../reckon/tax/tax-view.ts';
import { STANDING, standingValue } from '../reckon/stock/where.ts';
import { STANDING_WORDS } from '../report/goods-words.ts';
import type { RecordChange } from './changes.ts';
import { daysOf } from './days.ts';
import { moneyFigure, type Consequence, type SideFigure } from './figures.ts';
import { INCOME_FIGURES, incomeFigures } from './income-figures.ts';

/** Kinds that no figure here rests on. */
const WITHOUT_FIGURES: ReadonlySet<Kind | 'studio'> = new Set([
  'tests',
  'orders',
  'fairs',
  'filed',
]);

/** Kinds whose change can alter the income of any quarter. */
const EVERYWHERE: ReadonlySet<Kind | 'studio'> = new Set([
  'channels',
  'classes',
  'studio',
  'advances',
]);

/**
 * The figures of both books on one day that differ: money by quarter (income after discounts and
 * returns, what selling cost, the margin of up to a year's quarters, expenses and purchases by the
 * day that counts on the studio's basis), the material value of what stands in the studio and at
 * galleries, loss rates of first firings, the cost of a good piece over the last 365 days, ware that is
 * ready, materials on hand. What is alike is left out.
 */
export function consequences(
  { old: { book: old }, now: { book: now }, asOf }: TwoBooks,
  changes: readonly RecordChange[],
): Consequence[] {
  if (changes.every(({ kind, became }) => WITHOUT_FIGURES.has(kind) || became === 'moved'))
    return [];
  const quarters = quartersTouched(changes, { old, now }, asOf);
  const asked = { quarters, asOf, isMoneyOnly: changes.every(({ kind }) => kind === 'spent') };
  const renamed = new Map(changes.map(({ was, id }) => [was, id]));
  const before = figuresIn(old, asked).map((each) => ({
    ...each,
    of: renamed.get(each.of) ?? each.of,
  }));
  return differing(before, figuresIn(now, asked));
}

interface TwoBooks {
  readonly old: { readonly book: Book };
  readonly now: { readonly book: Book };
  readonly asOf: Day;
}

/** Which figures are asked for. */
interface AskedFigures {
  readonly quarters: readonly TaxPeriod[];
  readonly asOf: Day;
  /** Whether nothing changed but expenses, which leave stock and ware alone. */
  readonly isMoneyOnly: boolean;
}

/** The figures of one book, as `consequences` tells them apart. */
export function figuresIn(book: Book, asked: AskedFigures): SideFigure[] {
  const { asOf, quarters, isMoneyOnly } = asked;
  if (isMoneyOnly) return [...spentFigures(book, quarters, asOf)];
  const flows = flow(book, asOf);
  return [
    ...incomeFigures(book, flows, quarters),
    ...spentFigures(book, quarters, asOf),
    ...boughtFigures(book, quarters, asOf),
    ...valueFigures(book, flows),
    ...lossFigures(book, asOf),
    ...costFigures(book, flows),
    ...wareFigures(book, flows),
    ...stockFigures(flows),
  ];
}

/** Both sides' figures side by side, without those that are alike. */
function differing(before: readonly SideFigure[], after: readonly SideFigure[]): Consequence[] {
  const keyOf = ({ figure, of, unit = '' }: SideFigure): string => [figure, of, unit].join('\n');
  const old = new Map(before.map((each) => [keyOf(each), each]));
  const now = new Map(after.map((each) => [keyOf(each), each]));
  const order = FIGURE_ORDER.flatMap((figure) =>
    [...new Map([...old, ...now]).entries()].filter(([, each]) => each.figure === figure),
  );
  return order.flatMap(([key, { figure, of, type, unit }]) => {
    const was = old.get(key)?.value;
    const is = now.get(key)?.value;
    const same = was && is ? was.eq(is) : !was && !is;
    const common = { figure, of, type, ...(unit === undefined ? {} : { unit }) };
    return same ? [] : [{ ...common, before: was, after: is }];
  });
}

const VALUE = 'stock at cost';
const EXPENSES = 'expenses';
const PURCHASES = 'purchases';
const LOSSES = 'loss rate';
const COST_OF_A_PIECE = 'cost of a piece';
const READY = 'ready to sell';
const ON_HAND = 'on hand';

/** In the order in which they are shown. */
const FIGURE_ORDER: readonly string[] = [
  ...INCOME_FIGURES,
  EXPENSES,
  PURCHASES,
  VALUE,
  LOSSES,
  COST_OF_A_PIECE,
  READY,
  ON_HAND,
];

/** The quarters in which the money of a change can fall; all of the book where it can be any. */
function quartersTouched(
  changes: readonly RecordChange[],
  { old, now }: { readonly old: Book; readonly now: Book },
  asOf: Day,
): TaxPeriod[] {
  const isEverywhere = changes.some(({ kind }) => EVERYWHERE.has(kind));
  const accrues = [old, now].some(
    ({ studio, classes }) => studio.basis === 'accrual' && classes.size > 0,
  );
  const days =
    isEverywhere || (accrues && changes.some(({ kind }) => kind === 'sales'))
      ? [...allDays(old), ...allDays(now)]
      : changes.flatMap(({ before, after }) => [...daysOf(before), ...daysOf(after)]);
  const { yearStarts } = now.studio;
  const quarters = new Map<string, TaxPeriod>();
  for (const day of days.filter((each) => each <= asOf).sort()) {
    const quarter = quarterOn(day, yearStarts);
    if (quarter) quarters.set(quarter.name, quarter);
  }
  return [...quarters.values()];
}

function allDays({ sales, advances, classes }: Book): Day[] {
  const money = [...sales.values(), ...advances.values()].flatMap(daysOf);
  const meetings = [...classes.values()].flatMap(({ starts, sessions = 1, meets }) => [
    starts,
    ...(meets ?? Array.from({ length: sessions }, (_, week) => addDays(starts, week * 7))),
  ]);
  return [...money, ...meetings];
}

function spentFigures(book: Book, quarters: readonly TaxPeriod[], asOf: Day): SideFigure[] {
  const billed = billedIn(book, asOf);
  return quarters.map((quarter) => {
    const amounts = spentIn(billed, quarter).map(({ amount }) => booked(book, amount));
    return moneyFigure(book, { figure: EXPENSES, of: quarter.name }, total(amounts));
  });
}

function boughtFigures(book: Book, quarters: readonly TaxPeriod[], asOf: Day): SideFigure[] {
  const billed = billedIn(book, asOf);
  return quarters.map((quarter) => {
    const within = [...recordsDuring(book.bought, quarter)].filter(
      (each) => each.date <= asOf && countsIn(billed, quarter, countingDay(billed, each)),
    );
    const amounts = within.map((each) => invoiceTotal(book, each));
    return moneyFigure(book, { figure: PURCHASES, of: quarter.name }, total(amounts));
  });
}

function billedIn(book: Book, asOf: Day): Billed {
  return { book, asOf, basis: book.studio.basis ?? 'cash' };
}

function valueFigures(book: Book, flows: Flows): SideFigure[] {
  const standing = standingValue(flows);
  return [
    ...STANDING.map((place) =>
      moneyFigure(book, { figure: VALUE, of: STANDING_WORDS[place] }, standing[place]),
    ),
    moneyFigure(book, { figure: VALUE, of: 'all together' }, total(Object.values(standing))),
  ];
}

function lossFigures(book: Book, asOf: Day): SideFigure[] {
  const facts = lossFacts(book, { to: asOf }, asOf).filter(
    ({ stage }) => stage === 'making' || isFirstFiring(stage),
  );
  return lossRows(facts, 'firing').map(({ stage, lossRate }) => ({
    figure: LOSSES,
    of: stage,
    type: 'fraction',
    value: lossRate,
  }));
}

const YEAR_OF_DAYS = 365;

function costFigures(book: Book, flows: Flows): SideFigure[] {
  const { asOf } = flows.stock;
  const span = { from: addDays(asOf, 1 - YEAR_OF_DAYS), to: asOf };
  const { products } = productCosts(book, flows, { span, by: 'space' });
  return products.map(({ product, cost }) => ({
    figure: COST_OF_A_PIECE,
    of: product.id,
    type: 'rate' as const,
    value: cost.total,
  }));
}

function wareFigures(book: Book, { ware }: Flows): SideFigure[] {
  const counts = new Map<string, number>();
  for (const ready of readyWare(book, ware))
    counts.set(ready.product, (counts.get(ready.product) ?? 0) + piecesOf(ready));
  return [...book.products.keys()].map((of) => ({
    figure: READY,
    of,
    type: 'count',
    value: decimal(counts.get(of) ?? 0),
  }));
}

function stockFigures({ stock }: Flows): SideFigure[] {
  return [...stock.pools.values()].flatMap(({ id, material, pool }) =>
    material
      ? [
          {
            figure: ON_HAND,
            of: id,
            type: 'quantity' as const,
            unit: material.unit,
            value: inUnit(pool.onHand, material.unit),
          },
        ]
      : [],
  );
}
