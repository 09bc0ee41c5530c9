/** The definitions of a random studio, as records and as the facts that its days go by. */
import { randomSource, type RandomSource } from '../random-source.js';
import type { TreeMap } from '../yaml-tree.ts';
import type { Feature, StudioPlan } from './plan.ts';
import { withChanges } from './changing.ts';
import { MEETS, classRecord } from './classes.ts';
import { FIRST_DAY } from './first-day.ts';
import { makeProducts, type ProductFacts } from './products.ts';
import { KILN_FACTS, kilnRecord, tariffRecords, type KilnFacts } from './kilns.ts';

export interface MaterialFacts {
  readonly id: string;
  readonly kind: string;
  readonly unit: string;
  /** Units in which it may be bought and used. */
  readonly units: readonly string[];
  /** Money for one unit. */
  readonly price: number;
}

export interface VersionFacts {
  readonly from: string;
  readonly base: readonly (readonly [material: string, parts: number])[];
  readonly additions: readonly (readonly [material: string, percent: number])[];
}

export interface RecipeFacts {
  readonly id: string;
  readonly kind: string;
  readonly cone?: string;
  readonly versions: readonly VersionFacts[];
}

export interface ChannelFacts {
  readonly id: string;
  readonly kind: string;
}

export interface Definitions {
  readonly settings: TreeMap;
  readonly materials: readonly MaterialFacts[];
  readonly recipes: readonly RecipeFacts[];
  readonly products: readonly ProductFacts[];
  readonly kilns: readonly KilnFacts[];
  readonly channels: readonly ChannelFacts[];
  readonly classes: readonly string[];
  readonly minorDigits: number;
  /** Kind → id → record. */
  readonly records: Readonly<Record<string, Readonly<Record<string, TreeMap>>>>;
}

/** A factor to grams, millilitres or pieces. */
export const FACTORS: Readonly<Record<string, number>> = {
  g: 1,
  kg: 1000,
  oz: 28.349523125,
  lb: 453.59237,
  mL: 1,
  L: 1000,
  gal: 3785.411784,
  each: 1,
};

const WEIGHTS = ['kg', 'lb', 'g', 'oz'];

const CURRENCIES = [
  ['JPY', 0],
  ['KWD', 3],
  ['GBP', 2],
] as const;

const MATERIALS: readonly (readonly [id: string, kind: string, price: number])[] = [
  ['stoneware', 'clay', 1.4],
  ['red-clay', 'clay', 0.9],
  ['feldspar', 'dry', 2.2],
  ['quartz', 'dry', 1.5],
  ['chalk', 'dry', 1.3],
  ['kaolin', 'dry', 1.8],
  ['iron-oxide', 'colourant', 4.6],
  ['rutile', 'colourant', 9.8],
  ['shelf-wash', 'other', 6],
];

/** Everything that the plan's studio defines. */
export function define(plan: StudioPlan): Definitions {
  const random = randomSource(plan.seed, 'definitions');
  const has = (feature: Feature): boolean => plan.features.includes(feature);
  const [currency, minorDigits] = has('other-currency')
    ? random.pick(CURRENCIES)
    : (['USD', 2] as const);
  const materials = makeMaterials(random, has);
  const recipes = makeRecipes(random, has);
  const products = makeProducts(plan, { recipes, minorDigits });
  const kilns = KILN_FACTS.filter(({ needs }) => needs === undefined || has(needs));
  const channels = CHANNELS.filter(
    ({ id, kind }) =>
      (kind !== 'consignment' || has('consigned')) && (id !== 'post' || has('tax-in-price')),
  );
  const classes = has('classes') ? ['wheel-evening', 'hand-building'] : [];
  const changing = { seed: plan.seed, first: FIRST_DAY };
  const labour = (chosen: RandomSource): TreeMap => ({
    'labour-rate': chosen.pick(['26', '18.125', '0']),
  });
  return {
    settings: withChanges(
      { ...changing, of: 'settings' },
      settings({ random, has, currency }),
      labour,
    ),
    materials,
    recipes,
    products: products.facts,
    kilns,
    channels,
    classes,
    minorDigits,
    records: {
      materials: Object.fromEntries(materials.map((one) => [one.id, materialRecord(one)])),
      recipes: Object.fromEntries(recipes.map((one) => [one.id, recipeRecord(one)])),
      products: products.records,
      kilns: Object.fromEntries(
        kilns.map((one) => [one.id, kilnRecord(one, { has, minorDigits })]),
      ),
      tariffs: tariffRecords(has),
      channels: Object.fromEntries(
        channels.map((one) => [
          one.id,
          withChanges(
            { ...changing, of: one.id },
            channelRecord(one, { has, minorDigits }),
            (chosen) => channelChange(one, chosen),
          ),
        ]),
      ),
      classes: Object.fromEntries(
        classes.map((id) => [
          id,
          withChanges(
            { ...changing, of: id },
            { ...classRecord(id, minorDigits), meets: has('meets') ? MEETS[id] : undefined },
            (chosen) => ({
              fee: minorDigits === 0 ? '15500' : '160.5',
              places: chosen.int(800, 950),
            }),
          ),
        ]),
      ),
    },
  };
}

function settings({
  random,
  has,
  currency,
}: {
  random: RandomSource;
  has: (feature: Feature) => boolean;
  currency: string;
}): TreeMap {
  return {
    format: 1,
    name: 'A studio made at random',
    currency,
    'year-starts': random.chance(0.3) ? { text: '04-06' } : undefined,
    basis: random.chance(0.5) ? random.pick(['cash', 'accrual']) : undefined,
    'stock-value': has('first-in') ? 'first-in' : random.pick(['average', undefined]),
    'labour-rate': has('labour') ? random.pick(['24', '17.5', '0.125']) : undefined,
    'lead-days': random.chance(0.5) ? 7 : undefined,
    categories: has('spent') ? { 'glaze-books': 'office' } : undefined,
  };
}

