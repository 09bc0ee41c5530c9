/** The types of what happens in a studio: purchases, mixes, lots, firings, counts, sales and the like. */
import type {
  ClayUse,
  Day,
  Entry,
  FiringKind,
  FromList,
  GlazeUse,
  Grade,
  YesNo,
} from './definitions.ts';
import type { Cone } from './number/cone.ts';
import type { Decimal } from './number/decimal.ts';
import type { Quantity } from './number/unit.ts';

/** The day it was paid, or `no` for not yet; absent means on its date. */
export type Paid = string;

export interface BoughtLine {
  readonly material: string;
  readonly quantity: Quantity;
  /** The line's total. */
  readonly cost: Decimal;
  /** The bag's number. */
  readonly lot?: string;
  /** What the whole line weighs; absent means its quantity, where that is a weight. */
  readonly weight?: Quantity;
}

export interface Bought extends Entry {
  readonly date: Day;
  readonly supplier: string;
  readonly invoice?: string;
  readonly lines: readonly BoughtLine[];
  readonly freight?: Decimal;
  readonly discount?: Decimal;
  readonly tax?: Decimal;
  /** Absent means by cost. */
  readonly shareFreightBy?: 'cost' | 'weight';
  readonly paid?: Paid;
  readonly from?: FromList;
}

export interface Reclaimed extends Entry {
  readonly date: Day;
  readonly material: string;
  readonly quantity: Quantity;
}

export interface Mixed extends Entry {
  readonly date: Day;
  readonly recipe: string;
  /** Exactly one of the two is there: the base's dry weight, or the dry weight with additions. */
  readonly baseWeight?: Quantity;
  readonly totalWeight?: Quantity;
  readonly water?: Quantity;
  readonly gravity?: Decimal;
  readonly topsUp?: string;
  /** Material → id of the purchase, or the bag's number. */
  readonly lots?: Readonly<Record<string, string>>;
  /** A clay recipe's wet weight. */
  readonly yields?: Quantity;
}

export interface LotLoss {
  readonly date: Day;
  readonly count: number;
  readonly why: Cause;
}

export type HowGone = 'gift' | 'kept' | 'broken' | 'given-away' | 'missing';

export interface LotGone {
  readonly date: Day;
  readonly count: number;
  readonly how: HowGone;
  /** Absent: firsts, then seconds. */
  readonly grade?: Grade;
  readonly channel?: string;
  readonly fair?: string;
  readonly note?: string;
}

/** A lot: pieces of one product made together. */
export interface Lot extends Entry {
  readonly date: Day;
  readonly product: string;
  readonly made: number;
  readonly title?: string;
  readonly price?: Decimal;
  /** Each field that is there stands over the product's. */
  readonly clay?: Partial<ClayUse> & { readonly lot?: string };
  readonly glazes?: readonly GlazeUse[];
  /** Recipe → id of the mix that its glaze was taken from. */
  readonly mixes?: Readonly<Record<string, string>>;
  /** Minutes of work on the whole lot. */
  readonly minutes?: Decimal;
  readonly maker?: string;
  readonly mark?: string;
  readonly lost?: readonly LotLoss[];
  readonly gone?: readonly LotGone[];
}

export const CAUSES = [
  'collapsed',
  'cracked',
  's-crack',
  'rim-crack',
  'handle-crack',
  'warped',
  'exploded',
  'chipped',
  'crawled',
  'pinholed',
  'blistered',
  'crazed',
  'shivered',
  'ran',
  'stuck',
  'dripped-on',
  'bloated',
  'dunted',
  'underfired',
  'overfired',
  'colour',
  'dropped',
  'other',
] as const;

export type Cause = (typeof CAUSES)[number];

/** One lot's, class's or customer's share of a firing: exactly one of lot, class and outside is there. */
export interface LoadLine {
  readonly lot?: string;
  readonly class?: string;
  readonly outside?: string;
  readonly in: number;
  readonly first?: number;
  readonly second?: number;
  readonly lost?: number;
  readonly why?: Readonly<Partial<Record<Cause, number>>>;
  /** The causes of the lost pieces alone; the rest of why are then of seconds. */
  readonly lostTo?: Readonly<Partial<Record<Cause, number>>>;
  readonly refire?: YesNo;
  /** Kiln space of one piece, over the product's. */
  readonly space?: Decimal;
  readonly shelf?: string;
}

