/** A lot as it stands: how many pieces there are at each stage, grade and place, and what they carry. */
import type { Day, Firing, FiringKind, Grade, LoadLine, Lot, Product } from '../../book.ts';
import { countIn } from '../../grouping.ts';
import { NO_MONEY, type Money } from '../../number/money.ts';
import {
  NO_COST,
  batchOf,
  leftIn,
  materialOf,
  restOf,
  shareCost,
  type Batch,
  type Cost,
  type Pieces,
} from '../costs/cost.ts';
import { firingsOf, type LotStep, type StageHistory } from './stages.ts';

/** A load line that went into the kiln and is not out of it yet. */
export interface KilnPile extends Pieces {
  readonly firing: string;
  readonly line: LoadLine;
  /** Stages before and behind, and what was added, as in `LotPass`. */
  readonly from: number;
  readonly to: number;
  readonly added: Cost;
}

/** One load line of a lot that has come out: what went through which stages, and what was added there. */
export interface LotPass {
  readonly firing: Firing;
  readonly line: LoadLine;
  /** Stages before and behind; the same for a refire and a test, which leave the pieces where they were. */
  readonly from: number;
  readonly to: number;
  /** The line's share of the firing, and its glaze. */
  readonly added: Cost;
}

/** Pieces lost outside firings, at the stage where they stood. */
export interface LostOutside {
  readonly day: Day;
  readonly stage: number;
  readonly count: number;
}

/** The studio itself as a place for finished ware; galleries are named by their channel's id. */
export const STUDIO_PLACE = '';

/** One lot as it stands. */
export interface LotState {
  readonly lot: Lot;
  /** As it was on the day that the lot was made. */
  readonly product: Product | undefined;
  /** The recipes that are on it, the lot's or else its product's: `sea-green + rust`; empty for none. */
  readonly glaze: string;
  /** The kinds of firing that it goes through. */
  readonly fired: readonly FiringKind[];
  /** Whether it was there when the book began: what its making took is not known. */
  readonly wasThere: boolean;
  /** What its making cost. */
  readonly making: Cost;
  /** Greenware first, then what came out of each firing but the last. */
  readonly stages: Batch[];
  /** Finished ware. */
  shelf: Batch;
  readonly inKiln: KilnPile[];
  /** Finished ware by grade and place; together as many as are left on the shelf. */
  readonly places: Map<string, number>;
  readonly steps: LotStep[];
  readonly passes: LotPass[];
  readonly lostOutside: LostOutside[];
  /** By its lines of what is gone, the cost of the finished pieces that left without a sale. */
  readonly gone: (Cost | undefined)[];
  finishedOn: Day | undefined;
}

/** A lot as it begins. */
export function lotState(lot: Lot, product: Product | undefined, made?: Pieces): LotState {
  const fired = firingsOf(product);
  const stages = fired.map(() => batchOf(0, NO_COST));
  if (made) stages[0] = batchOf(made.count, made.cost);
  const uses = lot.glazes ?? product?.glazes ?? [];
  return {
    lot,
    product,
    glaze: [...new Set(uses.map(({ recipe }) => recipe))].join(' + '),
    fired,
    wasThere: made === undefined,
    making: made?.cost ?? NO_COST,
    stages,
    shelf: batchOf(0, NO_COST),
    inKiln: [],
    places: new Map(),
    steps: made ? [{ stage: 0, change: made.count, by: 'made' }] : [],
    passes: [],
    lostOutside: [],
    gone: [],
    finishedOn: undefined,
  };
}

/** How many pieces stand at a stage; the one after the last firing is the shelf. */
export function countAt(state: LotState, stage: number): number {
  const batch = stage === state.fired.length ? state.shelf : state.stages[stage];
  return batch ? leftIn(batch) : 0;
}

/** How many pieces wait for a step or a firing, or are in one. */
export function piecesUnderWay({ stages, inKiln }: Pick<LotState, 'stages' | 'inKiln'>): number {
  return stages.reduce((all, batch) => all + leftIn(batch), countIn(inKiln));
}

