/** The firings that a product goes through, and how pieces come from stage to stage between them. */
import type { CountedWare, Day, FiringKind, Product } from '../../book.ts';

/** The firings of a product when it names none: bisque, then glaze (common practice). */
const ORDINARY_FIRINGS: readonly FiringKind[] = ['bisque', 'glaze'];

/** The kinds of firing that melt a glaze. */
export const GLAZING: readonly FiringKind[] = ['glaze', 'once', 'raku'];

/** The kinds of firing that a product goes through, in order. */
export function firingsOf(product: Product | undefined): readonly FiringKind[] {
  return product?.fired ?? ORDINARY_FIRINGS;
}

/** The firing before which a product is glazed: its first of kind glaze, once or raku, else its last. */
export function glazingOf(product: Product | undefined): FiringKind | undefined {
  const fired = firingsOf(product);
  return fired.find((kind) => GLAZING.includes(kind)) ?? fired.at(-1);
}

/** How many firings ware of a stage has had; undefined where its product has no such stage. */
export function stageOf(
  fired: readonly FiringKind[],
  stage: NonNullable<CountedWare['stage']>,
): number | undefined {
  if (stage === 'finished') return fired.length;
  if (stage === 'greenware') return 0;
  const at = fired.indexOf(stage === 'bisqueware' ? 'bisque' : 'glaze') + 1;
  return at > 0 && at < fired.length ? at : undefined;
}

/** One step in a lot's history, to say how the book comes to a count. */
export interface LotStep {
  readonly stage: number;
  readonly change: number;
  readonly by: 'made' | 'counted' | 'loaded' | 'out' | 'lost';
  /** Of all but the making. */
  readonly day?: Day;
  /** The kind of firing that pieces were loaded for, or came out of. */
  readonly kind?: FiringKind;
}

/** How the book comes to the count at a stage of a lot. */
export interface StageHistory {
  /** The kinds of firing that the lot goes through. */
  readonly fired: readonly FiringKind[];
  /** Absent where pieces are at several stages. */
  readonly stage?: number;
  readonly steps: readonly LotStep[];
  /** Pieces that are in the kiln until a day that the book knows already. */
  readonly inKiln?: { readonly count: number; readonly until: Day } | undefined;
}
