/** Parts of the tax summary beside the form: the two bases, distance driven, and what is missing. */
import type { Book } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { NO_MONEY, type Money } from '../../number/money.ts';
import type { Basis } from '../../reckon/sales/income-fact.ts';
import { BASIS_ITEMS, type BasisDifference, type BasisItem } from '../../reckon/tax/tax-bases.ts';
import { broughtTogether, type Brought } from '../../reckon/brought.ts';
import type { Mileage } from '../../reckon/tax/tax-expenses.ts';
import type { Gap, GapReason } from '../../reckon/tax/tax-gaps.ts';
import type { TaxAccount } from '../../reckon/tax/tax-profit.ts';
import { distanceInWords } from './tax-words.ts';
import {
  type Accounts,
  type FromRows,
  type QuarterPart,
  type QuarterRow,
  both,
} from './quarter-rows.ts';

const BASIS_NAMES: Readonly<Record<BasisItem, string>> = {
  'sales-unpaid': 'Sold this period, paid later',
  'sales-paid': 'Paid this period, sold in another',
  'missing-pieces': 'Owed for pieces missing this period, less what was paid for such',
  classes: 'Classes given, less what was paid for classes',
  'advances-taken': 'Deposits and certificates taken',
  'advances-used': 'Deposits and certificates used up',
  'bills-unpaid': 'Bills of this period not yet paid',
  'bills-paid': 'Bills paid this period, dated in another',
  goods: 'Goods: deducted in another period',
};

/** What leads from one basis to the other. */
interface BetweenBases {
  readonly differences: readonly [readonly BasisDifference[], readonly BasisDifference[]];
  /** The basis of the summary. */
  readonly shown: Basis;
  /** What records bring to the cost of goods. */
  readonly costOf: (account: TaxAccount) => Brought;
}

/** From the cash profit to the accrual profit, for the period and the year to date. */
export function basesPart(
  cash: Accounts,
  accrual: Accounts,
  { differences, shown, costOf }: BetweenBases,
): QuarterPart {
  const goods = (at: 0 | 1): Brought => broughtTogether([costOf(cash[at])], [costOf(accrual[at])]);
  const of = (list: readonly BasisDifference[], item: BasisItem): BasisDifference | undefined =>
    list.find((each) => each.item === item);
  const rows = BASIS_ITEMS.map((item) => ({
    item: `basis.${item}`,
    name: BASIS_NAMES[item],
    amount: of(differences[0], item)?.amount ?? NO_MONEY,
    toDate: of(differences[1], item)?.amount ?? NO_MONEY,
    brought: of(differences[0], item)?.brought ?? (() => goods(0)),
    broughtToDate: of(differences[1], item)?.brought ?? (() => goods(1)),
  })).filter(isBasisNeeded);
  const profit = (accounts: Accounts, basis: Basis): QuarterRow => ({
    item: `basis.${basis}`,
    name: `Net profit on the ${basis} basis`,
    ...both(accounts, (each) => each.netProfit),
    from: basis === shown ? { plus: ['net-profit'] } : otherBasis(basis, rows),
  });
  return {
    part: 'From the cash basis to the accrual basis',
    rows: [profit(cash, 'cash'), ...rows, profit(accrual, 'accrual')],
  };
}

/** Of what is seldom there, or is the same on both bases, there is a row only where it is something. */
const SELDOM: ReadonlySet<string> = new Set(['basis.missing-pieces', 'basis.goods']);

function isBasisNeeded({ item, amount, toDate }: QuarterRow): boolean {
  return !SELDOM.has(item) || amount !== NO_MONEY || toDate !== NO_MONEY;
}

/** The profit on the basis that the summary is not on, out of the one that it is on. */
function otherBasis(basis: Basis, rows: readonly QuarterRow[]): FromRows {
  const differences = rows.map(({ item }) => item);
  return basis === 'accrual'
    ? { plus: ['basis.cash', ...differences] }
    : { plus: ['basis.accrual'], less: differences };
}

/** What the driving part goes by. */
interface DrivingBy {
  readonly mileage: Mileage | undefined;
  readonly unit: 'mi' | 'km';
  /** Whether the rate is deducted, and not what the car cost. */
  readonly isByRate: boolean;
}

/** Distance driven by the sheet's rate, beside the car expenses; none where nothing was driven. */
export function drivingPart(
  accounts: Accounts,
  { mileage, unit, isByRate }: DrivingBy,
): QuarterPart {
  const deducted = isByRate
    ? 'the rate is deducted, not what the car cost'
    : 'for information, not part of the profit';
  const part = `Driving: ${deducted}`;
  if (!mileage || mileage.distanceToDate.isZero()) return { part, rows: [] };
  const { distance, distanceToDate, value, valueToDate, ...journeys } = mileage;
  const year = distance.eq(distanceToDate)
    ? ''
    : `, ${distanceInWords(distanceToDate)} ${unit} to date`;
  const words = `By the rate: ${distanceInWords(distance)} ${unit}${year}`;
  const driven = { item: 'distance', name: words, ...journeys };
  if (value === undefined || valueToDate === undefined)
    return { part, rows: [{ ...driven, amount: null, toDate: null }] };
  const rate = { ...driven, amount: value, toDate: valueToDate };
  if (isByRate) return { part, rows: [rate] };
  const car = ({ expenses }: TaxAccount): Money =>
    expenses.find(({ item }) => item === 'expense.car')?.amount ?? NO_MONEY;
  return {
    part,
    rows: [
      rate,
      {
        item: 'distance.car',
        name: 'Car expenses, which are in the profit',
        ...both(accounts, car),
        from: { plus: ['expense.car'] },
      },
    ],
  };
}

const GAP_WORDS: Readonly<Record<GapReason, (gap: Gap, of: string) => string>> = {
  'no-tax-place': ({ brought }, of) =>
    `${of}: ${counted(brought.size, 'sale')}, no place for sales tax`,
  'unpaid-consignment': ({ brought }) => `Galleries owe for ${counted(brought.size, 'statement')}`,
  'unpaid-missing': ({ brought }) =>
    `Galleries owe for pieces missing in ${counted(brought.size, 'consignment')}`,
  'unpaid-sales': ({ brought }) => `Buyers owe for ${counted(brought.size, 'sale')}`,
  'unpaid-bills': ({ brought }) => `You owe ${counted(brought.size, 'bill')}`,
  'no-line': ({ brought }, of) =>
    `${counted(brought.size, 'expense')} for ${of}: not on any line of the sheet`,
  'other-expenses': ({ brought }) => `${counted(brought.size, 'expense')} for other: say what for`,
};

const MOST_IDS = 3;

/** What to look at before it goes to a preparer, with the first few records by their ids. */
export function gapsPart(book: Book, gaps: readonly Gap[]): QuarterPart {
  const rows = gaps.map((gap) => {
    const of = book.channels.get(gap.of)?.name ?? gap.of;
    const { size } = gap.brought;
    const ids = [...gap.brought.keys()].slice(0, MOST_IDS).join(', ');
    const more = size > MOST_IDS ? ` and ${size - MOST_IDS} more` : '';
    return {
      item: gap.of === '' ? `missing.${gap.reason}` : `missing.${gap.reason}.${gap.of}`,
      name: `${GAP_WORDS[gap.reason](gap, of)} (${ids}${more})`,
      amount: gap.amount,
      toDate: null,
      behind: [...gap.brought.keys()],
      brought: gap.brought,
    };
  });
  return { part: 'Check before sending', rows };
}
