/** What each claim about ware rests on: which test is on record, and what it comes to. */
import type { Care, Day, LeachLimits, NamedBook, Product, Recipe, Test } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { versionOn } from '../stock/recipe.ts';
import { heldAgainst, parseLeached, type Held, type Leached } from './leached.ts';
import { isMethodOf, limitsOf } from './limits.ts';
import {
  differingIn,
  glazesEverOn,
  leachTestsOf,
  recipesIn,
  wareTested,
  type ClaimBook,
  type ClaimedWare,
  type Differing,
} from './leach-tests.ts';

/**
 * What is on record for a claim, or for one glaze of it. `on-record`: a test that no limit says anything
 * of; `of-another`: tests of another version, cone or clay alone.
 */
export type ClaimOutcome = Held | 'on-record' | 'of-another' | 'none';

/** What a claim, or one glaze of it, rests on. */
export interface ClaimEvidence {
  readonly outcome: ClaimOutcome;
  /** The test that says so; of several the worst that is over a limit, else the newest. */
  readonly test?: Test;
  /** Why it can't be compared. */
  readonly lacks?: Incomparable;
  /** In what the tests differ from the ware that is made now. */
  readonly differs?: readonly Differing[];
  /** Whether the test failed: over a limit, or with the verdict no. */
  readonly isFailed: boolean;
}

/** What keeps a result from being held against a limit. */
export type Incomparable = 'ware' | 'limit' | 'other-ware' | 'amount' | 'method';

const NO_TEST: ClaimEvidence = { outcome: 'none', isFailed: false };

/** A claim about a product. */
export interface Claim {
  readonly product: Product;
  readonly care: Care;
  /** Of food: one of the glazes that were ever on it. */
  readonly recipe?: Recipe;
  readonly evidence: ClaimEvidence;
}

/** Every claim of the products on a day; one for food once for each glaze. */
export function claimsOn(book: ClaimBook, day: Day): readonly Claim[] {
  return [...book.products.values()].flatMap((each) => claimsOf(book, inForce(each, day), day));
}

/** The claims of one product, as it is on the day. */
export function claimsOf(book: ClaimBook, product: Product, day: Day): readonly Claim[] {
  const uses = (product.care ?? []).filter((care) => care !== 'ornamental');
  return uses.flatMap((care): Claim[] => {
    const bare: Claim = { product, care, evidence: useEvidence(book, { product, care }, day) };
    const glazes = care === 'food' ? glazesEverOn(book, product) : [];
    if (glazes.length === 0) return [bare];
    return glazes.map((recipe) => ({
      ...bare,
      recipe,
      evidence: leachEvidence(book, { product, recipe, version: versionOn(recipe, day) }, day),
    }));
  });
}

/** What the leach tests of a glaze come to for a product. */
export function leachEvidence(book: ClaimBook, ware: ClaimedWare, day: Day): ClaimEvidence {
  const all = (leachTestsOf(book).get(ware.recipe.id) ?? []).filter(({ date }) => date <= day);
  const [newest] = all;
  if (!newest) return NO_TEST;
  const own = all.filter((test) => differingIn(book, test, ware).length === 0);
  const [first] = own;
  if (!first) {
    const differs = differingIn(book, newest, ware);
    return { outcome: 'of-another', test: newest, differs, isFailed: false };
  }
  const limits = limitsOf(book.studio);
  if (!limits) return { outcome: 'on-record', test: first, isFailed: isRefused(first) };
  return worst(own.map((test) => judged(book, { test, ware, limits })));
}

/** A test that is over a limit holds until the glaze has another version; else the best that there is. */
function worst(all: readonly ClaimEvidence[]): ClaimEvidence {
  const order: readonly ClaimOutcome[] = ['over', 'under', 'too-coarse', 'not-comparable'];
  const found = order.flatMap((wanted) => all.find(({ outcome }) => outcome === wanted) ?? []);
  return found[0] ?? NO_TEST;
}

interface TestToHold {
  readonly test: Test;
  readonly ware: ClaimedWare;
  readonly limits: LeachLimits;
}

const METALS = ['lead', 'cadmium'] as const;

