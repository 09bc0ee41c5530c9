/** Numbers of invoices and credit notes: a series, then a whole number; within a series none twice, none left out. */
import { recordsHaving, type Records } from '../../among.ts';
import type { InvoiceSeries, Sale } from '../../book.ts';
import { grouped } from '../../grouping.ts';

/** A number taken apart. */
interface PartedNumber {
  readonly series: string;
  readonly count: number;
}

/** A sale that has a number. */
export interface NumberedSale extends PartedNumber {
  readonly sale: Sale;
  /** As it is in the record. */
  readonly number: string;
}

/** What numbers are looked for in. */
interface NumberedBook {
  readonly sales: { readonly values: () => Iterable<Sale> };
}

/** Where a series is not unbroken. */
export interface SeriesFaults {
  /** Each with the sale that has its number already. */
  readonly doubles: readonly (readonly [sale: NumberedSale, earlier: NumberedSale])[];
  /** Each with the first number and the last that are left out before it. */
  readonly gaps: readonly (readonly [after: NumberedSale, from: string, to: string])[];
}

const USUAL_DIGITS = 4;
const MOST_DIGITS = 9;
const PARTED = /^(.*[A-Za-z-])(\d{1,9})$/;

/** The sales that have numbers, series by series in their order. */
export function numberedSales({ sales }: NumberedBook): NumberedSale[] {
  return [...recordsHaving(sales as Records<Sale>, 'number')].flatMap(partedSale).sort(bySeries);
}

function partedSale(sale: Sale): NumberedSale[] {
  const { number = '' } = sale;
  const [, series, digits] = PARTED.exec(number) ?? [];
  return series === undefined ? [] : [{ sale, number, series, count: Number(digits) }];
}

function bySeries(one: NumberedSale, other: NumberedSale): number {
  if (one.series !== other.series) return one.series < other.series ? -1 : 1;
  if (one.count !== other.count) return one.count - other.count;
  return one.sale.date + one.sale.id < other.sale.date + other.sale.id ? -1 : 1;
}

/** What comes after the highest number of a series; of a new series 1. */
export function nextNumber(
  numbered: readonly NumberedSale[],
  { series, digits }: InvoiceSeries,
): string {
  const last = numbered.findLast((each) => each.series === series);
  const least = Math.min(digits ?? digitsIn(last), MOST_DIGITS);
  return numberOf({ series, count: (last?.count ?? 0) + 1 }, least);
}

function digitsIn(numbered: NumberedSale | undefined): number {
  return numbered ? numbered.number.length - numbered.series.length : USUAL_DIGITS;
}

function numberOf({ series, count }: PartedNumber, digits: number): string {
  return series + String(count).padStart(digits, '0');
}

/** Whether no sale has a higher number of the series. */
export function isLastNumber(numbered: readonly NumberedSale[], sale: Sale): boolean {
  const [own] = partedSale(sale);
  return own !== undefined && !numbered.some((each) => isBeyond(each, own));
}

function isBeyond(each: NumberedSale, own: NumberedSale): boolean {
  return each.series === own.series && each.count > own.count;
}

/** Numbers that two sales have, and those that none has between the first and the last of a series. */
export function seriesFaults(numbered: readonly NumberedSale[]): SeriesFaults {
  const pairs = [...grouped(numbered, ({ series }) => series).values()].flatMap((each) =>
    each.slice(1).map((later, at) => [later, each[at] ?? later] as const),
  );
  return {
    doubles: pairs.filter(([later, earlier]) => later.count === earlier.count),
    gaps: pairs
      .filter(([later, earlier]) => later.count > earlier.count + 1)
      .map(([later, earlier]) => {
        const [from, to] = [earlier.count + 1, later.count - 1].map((count) =>
          numberOf({ series: later.series, count }, digitsIn(later)),
        );
        return [later, from ?? '', to ?? ''] as const;
      }),
  };
}
