/** What is gone at the end of a fair day: what was taken along, less what came back and what sales on record sold. */
import { recordsDuring, recordsNaming } from '../../among.ts';
import type { Book, Day, Fair, Grade, Sale } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { NO_MONEY, total, type Money } from '../../number/money.ts';
import { booked } from '../../reckon/booked.ts';
import { fairOfSale } from '../../reckon/sales/fair.ts';
import { paidOn } from '../../reckon/sales/paid.ts';
import { saleMoney } from '../../reckon/sales/sale-money.ts';
import type { Refused } from '../../write/parts.ts';

/** So many pieces of a product, of a glaze and grade where that is said; no grade is first. */
export interface FairWare {
  readonly product: string;
  readonly glaze?: string | undefined;
  readonly grade?: Grade | undefined;
  readonly count: number;
}

/** One sort of ware that was taken along, and where it went. */
export interface WareRow extends Omit<FairWare, 'count'> {
  readonly taken: number;
  readonly back: number;
  /** Sold by the sales on record less what those took back, and broken or missing on record. */
  readonly onRecord: number;
  readonly gone: number;
}

/** A fair, and one of its days. */
export interface FairDay {
  readonly fair: Fair;
  readonly day: Day;
}

/** What was counted. */
export interface Counts {
  /** What lay on the stall that morning; absent: what the fair says it takes, for all of its days. */
  readonly took?: readonly FairWare[] | undefined;
  readonly back: readonly FairWare[];
}

/** `mug sea-green second`. */
export function wareName({ product, glaze, grade }: Omit<FairWare, 'count'>): string {
  return [product, glaze, grade === 'second' ? grade : undefined]
    .filter((word) => word !== undefined)
    .join(' ');
}

/** The sales of a fair up to and with a day, or on that day alone. */
export function salesAt(
  book: Book,
  { fair, day }: FairDay,
  isInTime: (date: Day) => boolean = (date) => date === day,
): Sale[] {
  const fairs = [...book.fairs.values()];
  return [...recordsNaming(book.sales, new Set([fair.id, fair.channel]))].filter(
    (sale) => isInTime(sale.date) && fairOfSale(fairs, sale) === fair.id,
  );
}

/** What is gone of each sort of ware; refused where more came back, or was sold, than was taken. */
export function countGone(
  book: Book,
  at: FairDay,
  { took, back }: Counts,
): readonly WareRow[] | Refused {
  const rows = openRows(took ?? at.fair.take ?? []);
  const isInTime = (date: Day): boolean => (took ? date === at.day : date <= at.day);
  const recorded = together([...soldAt(book, at, isInTime), ...goneAt(book, at, isInTime)]);
  const steps = [
    ...recorded.map((ware) => ({ ware, to: 'onRecord' as const })),
    ...together(back).map((ware) => ({ ware, to: 'back' as const })),
  ];
  // What names its glaze goes first, so that what names none takes what is left; of that, what is there.
  const named = steps.filter(({ ware }) => ware.glaze !== undefined);
  const others = steps.filter(({ ware }) => ware.glaze === undefined);
  const inTurn = [...named, ...others.filter(isBack), ...others.filter((step) => !isBack(step))];
  for (const { ware, to } of inTurn) {
    const left = put(rows, ware, to);
    const isKnown = rows.some(({ product }) => product === ware.product);
    if (left > 0 && (to === 'back' || isKnown)) return tooMany(rows, { ...ware, left, to });
  }
  return rows.map((row) => ({ ...row, gone: roomIn(row) }));
}

interface CountStep {
  readonly to: 'back' | 'onRecord';
}

function isBack({ to }: CountStep): boolean {
  return to === 'back';
}

interface OpenRow extends Omit<FairWare, 'count'> {
  taken: number;
  back: number;
  onRecord: number;
}

function openRows(taken: readonly FairWare[]): OpenRow[] {
  return together(taken).map(({ count, ...ware }) => ({
    ...ware,
    taken: count,
    back: 0,
    onRecord: 0,
  }));
}

function roomIn({ taken, back, onRecord }: OpenRow): number {
  return taken - back - onRecord;
}

/** Lines of the same ware as one, in the order of the first of each. */
function together(lines: readonly FairWare[]): FairWare[] {
  const sums = new Map<string, FairWare>();
  for (const ware of lines) {
    const key = wareName(ware);
    sums.set(key, { ...ware, count: ware.count + (sums.get(key)?.count ?? 0) });
  }
  return [...sums.values()];
}

/** Takes a count off the rows that it may be of; what found no room is returned. */
function put(rows: OpenRow[], ware: FairWare, to: CountStep['to']): number {
  let left = ware.count;
  for (const row of fitting(rows, ware)) {
    const count = Math.min(left, Math.max(0, roomIn(row)));
    // What was brought back lies on the stall again.
    row[to] += left < 0 ? left : count;
    left = left < 0 ? 0 : left - count;
  }
  if (left < 0) rows.push({ ...ware, taken: 0, back: 0, onRecord: left });
  return Math.max(0, left);
}

