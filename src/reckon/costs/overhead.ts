/** Overhead: the running expenses of a stretch of days, and how they are spread over what was made in it. */
import { recordsDated } from '../../among.ts';
import type { Book, Firing, LoadLine, Spent } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import type { OverheadBasis } from '../../groups.ts';
import type { Span } from '../../number/date.ts';
import { ZERO, decimal, divide, portion, sum, type Decimal } from '../../number/decimal.ts';
import {
  NO_MONEY,
  decimalOf,
  less,
  lesser,
  total as totalOf,
  type Money,
} from '../../number/money.ts';
import { booked, digitsOf } from '../booked.ts';
import { spaceOf } from '../kilns/firing-cost.ts';
import { minutesOfLot } from '../ware/lot-making.ts';
import { isPaidOver } from '../sales/paid.ts';
import { firingsOn, type Flows } from '../flows.ts';

/** The overhead of a stretch of days. */
export interface Overhead {
  readonly by: OverheadBasis;
  /** What is spread. */
  readonly total: Money;
  /** Ids of the expenses in it. */
  readonly records: readonly string[];
  /** Utilities that were left out because they pay for the energy of the firings, which bear it themselves. */
  readonly energyPaid: Money;
  /** Kiln parts that were left out because the firings bear the wear of them. */
  readonly wearPaid: Money;
  /** Wages that were left out because the studio charges its hours to the pieces. */
  readonly workPaid: Money;
  /** Kiln space fired, or minutes worked: what it is spread over. */
  readonly over: Decimal;
  /** Total ÷ over, a ratio; zero where there is nothing to spread it over. */
  readonly rate: Decimal;
}

/** No overhead at all. */
export const NO_OVERHEAD: Overhead = {
  by: 'space',
  total: NO_MONEY,
  records: [],
  energyPaid: NO_MONEY,
  wearPaid: NO_MONEY,
  workPaid: NO_MONEY,
  over: ZERO,
  rate: ZERO,
};

/** Costs of selling: they belong to a sale or a channel, and not to the making of a piece. */
const SELLING: ReadonlySet<string> = new Set([
  'advertising',
  'booth',
  'car',
  'commissions',
  'freight-out',
  'meals',
  'travel',
]);

/**
 * The expenses that keep the studio going whatever is made, by their dates: everything that is spent
 * but sales tax that is paid over, the costs of selling (their categories, and whatever names a channel or a fair), the energy of the span's
 * firings as far as utilities pay for it, parts of kilns whose wear is charged to the firings, and
 * wages where the studio charges its own hours. Spread by the kiln space of all that was fired in the
 * span (once for each firing), or by the minutes of work on the lots made and the firings tended in it.
 */
export function overheadOf(
  book: Book,
  flows: Flows,
  { span, by }: { span: Span; by: OverheadBasis },
): Overhead {
  const spent = recordsDated(book.spent, span).filter(
    (each) => !isSelling(each) && !isPaidOver(book, each),
  );
  const worn = spent.filter((each) => isWorn(book, each));
  const worked = spent.filter((each) => isWork(book, each));
  const running = spent.filter((each) => !worn.includes(each) && !worked.includes(each));
  const amountOf = (some: readonly Spent[]): Money =>
    totalOf(some.map(({ amount }) => booked(book, amount)));
  const utilities = amountOf(running.filter((each) => each.for === 'utilities'));
  const energyPaid = lesser(utilities, firingEnergy(flows, span));
  const total = less(amountOf(running), energyPaid);
  const over = by === 'space' ? spaceFired(book, span) : minutesWorked(book, span);
  const rate = over.isZero() ? ZERO : divide(decimalOf(total, digitsOf(book)), over);
  const records = running.map(({ id }) => id).sort();
  const paid = { energyPaid, wearPaid: amountOf(worn), workPaid: amountOf(worked) };
  return { by, total, records, ...paid, over, rate };
}

/** What one load line bears: by space, its space × the rate; by labour, its share of the tending. */
export function overheadOfLine(
  book: Book,
  overhead: Overhead,
  { firing, line }: { firing: Firing; line: LoadLine },
): Decimal {
  const amount =
    overhead.by === 'space' ? spaceOf(book, firing, line) : tendedMinutes(book, { firing, line });
  return amount.times(overhead.rate);
}

/** What the making of a lot bears: by labour, its minutes × the rate; by space nothing. */
export function overheadOfMaking(overhead: Overhead, minutes: Decimal | undefined): Decimal {
  if (overhead.by === 'space' || !minutes) return ZERO;
  return minutes.times(overhead.rate);
}

/** Minutes of work at the kiln that fall to one load line, shared by kiln space. */
export function tendedMinutes(
  book: Book,
  { firing, line }: { firing: Firing; line: LoadLine },
): Decimal {
  const minutes = (firing.tended ?? ZERO).times(decimal(60));
  if (minutes.isZero()) return ZERO;
  const space = sum(firing.load.map((each) => spaceOf(book, firing, each)));
  const count = decimal(firing.load.length);
  return space.isZero()
    ? divide(minutes, count)
    : portion(minutes, spaceOf(book, firing, line), space);
}

/** The money of an expense that names a channel or a fair was spent to sell there. */
function isSelling({ for: category, channel, fair }: Spent): boolean {
  return channel !== undefined || fair !== undefined || SELLING.has(category);
}

/** Where hours are charged to the pieces, wages for them would be charged twice. */
function isWork(book: Book, { date, for: category }: Spent): boolean {
  return category === 'wages' && inForce(book.studio, date).labourRate !== undefined;
}

/** A part of a kiln whose wear the firings bear; of any such kiln where none is named. */
function isWorn(book: Book, { for: category, kiln }: Spent): boolean {
  if (category !== 'kiln-parts') return false;
  const kilns = kiln === undefined ? [...book.kilns.values()] : [book.kilns.get(kiln)];
  return kilns.some((each) => (each?.wear ?? []).length > 0);
}

function firingEnergy({ ware }: Flows, span: Span): Money {
  const fired = firingsOn(ware, span);
  return totalOf(fired.map(({ energyCost }) => energyCost ?? NO_MONEY));
}

function spaceFired(book: Book, span: Span): Decimal {
  const firings = recordsDated(book.firings, span);
  return sum(firings.flatMap((each) => each.load.map((line) => spaceOf(book, each, line))));
}

/** A firing without a load is left out: no piece could bear its part. */
function minutesWorked(book: Book, span: Span): Decimal {
  const tended = recordsDated(book.firings, span).filter(({ load }) => load.length > 0);
  const hours = sum(tended.map((firing) => firing.tended ?? ZERO));
  const lots = recordsDated(book.pieces, span);
  const making = sum(lots.map((lot) => minutesOfLot({ book }, lot) ?? ZERO));
  return making.plus(hours.times(decimal(60)));
}
