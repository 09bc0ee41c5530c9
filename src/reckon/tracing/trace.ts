/** All that a trace finds: what is in it, what it went into, where the pieces are and who has them. */
import type { Book, Firing, Lot } from '../../book.ts';
import { addTo, grouped } from '../../grouping.ts';
import { byDate, compareTexts } from '../../text-order.ts';
import type { Flows } from '../flows.ts';
import { leftIn } from '../costs/cost.ts';
import type { LotState } from '../ware/lot.ts';
import {
  affectedBy,
  affectedIn,
  firingsOfLots,
  type Affected,
  type AffectedLots,
} from './affected.ts';
import type { Certainty } from './links.ts';
import type { Move } from './moves.ts';
import type { TraceStart } from './start.ts';
import { back, forward, type TraceReach, type ReachedBy } from './reach.ts';
import { suppliesOf, type Supply } from './supplies.ts';
import { usesOf, type MaterialUse } from './uses.ts';
import { whereabouts, type Bounds, type TracedMove, type Whereabouts } from './whereabouts.ts';

/** A supply that was reached. */
export interface TracedSupply extends ReachedBy {
  readonly supply: Supply;
}

/** A use that is of no lot. */
export interface TracedUse extends ReachedBy {
  readonly use: MaterialUse;
}

/** A lot of which pieces have it, or may have. */
export interface TracedLot extends Affected {
  readonly lot: Lot;
  readonly glaze: string;
}

/** Pieces that are somewhere. */
export interface StandingBounds extends Bounds {
  readonly product: string;
  readonly glaze: string;
  /** Empty for the studio. */
  readonly place: string;
  /** The lots that they may be of. */
  readonly lots: readonly string[];
  /** Of unfinished ware: the firings it has had; in the kiln: the firing. */
  readonly stage?: number;
  readonly inKiln?: string;
}

/** Pieces that left, or came back. */
export interface LeftBounds extends Bounds {
  readonly move: Move;
}

/** What a trace finds. */
export interface Trace {
  /** What is in it. */
  readonly sources: readonly TracedSupply[];
  /** The firings of the ware that it begins with. */
  readonly firings: readonly Firing[];
  readonly supplies: readonly TracedSupply[];
  readonly uses: readonly TracedUse[];
  readonly lots: readonly TracedLot[];
  readonly standing: readonly StandingBounds[];
  readonly left: readonly LeftBounds[];
}

/** Follows what an origin names, back and forward, up to the day of the flows. */
export function traced(book: Book, flows: Flows, origin: TraceStart): Trace {
  const isWare = origin.lots !== undefined;
  const reached = forward(book, flows, origin);
  const affected = origin.lots ?? affectedBy(book, reached.uses);
  const before = origin.looksBack ? back(book, flows, startBack(book, origin)) : undefined;
  const lots = tracedLots(book, flows, affected);
  const found = whereabouts(book, flows, new Set(lots.map(({ lot }) => lot.product)));
  const isMeant = ({ id }: Move): boolean => origin.only === undefined || origin.only === id;
  return {
    sources: before ? suppliesIn(book, before) : [],
    firings: isWare && origin.looksBack ? firingsOfLots(book, affected.keys()) : [],
    supplies: isWare ? [] : suppliesIn(book, reached).filter(({ depth }) => depth > 0),
    uses: usesBeside(reached),
    lots,
    standing: origin.only === undefined ? standingOf(flows, lots, found) : [],
    left: leftOf(
      lots,
      found.moves.filter(({ move }) => isMeant(move)),
    ),
  };
}

/** Back from ware: all that is in those lots. */
function startBack(
  book: Book,
  { supplies, lots }: TraceStart,
): { supplies: readonly Supply[]; uses: Map<MaterialUse, Certainty> } {
  const uses = usesOf(book).filter(({ what, by }) => what !== 'mix' && lots?.has(by));
  const certain = ({ by }: MaterialUse): Certainty =>
    (lots?.get(by)?.least ?? 0) > 0 ? 'recorded' : 'possible';
  return { supplies, uses: new Map(uses.map((use) => [use, certain(use)])) };
}

/** The supplies as a tree, each right below the one that it was found by; of one step by day. */
function suppliesIn(book: Book, { supplies }: TraceReach): TracedSupply[] {
  const all = [...suppliesOf(book).values()].flat().flatMap((supply) => {
    const step = supplies.get(supply.key);
    return step ? [{ supply, ...step }] : [];
  });
  const inOrder = all.sort((a, b) => compareTexts(dayAndKey(a), dayAndKey(b)));
  const below = grouped(inOrder, ({ through }) => (supplies.has(through ?? '') ? through : ''));
  const branch = (key: string): TracedSupply[] =>
    (below.get(key) ?? []).flatMap((each) => [each, ...branch(each.supply.key)]);
  return branch('');
}

