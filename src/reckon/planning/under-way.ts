/** Work under way, as far as plans go by it: which stage it is at, and from which day on it can be loaded. */
import type { Book } from '../../book.ts';
import { addTo } from '../../grouping.ts';
import { dayNumber } from '../../number/date.ts';
import { leftIn } from '../costs/cost.ts';
import type { Flows } from '../flows.ts';
import { outOn } from '../kilns/out-of-kiln.ts';
import type { KilnPile, LotState } from '../ware/lot.ts';
import { lotsStanding } from '../ware/ware.ts';
import type { KilnAhead } from './kilns-ahead.ts';
import { waitBefore, type Waits } from './waits.ts';
import type { WareSort } from './ware-sort.ts';

/** Pieces of one lot at one stage. */
export interface UnderWay {
  readonly lot: string;
  readonly sort: WareSort;
  /** Its glazes, by which it meets what is wanted. */
  readonly glazes: readonly string[];
  readonly count: number;
  /** Firings that it has had, those that it is in now among them. */
  readonly stage: number;
  /** The day from which on it can be loaded for the next firing, or packed after the last. */
  readonly ready: number;
  /** Whether it is in a kiln, and whether that is once more. */
  readonly inKiln: 'no' | 'firing' | 'refire';
}

/** What the days of work under way go by. */
interface Ahead {
  readonly kilns: readonly KilnAhead[];
  readonly waits: Waits;
  readonly sortOf: (product: string, glaze: string | undefined) => WareSort;
}

/** Everything that is not finished yet, by lot. */
export function underWayOf(book: Book, flows: Flows, ahead: Ahead): UnderWay[] {
  return [...lotsStanding(flows.ware.lots)].flatMap((state) => [
    ...standingPieces(state, flows, ahead),
    ...state.inKiln.map((pile) => inKilnOf(book, { state, pile }, ahead)),
  ]);
}

/** The same by the product. */
export function byProduct(all: readonly UnderWay[]): ReadonlyMap<string, readonly UnderWay[]> {
  const found = new Map<string, UnderWay[]>();
  for (const each of all) addTo(found, each.sort.product, each);
  return found;
}

function commonOf(
  { lot, glaze }: LotState,
  { sortOf }: Ahead,
): Omit<UnderWay, 'count' | 'stage' | 'ready' | 'inKiln'> {
  const glazes = glaze === '' ? [] : glaze.split(' + ');
  return { lot: lot.id, sort: sortOf(lot.product, glazes[0]), glazes };
}

function standingPieces(state: LotState, { stock: { asOf } }: Flows, ahead: Ahead): UnderWay[] {
  const common = commonOf(state, ahead);
  return state.stages.flatMap((batch, stage) => {
    const count = leftIn(batch);
    if (count <= 0) return [];
    const wait = ahead.waits[waitBefore(state.fired, stage)].days;
    const ready = Math.max(dayNumber(asOf), dayNumber(sinceOf(state, stage)) + wait);
    return [{ ...common, count, stage, ready, inKiln: 'no' as const }];
  });
}

/** The day it was made, or last came out of the firing before. */
function sinceOf({ lot, passes }: LotState, stage: number): string {
  const out = passes
    .filter(({ to }) => to === stage && stage > 0)
    .map(({ firing }) => outOn(firing));
  return out.sort().at(-1) ?? lot.date;
}

function inKilnOf(
  book: Book,
  { state, pile }: { readonly state: LotState; readonly pile: KilnPile },
  ahead: Ahead,
): UnderWay {
  const { kilns, waits } = ahead;
  const firing = book.firings.get(pile.firing);
  const kiln = kilns.find(({ id }) => id === firing?.kiln);
  const out = kiln?.freeOn ?? Math.max(...kilns.map(({ freeOn }) => freeOn), 0);
  const isLast = pile.to >= state.fired.length;
  const wait = waits[isLast ? 'packing' : waitBefore(state.fired, pile.to)].days;
  return {
    ...commonOf(state, ahead),
    count: pile.count,
    stage: pile.to,
    ready: out + wait,
    inKiln: pile.from === pile.to ? 'refire' : 'firing',
  };
}
