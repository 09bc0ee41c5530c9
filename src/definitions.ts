/** The types of what a studio defines once: materials, recipes, products, kilns and the like. */
import type { Cone } from './number/cone.ts';
import type { Day, Weekday } from './number/date.ts';
import type { Decimal } from './number/decimal.ts';
import type { HeatContent, Quantity, Unit } from './number/unit.ts';

export type { Day, Weekday } from './number/date.ts';
export type { HeatContent } from './number/unit.ts';

export type FiringKind = 'bisque' | 'glaze' | 'once' | 'lustre' | 'raku' | 'test';
export type Grade = 'first' | 'second';
export type YesNo = 'yes' | 'no';

/** What every record has beside its own fields. */
export interface Entry {
  readonly id: string;
  /** Path of the record's file from the studio's root, with forward slashes. */
  readonly file: string;
  /** Warnings that are right as they are: the rule's name → the reason. */
  readonly checked?: AnswersChecked;
  readonly note?: string;
}

/** The row of a list that a record was taken in from. */
export interface FromList {
  /** The list's map: `shop` is lists/shop.yaml. */
  readonly list: string;
  readonly row: string;
  /** The day it was taken in. */
  readonly date: Day;
  /** A fingerprint of what the row said then. */
  readonly as: string;
}

/** Answers to warnings, by the rules' names; where a figure is asked about, the figure before the reason. */
export type AnswersChecked = Readonly<Record<string, string>>;

/**
 * What is another from a day on: the fields that the change names, and those that are there no more.
 * `inForce` gives a definition as it was on a day.
 */
export type ChangeOf<T, K extends keyof T & string> = {
  readonly [F in K]?: Exclude<T[F], undefined>;
} & {
  readonly from: Day;
  /** Fields that are there no more, by their keys in the file. */
  readonly without?: readonly Dashed<K>[];
  readonly note?: string;
};

/** A field's name as its key in the file: `feeEach` is `fee-each`. */
export type Dashed<S extends string> = S extends `${infer First}${infer Rest}`
  ? `${First extends Lowercase<First> ? First : `-${Lowercase<First>}`}${Dashed<Rest>}`
  : '';
export type MaterialKind =
  'clay' | 'dry' | 'colourant' | 'ready-mixed' | 'cone' | 'packing' | 'fuel' | 'other';

export interface Material extends Entry {
  readonly name: string;
  readonly kind: MaterialKind;
  /** The stock unit: every figure of this material is kept in it. */
  readonly unit: Unit;
  readonly reorderAt?: Quantity;
  readonly leadDays?: number;
  readonly supplier?: string;
  readonly contains?: readonly string[];
  /** Oxide → fraction of 1. */
  readonly analysis?: Readonly<Record<string, Decimal>>;
}

export interface RecipeVersion {
  readonly from: Day;
  readonly base: readonly { readonly material: string; readonly parts: Decimal }[];
  /** Percent on top of the base, as a fraction of 1. */
  readonly additions?: readonly { readonly material: string; readonly percent: Decimal }[];
  readonly note?: string;
}

export interface Recipe extends Entry {
  readonly name: string;
  readonly kind: 'glaze' | 'slip' | 'engobe' | 'wash' | 'clay';
  readonly cone?: Cone;
  readonly forFood?: YesNo;
  readonly densityOfSolids?: Decimal;
  readonly versions: readonly RecipeVersion[];
}

/** Clay in one piece: a material or a clay recipe, wet weight. */
export interface ClayUse {
  readonly material: string;
  readonly each: Quantity;
}

/** Glaze on one piece, in dry weight. */
export interface GlazeUse {
  readonly recipe: string;
  readonly each: Quantity;
  readonly where?: string;
}

export type Care = 'dishwasher' | 'microwave' | 'ornamental' | 'oven' | 'food';

/** What limits for lead and cadmium go by. */
export type WareCategory =
  'flatware' | 'cup' | 'pitcher' | 'small-hollowware' | 'large-hollowware' | 'cooking' | 'storage';

/** A piece's measures in mm. */
export interface WareSize {
  readonly height?: Decimal;
  readonly width?: Decimal;
  readonly of: 'fired' | 'wet';
}

/** The most of a metal that may come out of ware of one sort. */
export interface LeachLimit {
  readonly ware: WareCategory;
  readonly metal: 'lead' | 'cadmium';
  /** `0.5 µg/mL`. */
  readonly most: string;
  /** What is held against it; absent means each specimen. */
  readonly of?: 'each' | 'any of six' | 'mean of six' | 'each, or three more';
}