function makeMaterials(random: RandomSource, has: (feature: Feature) => boolean): MaterialFacts[] {
  const weighed = MATERIALS.map(([id, kind, price]) => {
    const unit = has('mixed-units') ? random.pick(WEIGHTS) : 'kg';
    const units = has('mixed-units') ? WEIGHTS : ['kg'];
    return { id, kind, unit, units, price: (price * (FACTORS[unit] ?? 1)) / 1000 };
  });
  const volumes = has('mixed-units') ? ['gal', 'L'] : ['gal'];
  return [
    ...weighed,
    { id: 'witness-cones', kind: 'cone', unit: 'each', units: ['each'], price: 0.35 },
    { id: 'boxes', kind: 'packing', unit: 'each', units: ['each'], price: 0.9 },
    { id: 'brush-on-glaze', kind: 'ready-mixed', unit: 'gal', units: volumes, price: 42 },
    { id: 'propane', kind: 'fuel', unit: 'gal', units: volumes, price: 3.1 },
  ];
}

function materialRecord({ id, kind, unit }: MaterialFacts): TreeMap {
  return {
    name: id.replaceAll('-', ' '),
    kind,
    unit,
    'reorder-at': unit === 'each' ? 20 : `5 ${unit}`,
    contains: id === 'quartz' ? ['silica'] : undefined,
    analysis: id === 'quartz' ? { SiO2: '99.2%', Fe2O3: '0.1%' } : undefined,
  };
}

function makeRecipes(random: RandomSource, has: (feature: Feature) => boolean): RecipeFacts[] {
  const glazes: readonly (readonly [string, string, boolean])[] = [
    ['clear', '6', true],
    ['amber', '6', true],
    ['oat', '6', true],
    ['honey', '04', has('low-fire')],
  ];
  const made: RecipeFacts[] = glazes
    .filter(([, , wanted]) => wanted)
    .map(([id, cone]) => ({ id, kind: 'glaze', cone, versions: versions(random, has) }));
  if (!has('clay-recipe')) return made;
  const base = [
    ['stoneware', random.int(40, 70)],
    ['red-clay', random.int(10, 30)],
    ['kaolin', 10.5],
  ] as const;
  return [
    ...made,
    { id: 'body', kind: 'clay', versions: [{ from: '2025-01-01', base, additions: [] }] },
  ];
}

function versions(random: RandomSource, has: (feature: Feature) => boolean): VersionFacts[] {
  const later = ['2025-10-18', '2025-12-02'];
  const froms = has('recipe-versions') ? ['2025-01-01', ...later] : ['2025-01-01'];
  return froms.map((from) => ({
    from,
    base: random
      .shuffle(['feldspar', 'quartz', 'chalk', 'kaolin'])
      .slice(0, random.int(2, 4))
      .map((material) => [material, random.int(1, 400) / random.pick([1, 2, 10])] as const),
    additions: random
      .shuffle(['iron-oxide', 'rutile'])
      .slice(0, has('recipe-versions') ? random.int(0, 2) : 0)
      .map((material) => [material, random.int(1, 30) / 2] as const),
  }));
}

function recipeRecord({ id, kind, cone, versions: list }: RecipeFacts): TreeMap {
  return {
    name: `${id} ${kind}`,
    kind,
    cone: cone === undefined ? undefined : { text: cone },
    versions: list.map(({ from, base, additions }) => ({
      from,
      base: base.map(([material, parts]) => ({ material, parts })),
      additions:
        additions.length === 0
          ? undefined
          : additions.map(([material, percent]) => ({ material, percent: `${percent}%` })),
    })),
  };
}

const CHANNELS: readonly ChannelFacts[] = [
  { id: 'studio-door', kind: 'direct' },
  { id: 'market', kind: 'fair' },
  { id: 'web-shop', kind: 'online' },
  { id: 'post', kind: 'online' },
  { id: 'trade', kind: 'wholesale' },
  { id: 'north-gallery', kind: 'consignment' },
  { id: 'harbour-gallery', kind: 'consignment' },
];

function channelRecord(
  { id, kind }: ChannelFacts,
  { has, minorDigits }: { has: (feature: Feature) => boolean; minorDigits: number },
): TreeMap {
  return {
    name: id.replaceAll('-', ' '),
    kind,
    // What the other gallery keeps stands in its statements.
    commission: id === 'north-gallery' ? '40%' : undefined,
    'fee-percent': kind === 'online' ? '2.9%' : undefined,
    'fee-each': kind === 'online' ? (minorDigits === 0 ? '30' : '0.3') : undefined,
    'tax-place': kind === 'fair' ? 'town' : undefined,
    'tax-included': TAX_INCLUDED[id],
    'tax-in-shipping': id === 'post' && has('shipping-without-tax') ? 'no' : undefined,
  };
}

/** What a channel keeps, what is taken by the sale, or the tax in its prices. */
function channelChange({ id, kind }: ChannelFacts, random: RandomSource): TreeMap {
  if (id === 'north-gallery') return { commission: random.pick(['45%', '37.5%']) };
  if (kind === 'online')
    return random.chance(0.5) ? { 'fee-percent': '3.4%' } : { without: ['fee-percent'] };
  return TAX_INCLUDED[id] === undefined ? { 'tax-place': 'county' } : { 'tax-included': '8.1%' };
}

/** What tax the prices of a channel contain. */
const TAX_INCLUDED: Readonly<Record<string, string>> = { market: '7.25%', post: '20%' };
