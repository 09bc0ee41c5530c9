/** What a tax sheet says of the law of its year, beside its lines: as data, with the source of each in the sheet. */
import type { Decimal } from '../../number/decimal.ts';

/**
 * What counts as the cost of goods on the cash basis: `paid` is what was paid for goods in the period,
 * without stock; `used-and-paid` is what was used or sold, and not before it is paid for. A sheet that
 * says neither goes by stock on both bases.
 */
export type GoodsOnCash = 'paid' | 'used-and-paid';

/** How goods are deducted. */
export interface GoodsLaw {
  readonly cash?: GoodsOnCash;
  /** What goods for one's own use count as on the accrual basis; absent means what they had cost. */
  readonly ownUse?: 'price';
}

/** A part of the law of a sheet that may be from memory. */
interface Verifiable {
  /** Whether its figures were not seen in the authority's own words. */
  readonly isUnverified?: boolean;
}

/** Payments to one payee in a year that an information return is due for. */
export interface PayeeLaw extends Verifiable {
  /** Spending categories. */
  readonly categories: readonly string[];
  /** The least that it is due for. */
  readonly least: Decimal;
}

/** A fixed allowance that may be taken instead of the expenses, never more than the income. */
export interface AllowanceLaw {
  readonly number: string;
  readonly amount: Decimal;
  /** Lines of income, and the one of all expenses. */
  readonly income: readonly string[];
  readonly expenses: string;
}

/** What was bought to last and cost no more than this may be an expense by an election. */
export interface LastingLaw extends Verifiable {
  /** The most, for an item or an invoice. */
  readonly limit: Decimal;
  /** What the election is called. */
  readonly name: string;
}

/** The form is for less income than this. */
export interface IncomeLimit extends Verifiable {
  readonly amount: Decimal;
  readonly lines: readonly string[];
  /** What to do above it. */
  readonly above: string;
}

/** Money for each mile or kilometre up to a distance in a year; the last rate has no end. */
export interface MileageRate {
  readonly upTo?: Decimal;
  readonly rate: Decimal;
}

/** Figures of the self-employment tax of a year. */
export interface SelfEmployment {
  /** The part of the profit that is taxed, and the two rates, as fractions of 1. */
  readonly share: Decimal;
  readonly socialSecurity: Decimal;
  readonly medicare: Decimal;
  /** The most that social security is taken of. */
  readonly wageBase: Decimal;
  /** Nothing is owed on less. */
  readonly least: Decimal;
  /** Numbers of the lines of its own form, by what is on them. */
  readonly lines?: Partial<Readonly<Record<SelfEmploymentLine, string>>>;
}

/** What the form on self-employment tax asks, in its order. */
export const SELF_EMPLOYMENT_LINES = [
  'profit',
  'together',
  'earnings',
  'earnings-together',
  'taxed',
  'wage-base',
  'wages',
  'left',
  'social-security',
  'medicare',
  'tax',
  'half',
] as const;

export type SelfEmploymentLine = (typeof SELF_EMPLOYMENT_LINES)[number];

/** Lines that only carry others on; a sheet may leave them out. */
export const CARRYING_LINES: ReadonlySet<SelfEmploymentLine> = new Set([
  'together',
  'earnings-together',
  'taxed',
  'left',
]);

/** A stretch of the year, from its start to a day, when something is due for it. */
export interface DuePeriod {
  /** `MM-DD`. */
  readonly to: string;
  /** `MM-DD`, the next one after `to`. */
  readonly due: string;
}

/** A period of estimated tax; profit to its end × factor is a year's, and by its due day a share of that year's tax is asked. */
export interface EstimatePeriod extends DuePeriod {
  readonly factor: Decimal;
  readonly share: Decimal;
}

/** The tax of a year that has to be paid ahead in all: the smaller of two shares, as fractions of 1. */
export interface PaidAhead {
  readonly ofThisYear: Decimal;
  readonly ofLastYear: Decimal;
  /** Of last year's where its income was above a limit. */
  readonly above: { readonly income: Decimal; readonly ofLastYear: Decimal };
}

/** Estimated tax: its periods, and what has to be paid ahead where a sheet says so. */
export interface EstimateLaw {
  readonly periods: readonly EstimatePeriod[];
  readonly paidAhead?: PaidAhead;
}