function dayAndKey({ supply: { day, key } }: TracedSupply): string {
  return day + key;
}

/** Uses in classes, in the studio and in firings: what lots have of it is told of the lots. */
function usesBeside({ uses }: TraceReach): TracedUse[] {
  const beside = [...uses].filter(([{ what }]) => what === 'used' || what === 'supplies');
  return beside
    .map(([use, step]) => ({ use, ...step }))
    .sort((a, b) => compareTexts(a.use.to + a.use.by, b.use.to + b.use.by));
}

function tracedLots(book: Book, { ware, stock }: Flows, affected: AffectedLots): TracedLot[] {
  const lots = [...affected].flatMap(([id, each]) => {
    const lot = book.pieces.get(id);
    return lot && lot.date <= stock.asOf
      ? [{ ...each, lot, glaze: ware.lots.get(id)?.glaze ?? '' }]
      : [];
  });
  return lots.sort((a, b) => byDate(a.lot, b.lot));
}

function leftOf(lots: readonly TracedLot[], moves: readonly TracedMove[]): LeftBounds[] {
  const known = new Map(lots.map((each) => [each.lot.id, each]));
  return moves
    .filter(({ move }) => !STAYING.has(move.way))
    .map(({ move, of }) => {
      const own = of.flatMap(({ lot, ...bounds }) => {
        const each = known.get(lot);
        return each ? [affectedIn(each.lot, each, bounds)] : [];
      });
      return {
        move,
        least: sumOfBounds(own, 'least'),
        most: Math.min(move.count, sumOfBounds(own, 'most')),
      };
    })
    .filter(({ most }) => most > 0);
}

/** Moves by which pieces stay the studio's. */
const STAYING: ReadonlySet<Move['way']> = new Set(['finished', 'there', 'sent', 'back', 'found']);

/** The sum of all that is the least, or the most. */
export function sumOfBounds(all: readonly Bounds[], key: keyof Bounds): number {
  return all.reduce((sum, each) => sum + each[key], 0);
}

function standingOf(
  flows: Flows,
  lots: readonly TracedLot[],
  found: Whereabouts,
): StandingBounds[] {
  const underway = lots.flatMap((each) => {
    const state = flows.ware.lots.get(each.lot.id);
    return state ? unfinishedOf(state, each) : [];
  });
  return [...underway, ...finishedOf(lots, found)].filter(({ most }) => most > 0);
}

function unfinishedOf(state: LotState, traced: TracedLot): StandingBounds[] {
  const { lot, glaze } = traced;
  const piles = [
    ...state.stages.map((batch, stage) => ({ count: leftIn(batch), stage, at: stage, inKiln: {} })),
    ...state.inKiln
      .filter(({ from }) => from < state.fired.length)
      .map(({ count, to: at, firing }) => ({ count, at, inKiln: { inKiln: firing } })),
  ].filter(({ at }) => at >= traced.stage);
  return piles.map(({ count, inKiln, at }) => ({
    ...affectedIn(lot, traced, { least: count, most: count }),
    product: lot.product,
    glaze,
    place: '',
    lots: [lot.id],
    stage: at,
    ...inKiln,
  }));
}

/** Nobody can tell lots of one product and glaze apart on a shelf, so they stand together. */
function finishedOf(lots: readonly TracedLot[], { places, most }: Whereabouts): StandingBounds[] {
  const known = new Map(lots.map((each) => [each.lot.id, each]));
  const groups = new Map<string, { traced: TracedLot; place: string; bounds: Bounds }[]>();
  for (const { lot: id, place, ...there } of places) {
    const traced = known.get(id);
    if (!traced) continue;
    const { lot, glaze } = traced;
    const bounds = affectedIn(lot, traced, there);
    if (bounds.most > 0)
      addTo(groups, `${lot.product}\n${glaze}\n${place}`, { traced, place, bounds });
  }
  return [...groups.keys()].sort().flatMap((key) => {
    const group = groups.get(key) ?? [];
    const [product = '', glaze = '', place = ''] = key.split('\n');
    const all = group.map(({ bounds }) => bounds);
    return [
      {
        product,
        glaze,
        place,
        lots: group.map(({ traced }) => traced.lot.id),
        least: sumOfBounds(all, 'least'),
        most: Math.min(sumOfBounds(all, 'most'), most({ product, glaze, place })),
      },
    ];
  });
}
