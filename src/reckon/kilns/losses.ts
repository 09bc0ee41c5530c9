/** What was lost in firings and outside them, counted by anything that a potter may ask for. */
import { earlierDay } from '../../number/date.js';
import { recordsDated, type DaysUpTo } from '../../among.ts';
import type { Book, Day, Firing, Lot, Product } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import type { LossGroup } from '../../groups.ts';
import { monthOf } from '../../number/date.ts';
import { ONE, decimal, divide, type Decimal } from '../../number/decimal.ts';
import { wilson } from '../../number/statistics.ts';
import { outcomeBy } from './out-of-kiln.ts';
import { causesOf, type Faults } from './loss-causes.ts';
import { countIn } from '../../grouping.ts';

/** Where pieces were lost: before any firing, in a firing of a kind, or when fired once more. */
export type LossStage = 'making' | Firing['kind'] | `${Firing['kind']} refire`;

/** The stages in the order of the work. */
export const LOSS_STAGES: readonly LossStage[] = [
  'making',
  'bisque',
  'glaze',
  'once',
  'lustre',
  'raku',
  'test',
  'bisque refire',
  'glaze refire',
  'once refire',
  'lustre refire',
  'raku refire',
  'test refire',
];

/** Pieces that went through one stage, and what became of them. */
export interface LossCount {
  readonly in: number;
  readonly first: number;
  readonly second: number;
  readonly lost: number;
  /** Seconds and lost. Of one cause all its faults, of which those are only what is certain. */
  readonly faults: number;
}

/** What pieces are counted under. */
export interface LossName {
  /** Empty where there is no name. */
  readonly group: string;
  /** Why: nothing is on record, the ware is of a class or a customer, it has no glaze yet. */
  readonly nameless?: 'unknown' | 'for-others' | 'unglazed';
}

/**
 * A count with its rates, as fractions of 1, and the 95 % Wilson score interval of the loss rate; by
 * cause of the fault rate.
 */
export interface LossRow extends LossCount, LossName {
  readonly stage: LossStage;
  readonly lossRate: Decimal | undefined;
  readonly faultRate: Decimal | undefined;
  readonly low: Decimal | undefined;
  readonly high: Decimal | undefined;
  readonly secondRate: Decimal | undefined;
  /** What each record counts, by its id: firings, or lots for their making. */
  readonly by: ReadonlyMap<string, LossCount>;
}

/** One load line with an outcome, or a lot's making, and all that it can be grouped by. */
export interface LossFact extends LossCount, Faults {
  readonly day: Day;
  readonly stage: LossStage;
  readonly firing: Firing | undefined;
  readonly lot: Lot | undefined;
  readonly product: Product | undefined;
  readonly who: string;
}

/**
 * Every making and every load line with an outcome in the span, as they were known at the end of a
 * day: nothing that is later, even where the span goes on.
 */
export function lossFacts(book: Book, span: DaysUpTo, asOf: Day): LossFact[] {
  const known = { ...span, to: earlierDay(span.to, asOf) };
  const lots = recordsDated(book.pieces, known);
  const firings = recordsDated(book.firings, known);
  return [
    ...lots.map((lot) => makingFact(book, lot, asOf)),
    ...firings.flatMap((firing) => firingFacts(book, firing, asOf)),
  ];
}

/** Counts of the facts by stage and group; a fact with several recipes or causes counts in each. */
export function lossRows(facts: readonly LossFact[], by: LossGroup): LossRow[] {
  const rows = new Map<string, GroupCount>();
  for (const fact of facts) {
    for (const { count, ...name } of groupsOf(fact, by)) {
      const { stage } = fact;
      const key = [stage, name.nameless, name.group].join('\n');
      const by = new Map<string, LossCount>();
      const row = rows.get(key) ?? { stage, ...name, count: NO_LOSSES, by };
      const id = fact.firing?.id ?? fact.lot?.id ?? '';
      rows.set(key, { ...row, count: addCounts(row.count, count) });
      row.by.set(id, addCounts(row.by.get(id) ?? NO_LOSSES, count));
    }
  }
  const counted = by === 'cause' ? withAllIn(rows, facts) : [...rows.values()];
  return counted.map((row) => withRates(row, by));
}

