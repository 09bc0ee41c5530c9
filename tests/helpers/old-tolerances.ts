/** How far the figures of each report may be from those of version 0.1.0, and why where it is more than a cent. */
import type { Tolerance } from './old-answers.ts';

/** A cent for each booking that is rounded once; what is sold and counted stays what it was. */
const USUAL: Tolerance = { money: 1, ratio: 1e-2, quantity: 1e-9 };

/** Figures that may be off by more: all that is named has to fit, and what isn't named may be anything. */
interface Looser extends Partial<Tolerance> {
  readonly reports: readonly string[];
  readonly columns: readonly string[];
  readonly studios?: readonly string[];
  /** What names the row. */
  readonly rows?: RegExp;
  /** The answer's file. */
  readonly answers?: RegExp;
  readonly why: string;
}

const TOTALS = /^totals$/;
const NOT_TOTALS = /^(?!totals$)/;
const RANDOM = ['grown-jpy', 'grown-kwd'];

/** What the galleries of each studio owe for missing pieces in any one answer, in minor units. */
const OWED_FOR_MISSING = {
  example: 1800,
  'grown-usd': 4500,
  'grown-jpy': 2400,
  'grown-kwd': 36_000,
};

/** The pace of a year is up to four times what is owed. */
const PACE = 4;

const MISSING: readonly Looser[] = Object.entries(OWED_FOR_MISSING).flatMap(([studio, owed]) => [
  {
    reports: ['galleries'],
    columns: ['unpaid'],
    studios: [studio],
    money: owed,
    why: 'what a gallery owes for missing pieces is in what is unpaid',
  },
  {
    reports: ['quarter'],
    columns: ['amount', 'toDate'],
    studios: [studio],
    rows: /^(Income, income|Profit, )|, (basis\.accrual|line\.|estimate\.)/,
    money: owed * PACE,
    why: 'what a gallery owes for missing pieces is income',
  },
]);

