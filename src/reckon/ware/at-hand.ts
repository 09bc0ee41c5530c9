/** Pieces at hand for what is wanted: ready in the studio, or under way, by product and glaze. */
import type { Grade } from '../../book.ts';
import type { WareFlow } from '../flows.ts';
import { STUDIO_PLACE, piecesUnderWay, placeKey, type LotState } from './lot.ts';
import { lotsStanding } from './ware.ts';

/** So many pieces of a product that somebody wants. */
export interface WareWanted {
  readonly product: string;
  /** Absent means any. */
  readonly glaze?: string | undefined;
  readonly grade: Grade;
  readonly count: number;
}

/** How what is wanted will be met. */
export interface Met {
  readonly ready: number;
  /** Of work under way, before anything of it is lost. */
  readonly underWay: number;
  readonly toMake: number;
}

/** Pieces of one product with the same glazes. */
interface Pile {
  readonly product: string;
  readonly glazes: readonly string[];
  readonly ready: Record<Grade, number>;
  underWay: number;
}

/**
 * Shares what is at hand among what is wanted, in its order: first what is ready in the studio, then what
 * is under way. Who takes any glaze takes what nobody else asks for by name, as far as there is some.
 * Seconds meet only what is wanted as seconds, for which nobody makes ware.
 */
export function shareAtHand(ware: WareFlow, wanted: readonly WareWanted[]): Met[] {
  const piles = pilesOf(ware);
  const named = new Set(wanted.map(({ product, glaze }) => `${product} ${glaze ?? ''}`));
  const isNamed = ({ product, glazes }: Pile): boolean =>
    glazes.some((glaze) => named.has(`${product} ${glaze}`));
  return wanted.map((each) => {
    const fitting = piles
      .filter((pile) => meets(pile, each))
      .sort((one, other) => Number(isNamed(one)) - Number(isNamed(other)));
    return meet(fitting, each);
  });
}

function pilesOf({ lots }: WareFlow): readonly Pile[] {
  const piles = new Map<string, Pile>();
  for (const state of lotsStanding(lots)) addPieces(piles, state);
  return [...piles.values()];
}

function addPieces(piles: Map<string, Pile>, state: LotState): void {
  const { product } = state.lot;
  const key = `${product} ${state.glaze}`;
  const pile = piles.get(key) ?? {
    product,
    glazes: state.glaze.split(' + '),
    ready: { first: 0, second: 0 },
    underWay: 0,
  };
  piles.set(key, pile);
  pile.underWay += piecesUnderWay(state);
  for (const grade of ['first', 'second'] as const)
    pile.ready[grade] += state.places.get(placeKey(grade, STUDIO_PLACE)) ?? 0;
}

function meets({ product, glazes }: Pile, wanted: WareWanted): boolean {
  return (
    product === wanted.product && (wanted.glaze === undefined || glazes.includes(wanted.glaze))
  );
}

function meet(piles: readonly Pile[], { grade, count }: WareWanted): Met {
  let ready = 0;
  for (const pile of piles) {
    const taken = Math.max(0, Math.min(count - ready, pile.ready[grade]));
    pile.ready[grade] -= taken;
    ready += taken;
  }
  let underWay = 0;
  for (const pile of grade === 'first' ? piles : []) {
    const taken = Math.max(0, Math.min(count - ready - underWay, pile.underWay));
    pile.underWay -= taken;
    underWay += taken;
  }
  return { ready, underWay, toMake: count - ready - underWay };
}
