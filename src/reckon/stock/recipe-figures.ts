/** What each recipe costs, how much of it is mixed, and how much ware waits for it. */
import type { Book, Recipe, RecipeVersion } from '../../book.ts';
import type { Decimal } from '../../number/decimal.ts';
import { NO_QUANTITY, lessOf, measureOf, sumOf, type Measure } from '../../number/measure.ts';
import { dimensionOf } from '../../number/unit.ts';
import { compareTexts } from '../../text-order.ts';
import { leftIn } from '../costs/cost.ts';
import { unmixedCost } from '../costs/usual-steps.ts';
import type { Flows, WareFlow } from '../flows.ts';
import type { LotState } from '../ware/lot.ts';
import { glazingOf } from '../ware/stages.ts';
import { lotsStanding } from '../ware/ware.ts';
import { versionOn } from './recipe.ts';
import { testsOfRecipes, type RecipeTest } from './recipe-tests.ts';

/** One recipe as it is on a day. */
export interface RecipeFigures {
  readonly recipe: Recipe;
  /** The one in force; undefined where the first is still to come. */
  readonly version: RecipeVersion | undefined;
  /** A gram of it dry by the version in force, at what its materials cost that came in last. */
  readonly perGram: Decimal;
  /** Materials in it of which none ever came in, so that their cost is not known. */
  readonly unpriced: readonly string[];
  /** What its materials contain, each once. */
  readonly contains: readonly string[];
  /** Mixed and not used yet; of a clay recipe the mixed clay. */
  readonly inBucket: Measure;
  readonly waiting: GlazeNeed;
  /** In the bucket once the ware that waits is glazed; below zero where there is too little. */
  readonly left: Measure;
  /** The newest first. */
  readonly tests: readonly RecipeTest[];
}

/** Ware that waits for a glaze: its next firing is the one that it is glazed for. */
interface GlazeNeed {
  readonly pieces: number;
  readonly lots: readonly string[];
  /** Dry weight. */
  readonly needed: Measure;
}

const NOTHING_NEEDED: GlazeNeed = { pieces: 0, lots: [], needed: NO_QUANTITY };

/** Every recipe by its id. */
export function recipeFigures(book: Book, flows: Flows): RecipeFigures[] {
  const needs = glazeNeeds(flows.ware);
  const tests = testsOfRecipes(book, flows);
  return [...book.recipes.values()]
    .sort((one, other) => compareTexts(one.id, other.id))
    .map((recipe) => {
      const inBucket = flows.stock.pools.get(recipe.id)?.pool.onHand ?? NO_QUANTITY;
      const waiting = needs.get(recipe.id) ?? NOTHING_NEEDED;
      const left = lessOf(inBucket, waiting.needed);
      const known = tests.get(recipe.id) ?? [];
      return { recipe, ...madeOf(book, flows, recipe), inBucket, waiting, left, tests: known };
    });
}

function madeOf(
  book: Book,
  flows: Flows,
  recipe: Recipe,
): Pick<RecipeFigures, 'version' | 'perGram' | 'unpriced' | 'contains'> {
  const { asOf, pools } = flows.stock;
  const version = versionOn(recipe, asOf);
  const lines = [...(version?.base ?? []), ...(version?.additions ?? [])];
  const ids = [...new Set(lines.map(({ material }) => material))];
  return {
    version,
    perGram: unmixedCost(book, flows, recipe.id),
    unpriced: ids.filter((id) => pools.get(id)?.since === undefined),
    contains: [...new Set(ids.flatMap((id) => book.materials.get(id)?.contains ?? []))],
  };
}

/** Recipe → the ware that waits for it. */
function glazeNeeds({ lots }: WareFlow): ReadonlyMap<string, GlazeNeed> {
  const needs = new Map<string, GlazeNeed>();
  for (const state of lotsStanding(lots)) addNeeds(needs, state);
  return needs;
}

function addNeeds(needs: Map<string, GlazeNeed>, state: LotState): void {
  const count = waitingForGlaze(state);
  const uses = state.lot.glazes ?? state.product?.glazes ?? [];
  if (count === 0) return;
  for (const { recipe, each } of uses.filter((use) => dimensionOf(use.each.unit) === 'weight')) {
    const { pieces, lots, needed } = needs.get(recipe) ?? NOTHING_NEEDED;
    // A recipe that is on a piece twice has that piece once.
    const isNew = lots.at(-1) !== state.lot.id;
    needs.set(recipe, {
      pieces: isNew ? pieces + count : pieces,
      lots: isNew ? [...lots, state.lot.id] : lots,
      needed: sumOf(needed, measureOf(each, count)),
    });
  }
}

/** Pieces whose next firing is the one that they are glazed for. */
function waitingForGlaze({ fired, product, stages }: LotState): number {
  const batch = stages[fired.findIndex((kind) => kind === glazingOf(product))];
  return batch ? Math.max(0, leftIn(batch)) : 0;
}