/** The rows that ware may be of: those of its glaze, then those of which one or the other names none. */
export function fitting<T extends Omit<FairWare, 'count'>>(
  rows: readonly T[],
  ware: Omit<FairWare, 'count'>,
): T[] {
  const same = rows.filter(
    ({ product, grade = 'first' }) => product === ware.product && grade === (ware.grade ?? 'first'),
  );
  const exact = same.filter(({ glaze }) => glaze === ware.glaze);
  const open = same.filter(
    ({ glaze }) => glaze !== ware.glaze && (glaze === undefined || ware.glaze === undefined),
  );
  return [...exact, ...open];
}

function soldAt(book: Book, at: FairDay, isInTime: (date: Day) => boolean): FairWare[] {
  return salesAt(book, at, isInTime).flatMap(({ lines }) =>
    lines.flatMap(({ product, lot, glaze, grade, count, returned }) => {
      if (product === undefined) return [];
      const own = glaze ?? glazeOfLot(book, lot);
      return [{ product, glaze: own, grade, count: returned === 'yes' ? -count : count }];
    }),
  );
}

/** What broke there or went missing, by the records of the lots. */
function goneAt(book: Book, { fair }: FairDay, isInTime: (date: Day) => boolean): FairWare[] {
  const lots = [...recordsNaming(book.pieces, new Set([fair.id]))];
  return lots.flatMap(({ id, product, gone = [] }) =>
    gone
      .filter(({ fair: where, date }) => where === fair.id && isInTime(date))
      .map(({ grade, count }) => ({ product, glaze: glazeOfLot(book, id), grade, count })),
  );
}

/** The glaze of a lot that names one alone. */
function glazeOfLot(book: Book, id: string | undefined): string | undefined {
  const glazes = id === undefined ? [] : (book.pieces.get(id)?.glazes ?? []);
  return glazes.length === 1 ? glazes[0]?.recipe : undefined;
}

function tooMany(
  rows: readonly OpenRow[],
  { left, to, sold: known = 0, ...ware }: FairWare & CountStep & { left: number; sold?: number },
): Refused {
  const own = fitting(rows, ware);
  const taken = own.reduce((sum, row) => sum + row.taken, 0);
  const sold = Math.max(
    known,
    own.reduce((sum, row) => sum + row.onRecord, 0),
  );
  const there = taken === 0 ? 'none was taken along' : `${taken} were taken along`;
  const name = wareName(ware);
  const back = own.reduce((sum, row) => sum + row.back, 0);
  if (to === 'onRecord' && back > 0 && ware.count <= taken)
    return tooMany(rows, { ...ware, left, to: 'back', count: back, sold: ware.count });
  if (to === 'onRecord')
    return {
      refused: `the records of the fair have more ${name} sold or gone than the ${taken} that were taken along; write all that was on the stall with --took`,
    };
  const less = sold > 0 ? ` and ${sold} are sold or gone on record` : '';
  return {
    refused: `${ware.count} ${name} came back, but ${there}${less}; correct --back, or write what was on the stall with --took`,
  };
}

/** What the records of a fair day say came in. */
export interface DayTakings {
  /** Sales that were paid that day, after advances used, and deposits and certificates taken. */
  readonly all: Money;
  /** What of it went by card; a sale through a card reader that does not say counts as all by card. */
  readonly card: Money;
  /** The sales that do not say, of a channel with a card reader. */
  readonly unsaid: readonly Sale[];
}

/** Sums them. */
export function takingsOf(book: Book, at: FairDay): DayTakings {
  const sales = salesAt(book, at).filter((sale) => paidOn(sale) === sale.date);
  const taken = [...recordsDuring(book.advances, { from: at.day, to: at.day })]
    .filter(({ channel, date }) => channel === at.fair.channel && date === at.day)
    .map(({ amount }) => booked(book, amount));
  const isRead = hasReader(book, at);
  const money = sales.map((sale) => ({ sale, ...saleMoney(book, sale) }));
  const said = money.filter(({ sale }) => isRead || sale.card !== undefined);
  return {
    all: total([...money.map(({ due }) => due), ...taken]),
    card: total(said.map(({ card }) => card)),
    unsaid: said.flatMap(({ sale, card }) =>
      sale.card === undefined && card !== NO_MONEY ? [sale] : [],
    ),
  };
}

/** Whether the fair's channel has, on that day, a card reader or site that takes a fee. */
export function hasReader({ channels }: Book, { fair, day }: FairDay): boolean {
  const channel = inForce(channels.get(fair.channel), day);
  return (channel?.feePercent ?? channel?.feeEach) !== undefined;
}