/** The first stage at which pieces stand; undefined for none. */
export function firstStanding(state: LotState): number | undefined {
  const stages = [...state.stages.keys(), state.fired.length];
  return stages.find((stage) => countAt(state, stage) > 0);
}

/** How the book comes to the count at a stage; without one, at several. */
export function historyOf({ fired, steps }: LotState, stage: number | undefined): StageHistory {
  if (stage === undefined) return { fired, steps: [] };
  return { fired, stage, steps: steps.filter((step) => step.stage === stage) };
}

// Most ware stands in the studio, and is looked for there again and again.
const STUDIO_KEYS: Readonly<Record<Grade, string>> = { first: 'first ', second: 'second ' };

/** Key of finished ware of one grade at one place. */
export function placeKey(grade: Grade, place: string): string {
  return place === STUDIO_PLACE ? STUDIO_KEYS[grade] : `${grade} ${place}`;
}

/** Finished pieces of a lot, of both grades, that stand at one place. */
export function piecesAt({ places }: Pick<LotState, 'places'>, place: string): number {
  const there = (grade: Grade): number => places.get(placeKey(grade, place)) ?? 0;
  return there('first') + there('second');
}

/** Whether pieces of a lot are anywhere. */
export function isStanding({ stages, inKiln, shelf, places }: LotState): boolean {
  if (inKiln.length > 0 || leftIn(shelf) > 0) return true;
  return (
    stages.some((batch) => leftIn(batch) > 0) || [...places.values()].some((count) => count !== 0)
  );
}

/** Finished pieces of one lot, grade and place. */
interface PlacedPieces extends Pieces {
  readonly grade: Grade;
  readonly place: string;
}

/**
 * All finished pieces of a lot are one batch, whatever their grade and wherever they stand: so they cost
 * the same, and being sent or coming back moves no money. What a grade at a place holds of the cost is
 * its share by count, in the order of the studio, then the galleries by id, firsts before seconds.
 */
export function placedPieces(state: LotState): PlacedPieces[] {
  if (leftIn(state.shelf) === 0) return [];
  const placed = placesWith(state).flatMap((place) =>
    (['first', 'second'] as const).flatMap((grade) => {
      const count = state.places.get(placeKey(grade, place)) ?? 0;
      return count === 0 ? [] : [{ grade, place, count }];
    }),
  );
  const costs = shareCost(
    restOf(state.shelf).cost,
    placed.map(({ count }) => BigInt(count)),
  );
  return placed.map((pieces, at) => ({ ...pieces, cost: costs[at] ?? {} }));
}

/** The studio first; its own place is empty, so it comes before every id. */
function placesWith({ places }: LotState): string[] {
  const found = [...places.keys()].map((key) => key.split(' ')[1] ?? STUDIO_PLACE);
  return [...new Set(found)].sort();
}

/** Where material in ware can stand. */
export const WARE_STANDING = ['greenware', 'bisqueware', 'in-kiln', 'studio', 'galleries'] as const;

type WareStanding = (typeof WARE_STANDING)[number];

/** The material in one lot, by where it stands. */
export type LotValue = readonly (readonly [place: WareStanding, value: Money])[];

/** The material in a lot as it stands. */
export function lotValue(state: LotState): LotValue {
  const stages = state.stages.map((batch, stage) => {
    const place = stage === 0 ? 'greenware' : 'bisqueware';
    return [place, materialOf(restOf(batch).cost)] as const;
  });
  const inKiln = state.inKiln.map(({ cost }) => ['in-kiln', materialOf(cost)] as const);
  const finished = placedPieces(state).map(({ place, cost }) => {
    const isHere = place === STUDIO_PLACE;
    const standing = isHere ? 'studio' : 'galleries';
    return [standing, materialOf(cost)] as const;
  });
  return [...stages, ...inKiln, ...finished].filter(([, value]) => value !== NO_MONEY);
}