/** A group while it is counted. */
interface GroupCount extends LossName {
  readonly stage: LossStage;
  readonly count: LossCount;
  readonly by: Map<string, LossCount>;
}

/** All facts of one group. */
export interface GroupedFacts extends LossName {
  readonly facts: readonly LossFact[];
}

/** The facts by what they are grouped by, each under all of its groups. */
export function groupedFacts(
  facts: readonly LossFact[],
  by: Exclude<LossGroup, 'cause'>,
): GroupedFacts[] {
  const groups = new Map<string, LossName & { readonly facts: LossFact[] }>();
  for (const fact of facts)
    for (const name of namesOf(fact, by)) {
      const key = [name.nameless, name.group].join('\n');
      const group = groups.get(key) ?? { ...name, facts: [] };
      groups.set(key, group);
      group.facts.push(fact);
    }
  return [...groups.values()];
}

/** All firings together, without makings and refires: a piece is never counted twice in a firing. */
export function lossTotal(facts: readonly LossFact[], by: LossGroup): LossRow {
  const counted = facts.filter((fact) => isFirstFiring(fact.stage));
  const count = counted.reduce<LossCount>(addCounts, NO_LOSSES);
  return withRates({ stage: 'making', group: '', count, by: new Map() }, by);
}

/** Whether a stage is a first firing: neither making nor a refire. */
export function isFirstFiring(stage: LossStage): stage is Firing['kind'] {
  return stage !== 'making' && !stage.endsWith(' refire');
}

/**
 * Share that comes through making and every firing: the product of (1 − loss rate) of its stages, as
 * all that came out of them over all that went in, so that it is rounded once.
 */
export function overallYield(rows: readonly LossRow[]): Decimal {
  const passed = rows
    .filter((row) => row.in > 0 && (row.stage === 'making' || isFirstFiring(row.stage)))
    .sort((a, b) => (a.stage < b.stage ? -1 : 1));
  const product = (counts: readonly number[]): Decimal =>
    counts.reduce((all, count) => all.times(decimal(count)), ONE);
  const out = product(passed.map((row) => row.in - row.lost));
  return divide(out, product(passed.map((row) => row.in)));
}

const NO_LOSSES: LossCount = { in: 0, first: 0, second: 0, lost: 0, faults: 0 };

function makingFact(book: Book, lot: Lot, asOf: Day): LossFact {
  const losses = (lot.lost ?? []).filter(({ date }) => date <= asOf);
  const lost = countIn(losses);
  const causes: Record<string, number> = {};
  for (const { why, count } of losses) causes[why] = (causes[why] ?? 0) + count;
  const product = inForce(book.products.get(lot.product), lot.date);
  return {
    day: lot.date,
    stage: 'making',
    firing: undefined,
    lot,
    product,
    who: lot.product,
    causes,
    lostTo: undefined,
    in: lot.made,
    first: lot.made - lost,
    second: 0,
    lost,
    faults: lost,
  };
}

function firingFacts(book: Book, firing: Firing, asOf: Day): LossFact[] {
  return firing.load.flatMap((line) => {
    const outcome = outcomeBy(asOf, firing, line);
    if (!outcome) return [];
    const lot = line.lot === undefined ? undefined : book.pieces.get(line.lot);
    const stage: LossStage = line.refire === 'yes' ? `${firing.kind} refire` : firing.kind;
    const product = lot && inForce(book.products.get(lot.product), lot.date);
    const causes = line.why ?? {};
    const who = lot?.product ?? line.class ?? line.outside ?? '';
    const what = { day: firing.date, stage, firing, lot, product, who, causes };
    const faults = outcome.second + outcome.lost;
    return [{ ...what, lostTo: line.lostTo, in: line.in, ...outcome, faults }];
  });
}

