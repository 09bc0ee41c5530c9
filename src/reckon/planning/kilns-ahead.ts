/** What kilns can take in the days ahead: room by kind of firing, how long a firing keeps them, when they are free. */
import { recordsDated } from '../../among.ts';
import type { Book, Day, Firing, FiringKind, Kiln } from '../../book.ts';
import { addTo, grouped } from '../../grouping.ts';
import { addDays, dayNumber } from '../../number/date.ts';
import { ONE, ZERO, decimal, divide, sum, type Decimal } from '../../number/decimal.ts';
import { cached } from '../../once.ts';
import type { Flows } from '../flows.ts';
import { spaceOf } from '../kilns/firing-cost.ts';
import { DAYS_BACK } from './yields.ts';

/** One kiln as plans go by it. Days are numbers, as `dayNumber` gives them. */
export interface KilnAhead {
  readonly id: string;
  /** Room for own ware in a kind of firing, in millionths of the unit of space; 0 of what it doesn't fire. */
  readonly roomFor: (kind: FiringKind) => number;
  /** Days from loading it until it can be loaded again, and what was in it is out. */
  readonly cycle: number;
  /** The day from which on it can be loaded. */
  readonly freeOn: number;
}

/** The kilns that have a space, the largest first, and what was left of it for own ware. */
export interface KilnsAhead {
  readonly kilns: readonly KilnAhead[];
  /** The share of loads of a kind that classes and customers took in the last year, as a fraction of 1. */
  readonly othersShare: (kind: FiringKind) => Decimal;
}

const USUAL_COOLING = decimal(24);
const USUAL_HOURS = decimal(10);
const HOURS_A_DAY = 24;
/** A kiln that had fewer of a kind's firings is for something else. */
const LEAST_SHARE = 0.1;
const DAYS_A_YEAR = 365;
const MILLION = 1_000_000;

/** The kilns of a book at the end of a day; one without a space is left out, since nobody knows what fits. */
export function kilnsAhead(book: Book, flows: Flows): KilnsAhead {
  const { asOf } = flows.stock;
  const lately = recordsDated(book.firings, { from: addDays(asOf, -DAYS_BACK), to: asOf });
  const othersShare = cached((kind: FiringKind) => shareOfOthers(book, lately, { kind, asOf }));
  const mayFire = firersOf(lately);
  const spaced = [...book.kilns.values()].filter(({ space }) => space?.gt(ZERO));
  const bySize = spaced.sort((one, other) => (other.space ?? ZERO).cmp(one.space ?? ZERO));
  const kilns = bySize.map((kiln): KilnAhead => {
    const cycle = cycleOf(kiln, lately);
    const roomFor = cached((kind: FiringKind) => {
      const space = (kiln.space ?? ZERO).times(ONE.minus(othersShare(kind)));
      return mayFire(kiln.id, kind) ? Math.floor(space.toNumber() * MILLION) : 0;
    });
    return { id: kiln.id, roomFor, cycle, freeOn: freeOn(book, flows, { kiln, cycle }) };
  });
  return { kilns, othersShare };
}

/** Whether a kiln fires a kind: it had some of that kind's firings lately, or none had any. */
function firersOf(lately: readonly Firing[]): (kiln: string, kind: FiringKind) => boolean {
  const byKind = grouped(lately, ({ kind }) => kind);
  return (kiln, kind) => {
    const all = byKind.get(kind) ?? [];
    const own = all.filter((firing) => firing.kiln === kiln);
    return all.length === 0 || own.length >= all.length * LEAST_SHARE;
  };
}

function cycleOf(kiln: Kiln, lately: readonly Firing[]): number {
  const hours = lately
    .filter((firing) => firing.kiln === kiln.id)
    .flatMap((firing) => firing.hours ?? [])
    .sort((one, other) => one.cmp(other));
  const usual = hours[Math.floor(hours.length / 2)] ?? USUAL_HOURS;
  const all = usual.plus(kiln.cooling ?? USUAL_COOLING).toNumber();
  return Math.max(1, Math.ceil(all / HOURS_A_DAY));
}

/** The day a firing can be unloaded on that began on a day. */
function freeOn(
  book: Book,
  { stock: { asOf }, open }: Flows,
  { kiln, cycle }: { readonly kiln: Kiln; readonly cycle: number },
): number {
  const loaded = [...open.firings].flatMap((id) => book.firings.get(id) ?? []);
  const days = loaded
    .filter((firing) => firing.kiln === kiln.id)
    .map(({ date }) => dayNumber(date));
  return Math.max(dayNumber(asOf), ...days.map((day) => day + cycle));
}

function shareOfOthers(
  book: Book,
  lately: readonly Firing[],
  { kind, asOf }: { readonly kind: FiringKind; readonly asOf: Day },
): Decimal {
  const from = addDays(asOf, -DAYS_A_YEAR);
  const spaces = new Map<'own' | 'others', Decimal[]>();
  for (const firing of lately.filter((each) => each.kind === kind && each.date >= from))
    for (const line of firing.load)
      addTo(spaces, line.lot === undefined ? 'others' : 'own', spaceOf(book, firing, line));
  const others = sum(spaces.get('others') ?? []);
  const all = others.plus(sum(spaces.get('own') ?? []));
  return all.isZero() ? ZERO : divide(others, all);
}
