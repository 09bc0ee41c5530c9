/** The types of a studio's settings. */
import type { AnswersChecked, ChangeOf, LeachLimits } from './definitions.ts';
import type { Day } from './number/date.ts';
import type { Decimal } from './number/decimal.ts';
import type { Unit } from './number/unit.ts';

/** What a place may tax; `other` is other income in words. */
export type TaxedKind = 'ware' | 'classes' | 'firing' | 'shipping' | 'other';

/** The rate of sales tax of a place from a day on, until its next entry. */
export interface PlaceRate {
  readonly place: string;
  /** A fraction of 1. */
  readonly percent: Decimal;
  readonly from: Day;
  /** Absent means ware alone. */
  readonly taxes?: readonly TaxedKind[];
  /** Whether the tax is rounded once for a sale or for each line; absent means `sale`. */
  readonly by?: 'sale' | 'line';
  /** How often its return is due; absent means by the quarters of the business year. */
  readonly filing?: 'monthly' | 'quarterly' | 'yearly';
}

/** The income-tax return of a year: its total tax, and its adjusted gross income. */
export interface TaxOfYear {
  readonly year: string;
  readonly tax: Decimal;
  readonly income?: Decimal;
}

/** Days that ware waits between two steps of its making. */
export interface StepDays {
  readonly drying?: number;
  readonly glazing?: number;
  readonly decorating?: number;
  readonly packing?: number;
}

/** How invoices are numbered: the series, then a whole number. */
export interface InvoiceSeries {
  readonly series: string;
  /** Absent means 4. */
  readonly digits?: number;
  /** The branch of git that the series is for; absent means `main` or `master`. */
  readonly branch?: string;
}

/** A label sheet of the studio's own, in millimetres. */
export interface OwnLabelSheet {
  readonly name: string;
  readonly paper: 'A4' | 'Letter';
  readonly columns: number;
  readonly rows: number;
  readonly width: Decimal;
  readonly height: Decimal;
  readonly left: Decimal;
  readonly top: Decimal;
  /** Gaps between labels; absent means 0. */
  readonly across?: Decimal;
  readonly down?: Decimal;
}

/** What is on every paper that leaves the studio. */
export interface PaperSettings {
  /** Lines below the studio's name. */
  readonly letterhead?: readonly string[];
  readonly terms?: string;
  readonly galleryTerms?: string;
  /** A file of the studio's with its own words for what papers say. */
  readonly phrases?: string;
  readonly labelSheets?: readonly OwnLabelSheet[];
}

export interface Studio {
  readonly file: string;
  readonly format: string;
  readonly name: string;
  readonly currency: string;
  readonly weightUnit?: Unit;
  readonly volumeUnit?: Unit;
  readonly temperatureUnit?: '°C' | '°F';
  /** `MM-DD`; absent means `01-01`. */
  readonly yearStarts?: string;
  /** Absent means `cash`. */
  readonly basis?: 'cash' | 'accrual';
  /** Absent means `average`. */
  readonly stockValue?: 'average' | 'first-in';
  /** Money per hour, for costing only. */
  readonly labourRate?: Decimal;
  readonly taxSheet?: string;
  /** Which limits claims are held against. */
  readonly leachLimits?: 'us-fda' | 'eu-84-500' | 'own';
  readonly ownLimits?: LeachLimits;
  /** The potter's own rate of income tax, as a fraction of 1. */
  readonly incomeTaxRate?: Decimal;
  /** `none`: not registered, so that nothing asks for it. */
  readonly salesTax?: 'none';
  /** How driving is deducted; absent means `actual`. */
  readonly car?: 'mileage' | 'actual';
  /** What the income tax of past years came to. */
  readonly taxYears?: readonly TaxOfYear[];
  readonly taxes?: readonly PlaceRate[];
  readonly closedThrough?: Day;
  /** Before this day nothing moves stock; absent: the book begins with its first record. */
  readonly starts?: Day;
  readonly leadDays?: number;
  /** Hours in which ware can be made. */
  readonly hoursAWeek?: Decimal;
  readonly days?: StepDays;
  /** Days of the week and dates without work. */
  readonly restDays?: readonly string[];
  readonly invoices?: InvoiceSeries;
  readonly papers?: PaperSettings;
  /** Spending categories of the studio's own: category → line of the tax sheet. */
  readonly categories?: Readonly<Record<string, string>>;
  readonly checked?: AnswersChecked;
  readonly changes?: readonly ChangeOf<Studio, 'labourRate' | 'car'>[];
  readonly note?: string;
}