export interface FuelFromStock {
  readonly material: string;
  readonly quantity: Quantity;
}

export interface Firing extends Entry {
  readonly date: Day;
  /** The day from which on what came out counts; absent means the date. */
  readonly unloaded?: Day;
  readonly kiln: string;
  readonly kind: FiringKind;
  readonly cone?: Cone;
  readonly coneSeen?: Cone;
  readonly peak?: string;
  readonly hours?: Decimal;
  /** `06:30` */
  readonly started?: string;
  readonly energy?: Quantity;
  /** Readings in kWh. */
  readonly meter?: { readonly before: Decimal; readonly after: Decimal };
  /** Fuel at the tariff's price, or drawn from stock at its cost. */
  readonly fuelUsed?: Quantity | FuelFromStock;
  /** Hours of work at the kiln. */
  readonly tended?: Decimal;
  readonly supplies?: readonly { readonly material: string; readonly quantity: Quantity }[];
  readonly load: readonly LoadLine[];
}

export interface Used extends Entry {
  readonly date: Day;
  readonly material: string;
  readonly quantity: Quantity;
  /** A class id, or waste, studio, test, gift. Absent means studio. */
  readonly for?: string;
}

/** One material as counted; with a cost it opens the stock. */
export interface CountedMaterial {
  readonly material: string;
  readonly quantity: Quantity;
  /** Of all that was counted. */
  readonly cost?: Decimal;
  readonly why?: string;
}

/** What ware may be when the book begins. */
export type CountedStage = 'greenware' | 'bisqueware' | 'glaze-fired' | 'finished';

/** Ware of one sort as counted; with a cost it opens the stock. */
export interface CountedWare {
  readonly product: string;
  readonly lot?: string;
  /** Absent means finished. */
  readonly stage?: CountedStage;
  readonly glaze?: string;
  readonly grade?: Grade;
  /** A channel's id; absent means the studio. */
  readonly place?: string;
  readonly count: number;
  /** Of all that was counted. */
  readonly cost?: Decimal;
  readonly why?: string;
}

export interface Counted extends Entry {
  readonly date: Day;
  readonly materials?: readonly CountedMaterial[];
  readonly pieces?: readonly CountedWare[];
}

export interface LeachResult {
  readonly method?: string;
  readonly ware?: string;
  readonly lead?: string;
  readonly cadmium?: string;
  /** What was found in each, where several were tested. */
  readonly specimens?: readonly LeachSpecimen[];
  readonly lab?: string;
}

/** What came out of one specimen, in words or as `under 0.01 µg/mL`. */
export type LeachSpecimen = Pick<LeachResult, 'lead' | 'cadmium'>;

/** Lengths of one bar of clay, in mm. */
export interface MeasuredShrinkage {
  readonly wet: Decimal;
  readonly dry?: Decimal;
  readonly bisqued?: Decimal;
  readonly fired?: Decimal;
}

/** Weights of one fired piece. */
export interface MeasuredAbsorption {
  readonly dry: Quantity;
  readonly soaked: Quantity;
}

export type TestKind =
  'tile' | 'leach' | 'oven' | 'dishwasher' | 'crazing' | 'shrinkage' | 'absorption' | 'fit';

export interface Test extends Entry {
  readonly date: Day;
  readonly kind: TestKind;
  readonly recipe?: string;
  /** A day on which the version that was tested was in force. */
  readonly versionOf?: Day;
  readonly mix?: string;
  readonly lot?: string;
  readonly firing?: string;
  readonly class?: string;
  readonly clay?: string;
  readonly cone?: Cone;
  readonly change?: string;
  /** What is other than in that version, line by line. */
  readonly tried?: readonly string[];
  readonly thickness?: string;
  /** Path of a picture from the studio's root. */
  readonly photo?: string;
  readonly verdict?: 'good' | 'again' | 'no';
  readonly result?: string;
  readonly leach?: LeachResult;
  readonly shrinkage?: MeasuredShrinkage;
  readonly absorption?: MeasuredAbsorption;
}
