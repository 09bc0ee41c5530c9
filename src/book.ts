/** The types of the checked whole: every record of a studio, read and typed. */
import type { Records } from './among.ts';
import type {
  Channel,
  Kiln,
  Material,
  Product,
  Recipe,
  StudioClass,
  Tariff,
} from './definitions.ts';
import type { Bought, Counted, Firing, Lot, Mixed, Reclaimed, Test, Used } from './events.ts';
import type { Advance, Consigned, Fair, Filed, Order, Sale, Spent } from './money-events.ts';
import type { Studio } from './settings.ts';

export type * from './definitions.ts';
export type * from './events.ts';
export type * from './money-events.ts';
export type * from './settings.ts';

export const DEFINITION_KINDS = [
  'materials',
  'recipes',
  'products',
  'classes',
  'kilns',
  'tariffs',
  'channels',
] as const;

export const EVENT_KINDS = [
  'bought',
  'reclaimed',
  'mixed',
  'pieces',
  'firings',
  'used',
  'counted',
  'orders',
  'sales',
  'advances',
  'consigned',
  'fairs',
  'spent',
  'tests',
  'filed',
] as const;

/** What a record is; also the name of the folder or file that it lives in. */
export type Kind = (typeof DEFINITION_KINDS)[number] | (typeof EVENT_KINDS)[number];

export const KINDS: readonly Kind[] = [...DEFINITION_KINDS, ...EVENT_KINDS];

/** The type of a record of each kind. */
export interface RecordOf {
  readonly materials: Material;
  readonly recipes: Recipe;
  readonly products: Product;
  readonly classes: StudioClass;
  readonly kilns: Kiln;
  readonly tariffs: Tariff;
  readonly channels: Channel;
  readonly bought: Bought;
  readonly reclaimed: Reclaimed;
  readonly mixed: Mixed;
  readonly pieces: Lot;
  readonly firings: Firing;
  readonly used: Used;
  readonly counted: Counted;
  readonly orders: Order;
  readonly sales: Sale;
  readonly advances: Advance;
  readonly consigned: Consigned;
  readonly fairs: Fair;
  readonly spent: Spent;
  readonly tests: Test;
  readonly filed: Filed;
}

/**
 * All records of a studio that are sound in themselves: each by kind, by id.
 * A reference may still lead nowhere (`unknown-reference` says so); reckoning passes over such lines.
 */
export type Book = { readonly studio: Studio } & {
  readonly [K in Kind]: Records<RecordOf[K]>;
};

/** Records of which one is had by its id, and nobody can go through all. */
export type Named<T> = Pick<ReadonlyMap<string, T>, 'get' | 'has'>;

/** A book in which one can only ask by id: what is worked out from it rests on the records asked for. */
export type NamedBook = { readonly studio: Studio } & {
  readonly [K in Kind]: Named<RecordOf[K]>;
};
