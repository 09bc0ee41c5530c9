/** What a plan has to be ordered and mixed, and what is wanted by when. */
import type { Book } from '../../book.ts';
import { countIn, grouped } from '../../grouping.ts';
import { dayFromNumber, dayNumber } from '../../number/date.ts';
import { NO_QUANTITY, inUnit } from '../../number/measure.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { lastStart, type Calendar } from '../../reckon/planning/calendar.ts';
import type { DemandMet, WareGoal } from '../../reckon/planning/goals.ts';
import type { WorkPlan } from '../../reckon/planning/plan.ts';
import type { PlannedUse } from '../../reckon/planning/shopping.ts';
import type { WareSort } from '../../reckon/planning/ware-sort.ts';
import { compareTexts } from '../../text-order.ts';
import { amountText } from '../day/day-words.ts';
import type { Row } from '../table.ts';
import { byDay, dated } from './plan-rows.ts';
import { quantityText } from './plan-words.ts';

/** What is to be bought, by supplier. */
export function orderRows(book: Book, plan: WorkPlan): Row[] {
  const rows = plan.shopping.materials.flatMap((use) => orderRow(book, plan, use));
  return rows.sort(bySupplier);
}

/** What is to be mixed. */
export function mixRows({ shopping }: WorkPlan): Row[] {
  return shopping.mixes.flatMap(mixRow).sort(byDay);
}

/** A supplier's materials together, the most urgent first. */
function bySupplier(one: Row, other: Row): number {
  const supplier = ({ supplier: name }: Row): string => (typeof name === 'string' ? name : '');
  return compareTexts(supplier(one), supplier(other)) || byDay(one, other);
}

function orderRow(book: Book, { calendar }: WorkPlan, use: PlannedUse): Row[] {
  const { what, unit, needed, onHand, short, orderBy, last, packs } = use;
  if (short === NO_QUANTITY || orderBy === undefined) return [];
  const supplier = last?.bought.supplier ?? book.materials.get(what)?.supplier;
  const buy = last && packs !== undefined ? `${packs} x ${last.pack.text}` : undefined;
  const paid =
    last &&
    `last ${amountText(booked(book, last.line.cost), digitsOf(book))} for ${last.line.quantity.text}`;
  const says = [
    ...(orderBy < calendar.today ? ['at once'] : []),
    `short ${quantityText(short, unit)} of ${quantityText(needed, unit)}`,
    ...[buy, supplier && `from ${supplier}`, paid].filter((part) => part !== undefined),
  ].join('; ');
  const figures = {
    ...{ needed: inUnit(needed, unit), onHand: inUnit(onHand, unit), short: inUnit(short, unit) },
    ...{ unit, supplier: supplier ?? null, record: what },
    paidLast: last ? booked(book, last.line.cost) : null,
  };
  const row = { what, count: packs ?? null, says, ...figures };
  return [dated(Math.max(calendar.today, orderBy), row)];
}

function mixRow({ what, unit, needed, onHand, short, shortOn }: PlannedUse): Row[] {
  if (shortOn === undefined) return [];
  const says = `${quantityText(short, unit)} dry: ${quantityText(needed, unit)} needed, ${quantityText(onHand, unit)} in the bucket`;
  const figures = {
    ...{ needed: inUnit(needed, unit), onHand: inUnit(onHand, unit), short: inUnit(short, unit) },
    ...{ unit, record: what },
  };
  return [dated(shortOn, { what, says, ...figures })];
}

/** Each order and fair with what it wants, and until when lost pieces of that can be made again. */
export function dueRows({ calendar }: WorkPlan, goals: readonly WareGoal[]): Row[] {
  const wanted = goals.flatMap(({ sort, demands }) =>
    demands.flatMap(({ due, ...demand }) => (due === undefined ? [] : [{ ...demand, due, sort }])),
  );
  const byRecord = grouped(wanted, ({ source, by, due }) => `${due} ${source} ${by}`);
  return [...byRecord.values()].flatMap((some) => {
    const [first] = some;
    if (!first) return [];
    const { due, source, by } = first;
    const says = [some.map(wantedText).join(', '), ...againText(calendar, some)].join('; ');
    const ready = some.reduce((sum, each) => sum + each.ready, 0);
    const isAsked = source === 'asked';
    const what = isAsked ? 'Asked for' : `${source} ${by}`;
    const row = { what, count: countIn(some), says, record: isAsked ? null : by, ready };
    return [dated(dayNumber(due), row)];
  });
}

interface WantedBy extends DemandMet {
  readonly due: string;
  readonly sort: WareSort;
}

/** `20 mug rust (3 ready)`. */
function wantedText({ sort, count, ready }: WantedBy): string {
  if (ready === 0) return `${count} ${sort.name}`;
  return `${count} ${sort.name} (${ready === count ? 'all' : ready} ready)`;
}

function againText(calendar: Calendar, wanted: readonly WantedBy[]): string[] {
  const open = wanted.filter(({ count, ready }) => ready < count);
  if (open.length === 0) return [];
  const last = Math.min(...open.map(({ sort, due }) => lastStart(calendar, sort, dayNumber(due))));
  if (last < calendar.today) return ['no time to make lost pieces again'];
  return [`lost pieces can be made again until ${dayFromNumber(last)}`];
}