/** A sheet of limits. */
export interface LeachLimits {
  readonly title: string;
  readonly authority?: string;
  readonly year?: string;
  readonly amendments?: string;
  readonly source?: string;
  /** Absent means any. */
  readonly methods?: readonly string[];
  readonly limits: readonly LeachLimit[];
}

export interface Product extends Entry {
  readonly name: string;
  readonly clay?: ClayUse;
  readonly glazes?: readonly GlazeUse[];
  /** Absent means bisque, then glaze. */
  readonly fired?: readonly FiringKind[];
  /** Kiln space that one piece takes; absent means 1. */
  readonly space?: Decimal;
  /** The same in a bisque firing; absent means its space. */
  readonly bisqueSpace?: Decimal;
  /** Minutes of work on one piece. */
  readonly minutes?: Decimal;
  readonly price?: Decimal;
  readonly wholesale?: Decimal;
  /** Price of a second. */
  readonly second?: Decimal;
  /** `no`: no sales tax is on it; absent means as its place says. */
  readonly taxed?: YesNo;
  readonly packing?: readonly { readonly material: string; readonly each: Quantity }[];
  readonly care?: readonly Care[];
  readonly ware?: WareCategory;
  readonly size?: WareSize;
  /** How many firsts are to be ready. */
  readonly keep?: number;
  /** From this day on it is no longer made. */
  readonly discontinued?: Day;
  readonly changes?: readonly ChangeOf<
    Product,
    Exclude<keyof Product, keyof Entry | 'name' | 'discontinued' | 'changes'>
  >[];
}

export interface StudioClass extends Entry {
  readonly name: string;
  readonly starts: Day;
  readonly sessions?: number;
  /** The days on which it meets; absent means weekly from `starts`. */
  readonly meets?: readonly Day[];
  readonly hours?: Decimal;
  readonly places?: number;
  readonly fee?: Decimal;
  /** As of a product. */
  readonly taxed?: YesNo;
  readonly clay?: ClayUse;
  readonly firingIncluded?: YesNo;
  readonly changes?: readonly ChangeOf<
    StudioClass,
    Exclude<keyof StudioClass, keyof Entry | 'name' | 'starts' | 'changes'>
  >[];
}

export interface WearPart {
  readonly part: string;
  readonly cost: Decimal;
  /** How many firings the part is reckoned to last. */
  readonly firings: Decimal;
  readonly fitted?: Day;
  readonly replaced?: Day;
}

export type Fuel = 'electricity' | 'propane' | 'natural-gas' | 'wood';

export interface Kiln extends Entry {
  readonly name: string;
  readonly fuel: Fuel;
  /** Rated power in kW. */
  readonly power?: Decimal;
  /** Kiln space, in the unit of the products' space. */
  readonly space?: Decimal;
  /** Hours from the end of a firing until it can be loaded again; absent means 24. */
  readonly cooling?: Decimal;
  /** Share of the rated power that a kind of firing draws on average, as a fraction of 1. */
  readonly duty?: Readonly<Partial<Record<FiringKind, Decimal>>>;
  readonly wear?: readonly WearPart[];
  /** Energy in a unit of gas, for kilns whose gas is measured by volume. */
  readonly heatContent?: HeatContent;
}

/** Part of the day with a price of its own. */
export interface TariffBand {
  /** `16:00-21:00`; a band may run over midnight. */
  readonly hours: string;
  /** Absent means every day. */
  readonly days?: readonly Weekday[];
  readonly price: Decimal;
}

export interface Tariff extends Entry {
  readonly from: Day;
  readonly fuel: Fuel;
  /** Money per `per`; hours outside the bands cost this. */
  readonly price: Decimal;
  readonly per: Unit;
  readonly bands?: readonly TariffBand[];
}

export type ChannelKind = 'direct' | 'fair' | 'online' | 'wholesale' | 'consignment';

export interface Channel extends Entry {
  readonly name: string;
  readonly kind: ChannelKind;
  /** Fractions of 1. */
  readonly commission?: Decimal;
  readonly feePercent?: Decimal;
  /** Money per sale. */
  readonly feeEach?: Decimal;
  readonly taxPlace?: string;
  /** Rate of a tax that prices include, as a fraction of 1. */
  readonly taxIncluded?: Decimal;
  /** `no`: shipping is charged without that tax. */
  readonly taxInShipping?: YesNo;
  readonly changes?: readonly ChangeOf<
    Channel,
    Exclude<keyof Channel, keyof Entry | 'name' | 'kind' | 'changes'>
  >[];
  /** `no`: the studio collects no sales tax here. */
  readonly taxed?: YesNo;
}
