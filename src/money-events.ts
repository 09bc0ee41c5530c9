/** The types of what happens with money and with what is sold: orders, sales, advances, consignments, fairs, expenses. */
import type { Day, Entry, FromList, Grade, YesNo } from './definitions.ts';
import type { Paid } from './events.ts';
import type { Decimal } from './number/decimal.ts';

/** Exactly one of the two: money off, or a fraction of 1. */
export type Discount =
  | { readonly amount: Decimal; readonly percent?: never }
  | { readonly percent: Decimal; readonly amount?: never };

/** One thing ordered; exactly one of product and for is there. */
export interface OrderLine {
  readonly product?: string;
  /** What is to be made, in words. */
  readonly for?: string;
  readonly glaze?: string;
  /** Absent means first. */
  readonly grade?: Grade;
  readonly count: number;
  /** What was agreed for one. */
  readonly price?: Decimal;
  readonly note?: string;
}

/** What somebody asked for, and by when. */
export interface Order extends Entry {
  readonly date: Day;
  readonly buyer: string;
  readonly channel?: string;
  readonly due?: Day;
  readonly lines: readonly OrderLine[];
  /** From this day on nothing more is to be delivered; at most one of the two is there. */
  readonly done?: Day;
  readonly cancelled?: Day;
  readonly from?: FromList;
}

/** Exactly one of product, class and for is there. */
export interface SaleLine {
  readonly product?: string;
  readonly class?: string;
  /** What other income is for, in words: `commission work`, `kiln rental`. */
  readonly for?: string;
  readonly lot?: string;
  /** The order that it delivers. */
  readonly forOrder?: string;
  readonly glaze?: string;
  readonly grade?: Grade;
  readonly count: number;
  /** Each. */
  readonly price: Decimal;
  readonly discount?: Discount;
  /** Whether sales tax is on it; absent means as its product or class, its channel and its place say. */
  readonly taxed?: YesNo;
  /** `yes`: the buyer brought it back; every figure of the line counts negative. */
  readonly returned?: YesNo;
}

/** Part of what a buyer is charged that was paid beforehand. */
export interface AdvanceUsed {
  readonly advance: string;
  readonly amount: Decimal;
}

export interface Sale extends Entry {
  readonly date: Day;
  readonly channel: string;
  /** Absent: the fair of that channel on that day, if there is one. */
  readonly fair?: string;
  readonly buyer?: string;
  readonly paid?: Paid;
  readonly statement?: string;
  /** Of its invoice or credit note: the series, then digits. */
  readonly number?: string;
  /** Of a sale of returns: the sale whose invoice it credits. */
  readonly credits?: string;
  readonly lines: readonly SaleLine[];
  readonly discount?: Discount;
  readonly shipping?: Decimal;
  readonly tax?: Decimal;
  readonly taxPlace?: string;
  /** Of what the buyer is charged, what went through the card; absent: all of it. */
  readonly card?: Decimal;
  readonly fee?: Decimal;
  readonly commission?: Decimal;
  readonly advances?: readonly AdvanceUsed[];
  readonly from?: FromList;
}

/** Money taken before what it is for: a deposit on an order, or a gift certificate. */
export interface Advance extends Entry {
  readonly date: Day;
  readonly for: 'deposit' | 'certificate';
  readonly amount: Decimal;
  readonly channel?: string;
  readonly buyer?: string;
  /** Of the certificate. */
  readonly number?: string;
  /** What was ordered, in words. */
  readonly order?: string;
  /** The order that a deposit is for. */
  readonly forOrder?: string;
  /** Absent means by the channel's fees. */
  readonly fee?: Decimal;
  readonly refunded?: readonly { readonly date: Day; readonly amount: Decimal }[];
  readonly from?: FromList;
}

/** One fair or market, on one day or several. */
export interface Fair extends Entry {
  readonly name: string;
  /** One of kind fair. */
  readonly channel: string;
  /** Its first day. */
  readonly date: Day;
  /** Its last day; absent means that it was one day. */
  readonly last?: Day;
  /** Hours of work at the stall, on all days together. */
  readonly hours?: Decimal;
  readonly place?: string;
  /** What was taken along, for the end of the day; it moves no stock. */
  readonly take?: readonly TakenAlong[];
}

/** So many pieces of a product that go to a fair. */
export interface TakenAlong {
  readonly product: string;
  readonly glaze?: string;
  readonly grade?: Grade;
  readonly count: number;
}

export interface ConsignedLine {
  readonly product: string;
  readonly lot?: string;
  readonly glaze?: string;
  readonly grade?: Grade;
  readonly count: number;
  readonly price?: Decimal;
}

/** Pieces that a gallery can no longer find. */
export interface MissingLine extends ConsignedLine {
  /** What the gallery owes for the whole line; absent means nothing. */
  readonly owed?: Decimal;
  /** The day that was paid; `no`, or absent, means not yet. */
  readonly paid?: Paid;
}

export interface Consigned extends Entry {
  readonly date: Day;
  readonly channel: string;
  readonly sent?: readonly ConsignedLine[];
  readonly back?: readonly ConsignedLine[];
  readonly missing?: readonly MissingLine[];
}

export interface Spent extends Entry {
  readonly date: Day;
  readonly to: string;
  /** A spending category. */
  readonly for: string;
  readonly amount: Decimal;
  readonly channel?: string;
  readonly fair?: string;
  readonly kiln?: string;
  /** Whose sales tax was paid over, with `for: sales-tax`. */
  readonly taxPlace?: string;
  /** `84 km` or `52 mi`, for travel. */
  readonly distance?: string;
  /** Whether it is longer in use than a year, as a kiln is. */
  readonly lasts?: YesNo;
  readonly paid?: Paid;
  readonly from?: FromList;
}

/** A period as it was filed, by a tax sheet. */
export interface Filed extends Entry {
  readonly date: Day;
  /** A quarter, `2026-Q1`, or a business year, `2026`. */
  readonly period: string;
  /** The id of a sheet that comes with the program, or a file in the studio. */
  readonly sheet: string;
  /** Line of the sheet, by its number or its key → what was filed there. */
  readonly lines: Readonly<Record<string, Decimal>>;
}
