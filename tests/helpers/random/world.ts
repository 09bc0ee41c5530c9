/** What a random studio has at hand while its days pass, and how it writes its records. */
import { randomSource, type RandomSource } from '../random-source.js';
import type { Tree, TreeMap } from '../yaml-tree.ts';
import type { Definitions, MaterialFacts } from './definitions.ts';
import { FIRST_DAY } from './first-day.ts';
import type { Break, Feature, StudioPlan } from './plan.ts';
import type { GlazeFacts, ProductFacts } from './products.ts';

export type Fields = Record<string, Tree | undefined>;

/** A lot on its way; `record` is added to while pieces are lost or go. */
export interface Lot {
  readonly id: string;
  readonly product: ProductFacts;
  readonly glazes: readonly GlazeFacts[];
  /** Pieces at each stage: greenware first; finished ware is in batches. */
  readonly stages: number[];
  /** The first day, as a number, on which it may be fired. */
  ready: number;
  readonly record: Fields;
  batches: number;
}

/** Finished pieces of one lot, of one grade, at one place. */
export interface Batch {
  readonly lot: Lot;
  readonly grade: 'first' | 'second';
  /** A gallery's id; empty for the studio. */
  readonly place: string;
  count: number;
  /** The first day, as a number, on which they may leave. */
  readonly from: number;
  /** Straight from the kiln: neither moved nor brought back. */
  readonly fresh: boolean;
}

/** A piece that somebody bought, who may bring it back. */
export interface Bought {
  readonly batch: Batch;
  readonly price: string;
}

export type BasketLine = Fields & { readonly material: string };

export interface World {
  readonly plan: StudioPlan;
  readonly definitions: Definitions;
  /** Days since the first. */
  day: number;
  date: string;
  readonly records: Record<string, Record<string, Fields>>;
  /** Material or recipe → grams, millilitres or pieces. */
  readonly stock: Map<string, number>;
  /** Material → what its purchases may be called by: their ids and the bags' numbers. */
  readonly bags: Map<string, string[]>;
  /** Recipe → ids of its mixes. */
  readonly mixes: Map<string, string[]>;
  /** The lines of today's purchase. */
  basket: { readonly id: string; readonly lines: BasketLine[] } | undefined;
  readonly lots: Lot[];
  batches: Batch[];
  readonly sold: Bought[];
  /** Fees of classes that may be paid back: which class, and what was asked. */
  readonly enrolled: { readonly class: string; readonly price: string }[];
  /** Meter of each kiln in tenths of a kWh. */
  readonly meters: Map<string, number>;
  readonly invoices: Set<string>;
  /** Deposits and certificates of which something is left, in whole money. */
  readonly advances: { readonly id: string; readonly fields: Fields; left: number }[];
  /** Orders of which so many pieces of one product are still to be delivered. */
  readonly orders: {
    readonly id: string;
    readonly product: string;
    readonly fields: Fields;
    left: number;
  }[];
  /** Ids of the fairs so far. */
  readonly fairs: string[];
}

/** A studio before its first day. */
export function newWorld(plan: StudioPlan, definitions: Definitions): World {
  return {
    plan,
    definitions,
    day: 0,
    date: FIRST_DAY,
    records: {},
    stock: new Map(),
    bags: new Map(),
    mixes: new Map(),
    basket: undefined,
    lots: [],
    batches: [],
    sold: [],
    enrolled: [],
    meters: new Map(),
    invoices: new Set(),
    advances: [],
    orders: [],
    fairs: [],
  };
}

/** The date so many days after the first. */
export function dateOf(day: number): string {
  return new Date(Date.parse(FIRST_DAY) + day * 86_400_000).toISOString().slice(0, 10);
}

/** A random source of today for one activity: leaving another out does not change it. */
export function sourceOf(world: World, ...activity: readonly (number | string)[]): RandomSource {
  return randomSource(world.plan.seed, world.day, ...activity);
}

export function has(world: World, feature: Feature): boolean {
  return world.plan.features.includes(feature);
}

/** Whether a rule of that sort is broken this time. */
export function breaks(world: World, kind: Break, random: RandomSource): boolean {
  return world.plan.breaks.includes(kind) && random.chance(0.25);
}

/** An id as `add` makes them: the kind's letter, the date, two letters. */
export function newId(world: World, letter: string): string {
  const random = sourceOf(world, 'id', letter);
  const stem = `${letter}${world.date.slice(2).replaceAll('-', '')}`;
  const taken = Object.values(world.records);
  for (;;) {
    const id = stem + String.fromCharCode(random.int(97, 122), random.int(97, 122));
    if (taken.every((records) => !(id in records)) && id !== world.basket?.id) return id;
  }
}

const NOTES = [
  'plain words',
  'colon: and # hash',
  '"quoted" and \'so\'',
  'café, 40 °C, ½',
  '- not a list',
  'first line\nsecond line\n',
  ' blanks around ',
  '0044',
];

/** Writes a record down; it stays open, so that what happens later can be added. */
export function write(world: World, kind: string, record: { id: string; fields: Fields }): void {
  const { id, fields } = record;
  const random = sourceOf(world, 'note', id);
  if (has(world, 'notes') && random.chance(0.15)) fields['note'] = { text: random.pick(NOTES) };
  const records = (world.records[kind] ??= {});
  records[id] = fields;
}

/** Money as text, with no more decimals than the currency has; the amount is in whole money. */
export function money(world: World, amount: number): string {
  const { minorDigits } = world.definitions;
  const digits = minorDigits === 0 ? 0 : minorDigits;
  return (minorDigits === 0 ? Math.round(amount * 100) : amount).toFixed(digits);
}

/** The material's facts; the ids in this studio always lead somewhere. */
export function materialOf(world: World, id: string): MaterialFacts {
  const found = world.definitions.materials.find((material) => material.id === id);
  if (found === undefined) throw new Error(`no material ${id}`);
  return found;
}

export function change(map: Map<string, number>, key: string, by: number): void {
  map.set(key, (map.get(key) ?? 0) + by);
}

export function remember(map: Map<string, string[]>, key: string, value: string): void {
  map.set(key, [...(map.get(key) ?? []), value]);
}

/** Fields of which undefined ones are left out when printed. */
export function fieldsOf(map: TreeMap): Fields {
  return { ...map };
}