const LOOSER: readonly Looser[] = [
  ...MISSING,
  {
    reports: ['income'],
    columns: ['gross', 'net', 'margin', 'marginRate'],
    studios: ['grown-kwd'],
    money: 108_000,
    ratio: 2,
    why: 'what a gallery owes for missing pieces is income there, with discounts shown apart',
  },
  {
    reports: ['firings'],
    columns: ['total'],
    money: 2,
    why: 'a sum of energy, wear, supplies and tending, each rounded once',
  },
  {
    reports: ['firings'],
    columns: ['wearCost', 'total'],
    rows: TOTALS,
    money: 40,
    why: 'wear is the same rounded amount at each of up to 79 firings, so its rounding adds up',
  },
  {
    reports: ['firings'],
    columns: ['energyCost', 'suppliesCost', 'labourCost'],
    rows: TOTALS,
    money: 7,
    why: 'a sum over all firings, each rounded once; tending of half yen is rounded up each time',
  },
  {
    reports: ['materials'],
    columns: ['value', 'valueChange'],
    money: 3,
    why: 'a bucket holds what each material of each mix was rounded to; a total sums all pools',
  },
  {
    reports: ['materials'],
    columns: ['cameFrom', 'wentTo'],
    money: 6,
    why: 'sums over a span of what each draw was rounded to',
  },
  {
    reports: ['quarter'],
    columns: ['amount', 'toDate'],
    rows: /^(?!Income, )/,
    money: 8,
    why: 'sums over a span of what each draw was rounded to',
  },
  {
    reports: ['quarter'],
    columns: ['amount'],
    rows: /annualised/,
    money: 16,
    why: 'the pace of a year is up to four times one of those sums',
  },
  {
    reports: ['quarter'],
    columns: ['amount'],
    studios: ['grown-usd'],
    rows: /estimate\.\d\.(profit|earnings)/,
    money: 10,
    why: 'a sum of eight months of much ware, of which some came back',
  },
  {
    reports: ['costs'],
    columns: ['floorDirect', 'floorFair', 'floorOnline', 'floorConsignment', 'floor'],
    money: 2,
    why: 'the next whole cent above a cost, of which a gallery keeps two fifths',
  },
  {
    reports: ['costs'],
    columns: ['notes'],
    money: 7,
    why: 'running expenses of a year less the energy of its firings, each rounded once',
  },
  {
    reports: ['materials', 'quarter'],
    columns: ['wentTo', 'amount', 'toDate'],
    studios: ['grown-usd'],
    rows: /left, |consumed\./,
    money: 16,
    why: 'clay, glaze, supplies and packing of 14 months of much ware, each rounded by itself',
  },
  {
    reports: ['materials'],
    columns: ['unitCost'],
    studios: ['grown-jpy'],
    answers: /iron-oxide|chalk|rutile|red-clay/,
    ratio: 0.22,
    why: 'what is left of it is worth a few whole yen',
  },
  {
    reports: ['pieces'],
    columns: ['cost'],
    money: 6,
    why: 'seven components of many lots, each rounded by itself',
  },
  {
    reports: ['pieces'],
    columns: ['cost'],
    studios: ['grown-usd'],
    rows: /mug|totals/,
    money: 46,
    why: 'mugs came back at what they had cost when sold, not at the cost of what was there',
  },
  {
    reports: ['fairs'],
    columns: ['cost', 'profit', 'broken'],
    money: 10,
    why: 'seven components of each piece, and packing sale by sale, each rounded once',
  },
  {
    reports: ['income'],
    columns: ['cost', 'margin'],
    money: 32,
    why: 'seven components of each of up to 3,000 pieces, and packing sale by sale, each rounded once',
  },
  {
    reports: ['income'],
    columns: ['cost', 'margin'],
    studios: ['grown-usd'],
    rows: NOT_TOTALS,
    money: 115,
    why: 'mugs came back at what they had cost when sold, not at the cost of what was there',
  },
  {
    reports: ['income', 'fairs'],
    columns: ['gross', 'discounts'],
    studios: ['example'],
    money: 4800,
    why: "a line's own discount shows under discounts, and is not taken out of gross; net stays",
  },
  {
    reports: ['quarter'],
    columns: ['amount', 'toDate'],
    studios: ['example'],
    rows: /^Income, (sales\.online|discounts),/,
    money: 4800,
    why: "a line's own discount shows under discounts; the sum of income stays",
  },
  {
    reports: ['quarter'],
    columns: ['amount', 'toDate'],
    studios: ['example'],
    rows: /, line\.(takings|given-back),/,
    money: 4800,
    why: "a line's own discount shows under discounts; the plain sheet takes them off with what was given back",
  },
  {
    reports: ['income', 'fairs'],
    columns: ['gross', 'discounts'],
    studios: RANDOM,
    money: 84_000,
    why: 'so do those of its many lines with a third off; of what came back none is a discount any more',
  },
  {
    reports: ['quarter'],
    columns: ['amount', 'toDate'],
    studios: RANDOM,
    rows: /^Income, (sales\.|consignment\.|classes|discounts)|, line\.(takings|given-back),/,
    money: 84_000,
    why: 'so do those of its many lines with a third off; of what came back none is a discount any more',
  },
  {
    reports: ['income', 'quarter', 'fairs'],
    columns: ['net', 'returns', 'margin', 'amount', 'toDate'],
    studios: ['grown-jpy'],
    money: 190,
    why: 'one sale of lines sold and back has a tax of its own, which is of what is sold alone (s251229co)',
  },
  {
    reports: ['income'],
    columns: ['fees', 'margin'],
    studios: ['grown-jpy'],
    money: 159,
    why: 'a fee is of the lines sold, and no longer of those that came back with them',
  },
  {
    reports: ['income'],
    columns: ['cost', 'margin'],
    studios: ['grown-jpy'],
    rows: NOT_TOTALS,
    money: 5392,
    why: 'much ware came back, at what it had cost when sold, and was sold again in another month or place',
  },
  {
    reports: ['fairs'],
    columns: ['cost', 'profit'],
    studios: ['grown-jpy'],
    money: 736,
    why: 'ware came back at fairs, at what it had cost when sold, and was sold again elsewhere',
  },
  {
    reports: ['income'],
    columns: ['cost', 'margin'],
    studios: ['grown-kwd'],
    answers: /by-channel/,
    rows: /^(web-shop|studio-door),/,
    money: 39_040,
    why: 'a planter came back at one channel at what it had cost when sold, and went out at another',
  },
  {
    reports: ['income', 'fairs'],
    columns: ['marginRate', 'profitPerHour'],
    studios: RANDOM,
    ratio: 0.19,
    why: 'much ware came back, at what it had cost when sold and not at the cost of what was there',
  },
  {
    reports: ['income'],
    columns: ['marginPerHour'],
    ratio: 2,
    why: 'what an hour leaves is before that work is paid, over all minutes for a good piece, as in costs',
  },
];

/** Which figure it is, and where it is said. */
export interface Place {
  readonly studio: string;
  /** The first word of what was asked. */
  readonly report: string;
  readonly answer: string;
  readonly column: string;
  readonly row: string;
}

/** How far a figure may be off: the widest of all that is said of it. */
export function toleranceAt(place: Place): Tolerance {
  const fitting = LOOSER.filter((looser) => isOf(looser, place));
  const widest = (key: keyof Tolerance): number =>
    Math.max(USUAL[key], ...fitting.map((looser) => looser[key] ?? 0));
  return { money: widest('money'), ratio: widest('ratio'), quantity: widest('quantity') };
}

function isOf(looser: Looser, { studio, report, answer, column, row }: Place): boolean {
  return (
    looser.reports.includes(report) &&
    looser.columns.includes(column) &&
    (looser.studios?.includes(studio) ?? true) &&
    (looser.rows?.test(row) ?? true) &&
    (looser.answers?.test(answer) ?? true)
  );
}
