/** Random studios for property tests: small, rich, and consistent unless they are to break rules. */
import fc from 'fast-check';
import { KINDS, type Kind } from '../../src/book.ts';
import type { Raw, RawMap } from '../../src/read/raw.ts';
import { define } from './random/definitions.ts';
import { holdFair, takeAdvance } from './random/ahead.ts';
import { takeOrder } from './random/ordering.ts';
import { fireKilns } from './random/firing.ts';
import { file, spend, stockUp, takeStock, test, useUp } from './random/keeping.ts';
import { letGo, makeLots } from './random/making.ts';
import { BREAKS, FEATURES, type Break, type Feature, type StudioPlan } from './random/plan.ts';
import { consign, sell } from './random/selling.ts';
import { closeBasket, reclaim } from './random/stocking.ts';
import { dateOf, newWorld, type World } from './random/world.ts';
import { PLAIN_STYLE, yamlText } from './yaml-text.js';
import type { Tree, TreeMap } from './yaml-tree.ts';

export { layouts } from './other-layouts.ts';
export { BREAKS, FEATURES, type Break, type Feature, type StudioPlan };

export interface RandomStudio {
  readonly plan: StudioPlan;
  /** The studio's last day: no record is later. */
  readonly asOf: string;
  /** Path from the studio's root → text, in the layout that `add` makes. */
  readonly files: Readonly<Record<string, string>>;
  /** The settings as the texts that stand in `studio.yaml`. */
  readonly settings: RawMap;
  /** Kind → id → record, as the texts that stand in the files. */
  readonly records: Readonly<Record<Kind, Readonly<Record<string, RawMap>>>>;
}

/** The studio that a plan stands for: always the same for the same plan. */
export function growStudio(plan: StudioPlan): RandomStudio {
  const definitions = define(plan);
  const world = newWorld(plan, definitions);
  for (world.day = 0; world.day < plan.days; world.day += 1) live(world);
  const all: Partial<Record<string, Record<string, TreeMap>>> = {
    ...definitions.records,
    ...world.records,
  };
  const records = Object.fromEntries(KINDS.map((kind) => [kind, rawRecords(all[kind] ?? {})]));
  return {
    plan,
    asOf: dateOf(Math.max(0, plan.days - 1)),
    files: filesOf(definitions.settings, all),
    settings: rawOf(definitions.settings) as RawMap,
    records: records as RandomStudio['records'],
  };
}

/** One day, in the order in which a day's events are reckoned. */
function live(world: World): void {
  world.date = dateOf(world.day);
  holdFair(world);
  takeOrder(world);
  stockUp(world);
  reclaim(world);
  makeLots(world);
  fireKilns(world);
  useUp(world);
  consign(world);
  letGo(world);
  sell(world);
  takeAdvance(world);
  closeBasket(world);
  takeStock(world);
  spend(world);
  test(world);
  file(world);
}

const ONE_FILE_EACH = ['pieces', 'mixed', 'firings'];

function filesOf(
  settings: TreeMap,
  all: Partial<Record<string, Record<string, TreeMap>>>,
): Record<string, string> {
  const style = { ...PLAIN_STYLE, literal: true };
  const files: Record<string, Record<string, TreeMap>> = {};
  for (const [kind, records = {}] of Object.entries(all))
    for (const [id, record] of Object.entries(records))
      (files[pathOf(kind, id, record)] ??= {})[id] = record;
  const texts: Record<string, string> = { 'studio.yaml': yamlText(settings, style) };
  for (const [path, records] of Object.entries(files)) texts[path] = yamlText(records, style);
  return texts;
}

function pathOf(kind: string, id: string, { date }: TreeMap): string {
  if (typeof date !== 'string') return `${kind}.yaml`;
  return ONE_FILE_EACH.includes(kind) ? `${kind}/${id}.yaml` : `${kind}/${date.slice(0, 7)}.yaml`;
}

function rawRecords(records: Record<string, TreeMap>): Record<string, RawMap> {
  return Object.fromEntries(
    Object.entries(records).map(([id, record]) => [id, rawOf(record) as RawMap]),
  );
}

function rawOf(tree: Tree): Raw {
  if (typeof tree !== 'object') return String(tree);
  if (isList(tree)) return tree.map((item): Raw => rawOf(item));
  if ('text' in tree && typeof tree.text === 'string') return tree.text;
  const map = Object.create(null) as Record<string, Raw>;
  for (const [key, value] of Object.entries(tree)) if (value !== undefined) map[key] = rawOf(value);
  return map;
}

function isList(tree: Tree): tree is readonly Tree[] {
  return Array.isArray(tree);
}

export interface StudioOptions {
  /** The most days; default 200. */
  readonly days?: number;
  /** Features that every studio has; each of the others is in about three of four. */
  readonly features?: readonly Feature[];
  /** `none` (the default), or `some`: rules may be broken, each in about half of the studios. */
  readonly breaks?: 'none' | 'some';
}

/**
 * Plans of random studios. A failing plan shrinks to fewer days, products and features and to a
 * lower pace; its seed stays, so that what is left of it stays the same.
 */
export function studioPlan(options: StudioOptions = {}): fc.Arbitrary<StudioPlan> {
  const { days = 200, features = [], breaks = 'none' } = options;
  return fc.record({
    seed: fc.noShrink(fc.integer({ min: 0, max: 2 ** 31 - 1 })),
    days: fc.oneof(
      { withCrossShrink: true },
      { arbitrary: fc.integer({ min: 1, max: days }), weight: 1 },
      { arbitrary: fc.integer({ min: Math.ceil(days / 2), max: days }), weight: 2 },
    ),
    products: fc.integer({ min: 1, max: 8 }),
    pace: fc.integer({ min: 1, max: 4 }),
    features: fc
      .tuple(...FEATURES.map(() => mostly()))
      .map((flags) =>
        FEATURES.filter((feature, at) => flags[at] === true || features.includes(feature)),
      ),
    breaks: breaks === 'none' ? fc.constant([]) : fc.subarray([...BREAKS]),
  });
}

/** True three times of four; shrinks to false. */
function mostly(): fc.Arbitrary<boolean> {
  return fc.oneof(
    { withCrossShrink: true },
    { arbitrary: fc.constant(false), weight: 1 },
    { arbitrary: fc.constant(true), weight: 3 },
  );
}

/** Random studios: see `studioPlan`. */
export function randomStudio(options: StudioOptions = {}): fc.Arbitrary<RandomStudio> {
  return studioPlan(options).map(growStudio);
}
