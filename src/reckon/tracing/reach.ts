/** Forward from supplies to all that they went into, and back from uses to all that is in them. */
import type { Book } from '../../book.ts';
import type { Flows } from '../flows.ts';
import { linkTo, weaker, type Certainty } from './links.ts';
import { clayIn } from './reclaim.ts';
import { suppliesOf, type Supply } from './supplies.ts';
import { usesOf, type MaterialUse } from './uses.ts';

/** How far a trace has come: everything that it reached, with how sure that is. */
export interface TraceReach {
  /** Supply → how sure, and how many steps from where the trace began. */
  readonly supplies: Map<string, ReachedBy>;
  readonly uses: Map<MaterialUse, ReachedBy>;
}

/** A step of a trace. */
export interface ReachedBy {
  readonly certainty: Certainty;
  /** How many steps from where it began. */
  readonly depth: number;
  /** Key of the supply by which it was first found; absent where the trace begins with it, or with ware. */
  readonly through?: string | undefined;
}

/** What a trace begins with. */
export interface ReachStart {
  readonly supplies: readonly Supply[];
  /** Uses that have some of it, or may have. */
  readonly uses: ReadonlyMap<MaterialUse, Certainty>;
}

/** Everything that supplies went into: mixes, reclaimed clay, lots, firings and other uses. */
export function forward(book: Book, flows: Flows, start: ReachStart): TraceReach {
  const reached: TraceReach = {
    supplies: new Map(start.supplies.map(({ key }) => [key, START])),
    uses: new Map(),
  };
  for (const [use, certainty] of start.uses) reach(reached, use, { certainty, depth: 1 });
  for (let depth = 1; widen(book, flows, { reached, depth }); depth += 1);
  return reached;
}

const START: ReachedBy = { certainty: 'recorded', depth: 0 };

interface Widening {
  readonly reached: TraceReach;
  readonly depth: number;
}

/** Goes one step on; false where there was nothing more to find. */
function widen(book: Book, flows: Flows, { reached, depth }: Widening): boolean {
  const known = certainties(reached);
  let isMore = false;
  for (const use of usesOf(book)) {
    const link = linkTo(book, known, use);
    if (link !== undefined && reach(reached, use, { certainty: link, depth })) isMore = true;
  }
  return reclaimedFrom(book, flows, { reached, depth }) || isMore;
}

function certainties({ supplies }: TraceReach): ReadonlyMap<string, Certainty> {
  return new Map([...supplies].map(([key, { certainty }]) => [key, certainty]));
}

/** Notes a use, and the mix that it makes; false where it was known to be as sure. */
function reach(
  reached: TraceReach,
  use: MaterialUse,
  { certainty, depth, through }: ReachedBy,
): boolean {
  if (!isNews(reached.uses.get(use), certainty)) return false;
  const known = reached.uses.get(use)?.depth ?? depth;
  reached.uses.set(use, { certainty, depth: known });
  if (use.what !== 'mix') return true;
  const mix = reached.supplies.get(use.by);
  if (isNews(mix, certainty))
    reached.supplies.set(use.by, { ...(mix ?? { depth, through }), certainty });
  return true;
}

function isNews(known: ReachedBy | undefined, certainty: Certainty): boolean {
  if (known === undefined) return true;
  return known.certainty === 'possible' && certainty === 'recorded';
}

/** Reclaimed clay that may have in it what was thrown of the clay; it is never more than possible. */
function reclaimedFrom(book: Book, flows: Flows, { reached, depth }: Widening): boolean {
  let isMore = false;
  const batches = [...suppliesOf(book).values()].flat().filter(({ kind }) => kind === 'reclaimed');
  for (const batch of batches) {
    if (reached.supplies.has(batch.key)) continue;
    if (!clayIn(book, flows, batch).some((use) => reached.uses.has(use))) continue;
    reached.supplies.set(batch.key, { certainty: 'possible', depth });
    isMore = true;
  }
  return isMore;
}

/** Everything that is in those uses, and in the supplies: mixes, reclaimed clay, and the bags behind them. */
export function back(book: Book, flows: Flows, start: ReachStart): TraceReach {
  const reached: TraceReach = { supplies: new Map(), uses: new Map() };
  for (const supply of start.supplies) goBack(book, flows, { reached, supply, step: START });
  for (const [use, certainty] of start.uses)
    backFrom(book, flows, { reached, use, step: { certainty, depth: 0 } });
  for (const { key } of start.supplies) reached.supplies.delete(key);
  return reached;
}

function backFrom(
  book: Book,
  flows: Flows,
  { reached, use, step }: { reached: TraceReach; use: MaterialUse; step: ReachedBy },
): void {
  if (!isNews(reached.uses.get(use), step.certainty)) return;
  reached.uses.set(use, step);
  const { depth, through } = step;
  for (const supply of suppliesOf(book).get(use.pool) ?? []) {
    const link = linkTo(book, new Map([[supply.key, 'recorded']]), use);
    if (link === undefined) continue;
    const certainty = weaker(link, step.certainty);
    goBack(book, flows, { reached, supply, step: { certainty, depth: depth + 1, through } });
  }
}

function goBack(
  book: Book,
  flows: Flows,
  { reached, supply, step }: { reached: TraceReach; supply: Supply; step: ReachedBy },
): void {
  const known = reached.supplies.get(supply.key);
  if (!isNews(known, step.certainty)) return;
  const { certainty } = step;
  const { depth } = known ?? step;
  const here = { depth, through: supply.key };
  reached.supplies.set(supply.key, { ...(known ?? step), certainty });
  for (const use of usesBehind(book, supply))
    backFrom(book, flows, { reached, use, step: { ...here, certainty } });
  if (supply.kind !== 'reclaimed') return;
  for (const use of clayIn(book, flows, supply))
    backFrom(book, flows, { reached, use, step: { ...here, certainty: 'possible' } });
}

function usesBehind(book: Book, { kind, key }: Supply): readonly MaterialUse[] {
  return kind === 'mix' ? usesOf(book).filter(({ what, by }) => what === 'mix' && by === key) : [];
}