function judged(book: NamedBook, judging: TestToHold): ClaimEvidence {
  const { test, limits } = judging;
  const lacks = lackingIn(book, judging);
  if (lacks !== undefined) {
    if (!isOverAsTested(book, judging))
      return { outcome: 'not-comparable', test, lacks, isFailed: isRefused(test) };
    const why = lacks === 'limit' ? 'other-ware' : lacks;
    return { outcome: 'over', test, lacks: why, isFailed: true };
  }
  const held = METALS.map((metal) => heldOf(judging, metal));
  const order: readonly Held[] = ['over', 'not-comparable', 'too-coarse', 'under'];
  const outcome = order.find((each) => held.includes(each)) ?? 'not-comparable';
  if (outcome === 'over') return { outcome, test, isFailed: true };
  const isKnown = isMethodOf(limits, test.leach?.method);
  const why = isKnown ? (outcome === 'not-comparable' ? 'amount' : undefined) : 'method';
  const found = isKnown ? outcome : 'not-comparable';
  return { outcome: found, test, ...(why && { lacks: why }), isFailed: isRefused(test) };
}

function lackingIn(book: NamedBook, { test, ware, limits }: TestToHold): Incomparable | undefined {
  const sort = ware.product.ware;
  const tested = wareTested(book, test);
  if (sort === undefined || tested === undefined) return 'ware';
  if (!limits.limits.some((each) => each.ware === sort)) return 'limit';
  return sort === tested ? undefined : 'other-ware';
}

/** Whether it is over the limits of the ware that was tested: what failed on a mug clears no bowl. */
function isOverAsTested(book: NamedBook, judging: TestToHold): boolean {
  const { test, ware } = judging;
  const sort = wareTested(book, test);
  if (sort === undefined) return false;
  const asTested = { ...judging, ware: { ...ware, product: { ...ware.product, ware: sort } } };
  return METALS.some((metal) => heldOf(asTested, metal) === 'over');
}

/** A sheet that has no limit for a metal asks for nothing of it. */
function heldOf({ test, ware, limits }: TestToHold, metal: (typeof METALS)[number]): Held {
  const limit = limits.limits.find(
    (each) => each.ware === ware.product.ware && each.metal === metal,
  );
  if (!limit) return 'under';
  const found = leachedOf(test, metal);
  return found ? heldAgainst(limit, found) : 'not-comparable';
}

/** What was found of a metal in each specimen; undefined where it isn't on record, or is in words. */
function leachedOf(
  { leach = {} }: Test,
  metal: (typeof METALS)[number],
): readonly Leached[] | undefined {
  const { specimens = [leach] } = leach;
  const texts = specimens.flatMap((each) => each[metal] ?? []);
  const found = texts.flatMap((text) => parseLeached(text) ?? []);
  return found.length > 0 && found.length === specimens.length ? found : undefined;
}

function isRefused({ verdict }: Test): boolean {
  return verdict === 'no';
}

/** Which tests a claim other than food rests on; of a microwave the book knows none. */
const TESTED_BY: Readonly<Partial<Record<Care, readonly Test['kind'][]>>> = {
  oven: ['oven', 'fit'],
  dishwasher: ['dishwasher'],
};

/** The newest test of the product, or of one of its glazes. */
function useEvidence(
  book: ClaimBook,
  { product, care }: Pick<Claim, 'product' | 'care'>,
  day: Day,
): ClaimEvidence {
  const kinds = TESTED_BY[care] ?? [];
  const glazes = new Set((product.glazes ?? []).map(({ recipe }) => recipe));
  const isOf = (test: Test): boolean => {
    const lot = book.pieces.get(test.lot ?? '');
    if (lot) return lot.product === product.id;
    return recipesIn(book, test).some((id) => glazes.has(id));
  };
  const [newest] = [...book.tests.values()]
    .filter((test) => kinds.includes(test.kind) && test.date <= day && isOf(test))
    .sort((a, b) => (a.date < b.date ? 1 : -1));
  if (!newest) return NO_TEST;
  return { outcome: 'on-record', test: newest, isFailed: isRefused(newest) };
}
