/** The figures of a day's end: what was recorded, what is where, what to order, who owes whom. */
import { type Book, type Day, EVENT_KINDS, type FiringKind } from '../book.ts';
import type { Decimal } from '../number/decimal.ts';
import { type OpenAdvance, advancesOpen } from './sales/advance.ts';
import {
  type Debt,
  chargedFor,
  dueFor,
  invoiceTotal,
  missingOwed,
  owedByOthers,
  owedByStudio,
} from './sales/debts.ts';
import { type Depletion, USAGE_WINDOW, depletion } from './stock/depletion.ts';
import { type ClassOwed, classesOwed } from './sales/enrolment.ts';
import {
  type InKiln,
  type KilnRoom,
  type Ready,
  type Waiting,
  firingsInKiln,
  kilnRoom,
  readyWare,
  waitingWare,
} from './ware/standing.ts';
import { type PartInKiln, partsInKilns } from './kilns/kiln-parts.ts';
import { type TaxOwed, taxOwed } from './tax/sales-tax.ts';
import { taxView } from './tax/tax-view.ts';
import { recordsDated, recordsDuring, type Records } from '../among.ts';
import { addDays } from '../number/date.ts';
import { type Money, total as totalOf } from '../number/money.ts';
import { booked } from './booked.ts';
import { STUDIO_PLACE } from './ware/lot.ts';
import type { Flows } from './flows.ts';
import { countIn, grouped } from '../grouping.ts';

/** How the studio stands at the end of a day. */
export interface DayFigures {
  readonly asOf: Day;
  /** Whether the book has no event at all. */
  readonly isEmpty: boolean;
  /** The day of its first event, where that is still to come. */
  readonly begins: () => Day | undefined;
  readonly recorded: readonly Recorded[];
  readonly waiting: readonly Waiting[];
  readonly inKiln: readonly InKiln[];
  /** Finished ware in the studio. */
  readonly ready: readonly Ready[];
  /** Finished ware elsewhere, by product and place. */
  readonly atGalleries: readonly Ready[];
  readonly kilns: readonly KilnRoom[];
  /** Parts of kilns that have lasted as long as they should, or will have within a month. */
  readonly partsDue: readonly PartInKiln[];
  /** Out, or to be ordered by today, the most urgent first. */
  readonly toOrder: readonly Depletion[];
  /** Below its reorder mark, but not pressing. */
  readonly low: readonly Depletion[];
  readonly owedByOthers: readonly Debt[];
  readonly owedByStudio: readonly Debt[];
  /** Sales tax to pay over, by place, where the settings have rates of places. */
  readonly taxOwed: readonly TaxOwed[];
  /** What others paid ahead: deposits and certificates, and lessons that are still to come. */
  readonly advancesOpen: readonly OpenAdvance[];
  readonly classesOwed: readonly ClassOwed[];
}

/** Everything up to and with the day that the flows were run to. */
export function dayFigures(book: Book, flows: Flows): DayFigures {
  const { asOf } = flows.stock;
  const { taxes } = book.studio;
  const waiting = waitingWare(book, flows.ware);
  const ready = readyWare(book, flows.ware);
  const stock = depletion(book, flows.stock, USAGE_WINDOW);
  return {
    asOf,
    isEmpty: isEmpty(book),
    begins: () => beginsAfter(book, asOf),
    recorded: recordedOn(book, asOf),
    waiting,
    inKiln: firingsInKiln(book, flows),
    ready: ready.filter(({ place }) => place === STUDIO_PLACE),
    atGalleries: ready.filter(({ place }) => place !== STUDIO_PLACE),
    kilns: kilnRoom(book, flows.open, waiting),
    partsDue: partsInKilns(book, asOf).filter(({ state }) => state !== 'ok'),
    toOrder: stock.filter(({ isToOrder }) => isToOrder),
    low: stock.filter(({ state }) => state === 'low'),
    owedByOthers: owedByOthers(book, flows, asOf),
    owedByStudio: owedByStudio(book, asOf),
    taxOwed: taxes === undefined ? [] : taxOwed(taxView(book, flows)),
    advancesOpen: advancesOpen(book, asOf),
    classesOwed: classesOwed(book, flows),
  };
}

type EventKind = (typeof EVENT_KINDS)[number];

/** Records of one kind that are dated on the day, or what happened to earlier ones on it. */
export interface Recorded {
  /**
   * `lost` and `gone`: pieces of lots that left on the day; `paid`: earlier sales that were paid on it;
   * `paid-missing`: consignments of which missing pieces were paid for on it.
   */
  readonly kind: EventKind | 'lost' | 'gone' | 'paid' | 'paid-missing';
  /** Of firings, which sort. */
  readonly firing?: FiringKind;
  /** How many records; of lost and gone, how many pieces. */
  readonly count: number;
  /** Pieces made, loaded, or sent to galleries and fetched back. */
  readonly pieces?: number;
  /** Money: what purchases and expenses come to, what buyers were charged, what came in for earlier sales. */
  readonly amount?: Money;
}

