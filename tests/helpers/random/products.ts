/** The products of a random studio. */
import { randomSource, type RandomSource } from '../random-source.js';
import type { TreeMap } from '../yaml-tree.ts';
import { withChanges } from './changing.ts';
import type { RecipeFacts } from './definitions.ts';
import { FIRST_DAY } from './first-day.ts';
import type { Feature, StudioPlan } from './plan.ts';

export interface GlazeFacts {
  readonly recipe: string;
  /** Dry grams on one piece. */
  readonly each: number;
}

export interface ProductFacts {
  readonly id: string;
  readonly clay?: { readonly material: string; readonly grams: number };
  readonly glazes: readonly GlazeFacts[];
  /** The cone of all its glazes, where it has any. */
  readonly cone: string;
  readonly fired: readonly string[];
  readonly space: number;
  /** In whole money. */
  readonly price: number;
  /** Boxes for one piece. */
  readonly boxes: number;
  /** Whether every line of it names its lot; else none does. */
  readonly named: boolean;
  /** Recipes that its lots may have in place of its own; then every line of it names its glaze. */
  readonly variants: readonly string[];
}

const NAMES = ['mug', 'bowl', 'plate', 'vase', 'tile', 'planter', 'jug', 'dish'];

const SEQUENCES: readonly (readonly string[])[] = [
  ['once'],
  ['bisque', 'glaze', 'lustre'],
  ['bisque', 'glaze', 'glaze'],
  ['bisque', 'raku'],
  ['bisque'],
];

const ORDINARY = ['bisque', 'glaze'];

/** As many products as planned; each has a random source of its own, so that fewer are the same ones. */
export function makeProducts(
  plan: StudioPlan,
  { recipes, minorDigits }: { recipes: readonly RecipeFacts[]; minorDigits: number },
): { facts: ProductFacts[]; records: Record<string, TreeMap> } {
  const facts = NAMES.slice(0, plan.products).map((id) => makeProduct(plan, { id, recipes }));
  const records = facts.map((one) => [one.id, productRecord(one, { plan, minorDigits })] as const);
  return { facts, records: Object.fromEntries(records) };
}

function makeProduct(
  { seed, features }: StudioPlan,
  { id, recipes }: { id: string; recipes: readonly RecipeFacts[] },
): ProductFacts {
  const random = randomSource(seed, 'product', id);
  const has = (feature: Feature): boolean => features.includes(feature);
  const fired = has('fired-otherwise') && random.chance(0.5) ? random.pick(SEQUENCES) : ORDINARY;
  const cone = has('low-fire') && random.chance(0.3) ? '04' : '6';
  const fitting = recipes.filter((recipe) => recipe.kind === 'glaze' && recipe.cone === cone);
  const bare = fired.length === 1 && fired[0] === 'bisque';
  const count = !bare && has('two-glazes') ? random.int(0, 2) : 1;
  const chosen = random.shuffle(fitting).slice(0, bare ? 0 : count);
  const glazes = chosen.map((recipe) => ({ recipe: recipe.id, each: random.int(1, 120) }));
  const varies = has('glaze-variants') && glazes.length === 1 && random.chance(0.5);
  const clays = ['stoneware', 'red-clay', ...(has('clay-recipe') ? ['body'] : [])];
  const clay = { material: random.pick(clays), grams: random.int(90, 1500) };
  return {
    id,
    ...(random.chance(0.9) ? { clay } : {}),
    glazes,
    cone,
    fired,
    space: random.int(1, 12) / 4,
    price: random.int(8, 120) + (has('odd-money') ? random.int(0, 999) / 1000 : 0),
    boxes: has('packing') ? random.int(0, 2) : 0,
    named: has('named-lots') && random.chance(0.5),
    variants: varies ? fitting.map((recipe) => recipe.id) : [],
  };
}

function productRecord(
  product: ProductFacts,
  { plan, minorDigits }: { plan: StudioPlan; minorDigits: number },
): TreeMap {
  const { id, clay, glazes, fired, space, price, boxes } = product;
  const random = randomSource(plan.seed, 'product record', id);
  const money = (share: number): string => (price * share).toFixed(minorDigits);
  const record = {
    name: id,
    clay: clay && { material: clay.material, each: `${clay.grams} g` },
    glazes:
      glazes.length === 0
        ? undefined
        : glazes.map(({ recipe, each }) => ({ recipe, each: `${each} g`, where: 'all over' })),
    fired: fired === ORDINARY && random.chance(0.7) ? undefined : fired,
    space: space === 1 && random.chance(0.5) ? undefined : space,
    minutes: random.chance(0.6) ? random.int(4, 90) : undefined,
    price: money(1),
    wholesale: random.chance(0.5) ? money(0.55) : undefined,
    second: random.chance(0.5) ? money(0.6) : undefined,
    packing: boxes > 0 ? [{ material: 'boxes', each: boxes }] : undefined,
    care: random.chance(0.5) ? ['ornamental'] : undefined,
  };
  const changing = { seed: plan.seed, of: id, first: FIRST_DAY };
  return withChanges(changing, record, (chosen) => changeOf(product, chosen, money));
}

/** Never more clay, glaze or room than before, so that what is sound stays so. */
function changeOf(
  { clay, glazes, space }: ProductFacts,
  random: RandomSource,
  money: (share: number) => string,
): TreeMap {
  const less = random.int(50, 100) / 100;
  return {
    clay:
      clay && random.chance(0.5)
        ? { material: clay.material, each: `${Math.ceil(clay.grams * less)} g` }
        : undefined,
    glazes:
      glazes.length > 0 && random.chance(0.4)
        ? glazes.map(({ recipe, each }) => ({ recipe, each: `${Math.ceil(each * less)} g` }))
        : undefined,
    space: random.chance(0.3) ? space * 0.5 : undefined,
    minutes: random.chance(0.4) ? random.int(4, 90) : undefined,
    price: money(1 + less),
    without: random.chance(0.3) ? ['packing'] : undefined,
  };
}
