/** Of all figures that a change moves, the few that say what it does to money, stock and pieces. */
import { ZERO } from '../number/decimal.ts';
import type { Consequence } from './figures.ts';
import { TOTAL, type MovedFigure } from './report-figures.ts';

/** Figures that are shown under one name. */
interface ShownFigure {
  readonly name: string;
  /** What a figure is of, where it is one of these: a quarter, a product, a material. */
  readonly of: (figure: MovedFigure) => string | undefined;
  /** Of what these are parts: where that moved, its line is enough. */
  readonly under?: string;
}

type OfFigure = ShownFigure['of'];

function totals(report: string, by: string, column: string): OfFigure {
  return (each) =>
    isOfColumn(each, report, column) && each.by === by && each.row === TOTAL
      ? each.period
      : undefined;
}

function rows(report: string, by: string, column: string): OfFigure {
  return (each) =>
    isOfColumn(each, report, column) && each.by === by && each.row !== TOTAL
      ? ofPeriod(each, each.row)
      : undefined;
}

/** Of all days, and not of each quarter too. */
function rowsOfAll(report: string, by: string, column: string): OfFigure {
  const of = rows(report, by, column);
  return (each) => (each.period === '' ? of(each) : undefined);
}

function line(item: string): OfFigure {
  return (each) => (isOfSummary(each) && each.row === item ? each.period : undefined);
}

/** Of a quarter's own summary: that of the year is their sum. */
function isOfSummary(each: MovedFigure): boolean {
  return isOfColumn(each, 'quarter', 'amount') && each.by === '' && each.period.includes('-Q');
}

/** The profit on the other basis, by which nothing is filed. */
function profitOnOtherBasis(each: MovedFigure): string | undefined {
  const { by, period, row } = each;
  const isProfit = isOfColumn(each, 'quarter', 'amount') && row === 'net-profit';
  return isProfit && by !== '' && period.includes('-Q') ? `${period}, ${by}` : undefined;
}

/** Lines of the summary that are of something each: `expense.rent-place`; of nothing is of no place. */
function lines(kind: string, fits: (of: string) => boolean = () => true): OfFigure {
  return (each) => {
    const of = each.row.slice(kind.length + 1);
    return isOfSummary(each) && each.row.startsWith(`${kind}.`) && fits(of)
      ? ofPeriod(each, of || 'no place')
      : undefined;
  };
}

function debts(section: string): OfFigure {
  return (each) =>
    isOfColumn(each, 'day', 'amount') && each.row.startsWith(`${section}, `)
      ? each.row.slice(section.length + 2)
      : undefined;
}

function isOfColumn(figure: MovedFigure, report: string, column: string): boolean {
  return figure.report === report && figure.column === column;
}

function ofPeriod({ period }: MovedFigure, of: string): string {
  return period === '' ? of : `${period}, ${of}`;
}

const INCOME = 'income';
const FEES = 'fees and commission';
const SALES_TAX = 'sales tax collected';

/** Names of figures that the sentences at the top of a review go by. */
export const FIGURE = {
  currency: 'currency',
  profit: 'net profit',
  stock: 'stock at the end',
  stockByKind: 'stock by kind',
  onHand: 'on hand',
} as const;

/** Figures of ware, each with its column. */
const WARE: Readonly<Record<string, string>> = {
  greenware: 'greenware',
  bisqueware: 'bisqueware',
  'in the kiln': 'inKiln',
  'firsts in the studio': 'first',
  'seconds in the studio': 'second',
  'at galleries': 'atGalleries',
};

/** Whether a figure counts ware. */
export function countsWare(figure: string): boolean {
  return figure in WARE;
}

/** What others keep of sales is among the expenses too. */
function isFee(category: string): boolean {
  return category === 'card-fees' || category === 'gallery-commissions';
}

/** In the order in which they are shown: money by quarter, debts, losses, what stands, materials. */
const SHOWN: readonly ShownFigure[] = [
  { name: FIGURE.profit, of: line('net-profit') },
  { name: 'net profit on the other basis', of: profitOnOtherBasis, under: FIGURE.profit },
  { name: INCOME, of: totals('income', 'product', 'net') },
  { name: 'income through', of: rows('income', 'channel', 'net'), under: INCOME },
  { name: 'income from', of: rows('income', 'product', 'net'), under: INCOME },
  { name: FEES, of: totals('income', 'product', 'fees') },
  { name: 'margin', of: totals('income', 'product', 'margin') },
  { name: SALES_TAX, of: lines('sales-tax') },
  { name: 'sales tax given back', of: lines('sales-tax-back') },
  { name: 'sales tax paid over', of: lines('sales-tax-paid') },
  { name: 'sales with tax', of: lines('sales-taxed'), under: SALES_TAX },
  { name: 'sales without tax', of: lines('sales-untaxed'), under: SALES_TAX },
  { name: 'fees', of: lines('expense', isFee), under: FEES },
  { name: 'expenses', of: lines('expense', (category) => !isFee(category)) },
  { name: 'purchases', of: line('purchases') },
  { name: 'cost of goods sold', of: line('cost-of-goods-sold') },
  { name: FIGURE.stock, of: line('closing') },
  { name: FIGURE.stockByKind, of: lines('closing'), under: FIGURE.stock },
  { name: 'owed to you', of: debts('owed-to-you') },
  { name: 'you owe', of: debts('you-owe') },
  { name: 'paid ahead', of: debts('paid-ahead') },
  { name: 'to make for order', of: rows('orders', '', 'toMake') },
  { name: 'cost of firing', of: rows('firings', '', 'total') },
  { name: 'pieces lost', of: rowsOfAll('losses', 'firing', 'lost') },
  { name: 'seconds fired', of: rowsOfAll('losses', 'firing', 'second') },
  ...Object.entries(WARE).map(([name, column]) => {
    return { name, of: rows('pieces', 'product', column) };
  }),
  { name: FIGURE.onHand, of: rows('materials', '', 'onHand') },
  { name: 'state', of: rows('materials', '', 'state') },
  { name: 'below cost', of: rows('costs', 'space', 'belowAt') },
];

/** Those that the change is shown by, the most important first; `isClosed` tells which quarters are. */
export function shownFigures(
  moved: readonly MovedFigure[],
  isClosed: (period: string) => boolean,
): Consequence[] {
  const found = new Map(
    SHOWN.map(({ name, of }) => [name, moved.filter((each) => of(each) !== undefined)]),
  );
  return SHOWN.flatMap(({ name, of, under }) => {
    const own = found.get(name) ?? [];
    const said = under === undefined ? own : partsToSay(own, found.get(under) ?? []);
    return said.map((each): Consequence => {
      const { period, type, unit, before, after } = each;
      return {
        figure: name,
        of: of(each) ?? '',
        type,
        ...(unit === undefined ? {} : { unit }),
        ...(isClosed(period) ? { isClosed: true } : {}),
        ...(type === 'text' ? { before, after } : { before: before ?? ZERO, after: after ?? ZERO }),
      };
    });
  });
}

/** What was only put elsewhere: the whole of the quarter is as it was. */
function partsToSay(
  parts: readonly MovedFigure[],
  wholes: readonly MovedFigure[],
): readonly MovedFigure[] {
  const moved = new Set(wholes.map(({ period }) => period));
  return parts.filter(({ period }) => !moved.has(period));
}