/** What the book has of one day, in the order of a studio's day; nothing gives nothing. */
export function recordedOn(book: Book, day: Day): Recorded[] {
  const all = [
    ...EVENT_KINDS.flatMap((kind) => ofKind(book, day, kind)),
    ...leftOn(book, day),
    paidOn(book, day),
    paidForMissing(book, day),
  ];
  return all.filter(({ count }) => count > 0);
}

/** Whether nothing has happened in the book, nor is to. */
export function isEmpty(book: Book): boolean {
  return EVENT_KINDS.every((kind) => book[kind].size === 0);
}

/** The day of the book's first event, where that is still to come. */
export function beginsAfter(book: Book, day: Day): Day | undefined {
  // Most books have something of the last weeks, and then nobody has to look further.
  const isBegun = [addDays(day, -WEEKS), ''].some((from) => hasBegun(book, { from, to: day }));
  if (isBegun) return undefined;
  const days = EVENT_KINDS.flatMap((kind) => [...book[kind].values()].map(({ date }) => date));
  return days.sort()[0];
}

const WEEKS = 28;

function hasBegun(book: Book, days: { readonly from: Day; readonly to: Day }): boolean {
  return EVENT_KINDS.some((kind) => {
    const records: Records<{ readonly date: Day }> = book[kind];
    for (const { date } of recordsDuring(records, days)) if (date <= days.to) return true;
    return false;
  });
}

function ofKind(book: Book, day: Day, kind: EventKind): Recorded | readonly Recorded[] {
  switch (kind) {
    case 'bought':
      return withMoney(kind, dated(book.bought, day), (each) => invoiceTotal(book, each));
    case 'sales':
      return withMoney(kind, dated(book.sales, day), (sale) => chargedFor(book, sale));
    case 'advances':
    case 'spent':
      return withMoney<{ amount: Decimal }>(
        kind,
        dated<{ date: Day; amount: Decimal }>(book[kind], day),
        ({ amount }) => booked(book, amount),
      );
    case 'pieces': {
      const lots = dated(book.pieces, day);
      return {
        kind,
        count: lots.length,
        pieces: countIn(lots.map(({ made: count }) => ({ count }))),
      };
    }
    case 'firings':
      return firingsOn(book, day);
    case 'consigned':
      return consignedOn(book, day);
    case 'reclaimed':
    case 'mixed':
    case 'used':
    case 'counted':
    case 'orders':
    case 'fairs':
    case 'tests':
    case 'filed':
      return { kind, count: dated<{ date: Day }>(book[kind], day).length };
  }
}

function withMoney<T>(
  kind: Recorded['kind'],
  records: readonly T[],
  amountOf: (record: T) => Money,
): Recorded {
  return { kind, count: records.length, amount: totalOf(records.map(amountOf)) };
}

function firingsOn(book: Book, day: Day): Recorded[] {
  const firings = grouped(dated(book.firings, day), (firing) => firing.kind);
  return [...firings.keys()].sort().map((firing) => {
    const same = firings.get(firing) ?? [];
    const pieces = same.flatMap(({ load }) => load.map((line) => ({ count: line.in })));
    return { kind: 'firings', firing, count: same.length, pieces: countIn(pieces) };
  });
}

function consignedOn(book: Book, day: Day): Recorded {
  const consigned = dated(book.consigned, day);
  const lines = consigned.flatMap(({ sent = [], back = [], missing = [] }) => [
    ...sent,
    ...back,
    ...missing,
  ]);
  return { kind: 'consigned', count: consigned.length, pieces: countIn(lines) };
}

function leftOn(book: Book, day: Day): Recorded[] {
  return (['lost', 'gone'] as const).map((kind) => {
    const lines = on(book.pieces, day).flatMap((lot) => [...(lot[kind] ?? [])]);
    const today = lines.filter(({ date }) => date === day);
    return { kind, count: countIn(today) };
  });
}

function paidOn(book: Book, day: Day): Recorded {
  const paid = on(book.sales, day).filter((sale) => sale.paid === day && sale.date < day);
  return withMoney('paid', paid, (sale) => dueFor(book, sale));
}

function paidForMissing(book: Book, day: Day): Recorded {
  const paid = missingOwed(book).filter((owed) => owed.paid === day && owed.date <= day);
  const count = new Set(paid.map(({ by }) => by)).size;
  return { kind: 'paid-missing', count, amount: totalOf(paid.map(({ amount }) => amount)) };
}

function dated<T extends { readonly date: Day }>(records: Records<T>, day: Day): T[] {
  return recordsDated(records, { from: day, to: day });
}

/** Records that may have the day anywhere in them. */
function on<T>(records: Records<T>, day: Day): T[] {
  return [...recordsDuring(records, { from: day, to: day })];
}