/**
 * The groups that a fact counts in, and what it counts there. By cause, how many went in is filled in
 * later, since every piece could have come to grief by any cause.
 */
function groupsOf(fact: LossFact, by: LossGroup): (LossName & { count: LossCount })[] {
  if (by === 'cause')
    return causesOf(fact).map(({ cause, ...count }) => ({
      ...nameOr(cause),
      count: { ...NO_LOSSES, ...count },
    }));
  return namesOf(fact, by).map((name) => ({ ...name, count: fact }));
}

function namesOf(fact: LossFact, by: Exclude<LossGroup, 'cause'>): readonly LossName[] {
  const { firing, lot } = fact;
  switch (by) {
    case 'firing':
      return [{ group: fact.stage }];
    case 'kiln':
      return firing ? [{ group: firing.kiln }] : [];
    case 'product':
      return [{ group: fact.who }];
    case 'recipe':
      return recipesOf(fact);
    case 'cone':
      return firing ? [nameOr(firing.cone)] : [];
    case 'maker':
      return [isForOthers(fact) ? FOR_OTHERS : nameOr(lot?.maker)];
    case 'month':
      return [{ group: monthOf(fact.day) }];
    case 'clay-lot':
      return [isForOthers(fact) ? FOR_OTHERS : nameOr(lot?.clay?.lot)];
  }
}

function nameOr(group: string | undefined): LossName {
  return group === undefined ? { group: '', nameless: 'unknown' } : { group };
}

const FOR_OTHERS: LossName = { group: '', nameless: 'for-others' };

/** The book has no maker, clay and glaze of what it fires for a class or a customer. */
function isForOthers({ firing, lot, who }: LossFact): boolean {
  return firing !== undefined && lot === undefined && who !== '';
}

/** Glazes are on a piece from its glazing on; before that none is to blame. */
function recipesOf(fact: LossFact): readonly LossName[] {
  const { stage, lot, product } = fact;
  if (stage === 'making') return [];
  if (isForOthers(fact)) return [FOR_OTHERS];
  if (stage.startsWith('bisque')) return [{ group: '', nameless: 'unglazed' }];
  const glazes = lot?.glazes ?? product?.glazes ?? [];
  const recipes = new Set(glazes.map((glaze) => glaze.recipe));
  return recipes.size === 0 ? [nameOr(undefined)] : [...recipes].map(nameOr);
}

function withAllIn(
  rows: ReadonlyMap<string, GroupCount>,
  facts: readonly LossFact[],
): GroupCount[] {
  const all = new Map<LossStage, number>();
  for (const fact of facts) all.set(fact.stage, (all.get(fact.stage) ?? 0) + fact.in);
  return [...rows.values()].map((row) => {
    const wentIn = all.get(row.stage) ?? 0;
    const first = wentIn - row.count.faults;
    return { ...row, count: { ...row.count, in: wentIn, first } };
  });
}

function addCounts(one: LossCount, other: LossCount): LossCount {
  return {
    in: one.in + other.in,
    first: one.first + other.first,
    second: one.second + other.second,
    lost: one.lost + other.lost,
    faults: one.faults + other.faults,
  };
}

function withRates({ count, ...row }: GroupCount, by: LossGroup): LossRow {
  const { in: of, lost, faults, first, second } = count;
  const interval = wilson(by === 'cause' ? faults : lost, of);
  const rate = (hits: number): Decimal | undefined =>
    of === 0 ? undefined : divide(decimal(hits), decimal(of));
  return {
    ...row,
    ...{ in: of, first, second, lost, faults },
    lossRate: rate(lost),
    faultRate: rate(faults),
    low: interval?.low,
    high: interval?.high,
    secondRate: rate(second),
  };
}
