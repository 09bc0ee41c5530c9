/** A plan: the week's work for the wall, what to start and why, what to order, what is due, and the hours. */
import type { Book } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { dayFromNumber, dayNumber, weekdayOf } from '../../number/date.ts';
import { decimal, type Decimal } from '../../number/decimal.ts';
import { NO_QUANTITY, inUnit } from '../../number/measure.ts';
import { booked } from '../../reckon/booked.ts';
import { lastStart, workDayFrom } from '../../reckon/planning/calendar.ts';
import type { DemandMet, WareGoal } from '../../reckon/planning/goals.ts';
import { weekOf, type WorkPlan } from '../../reckon/planning/plan.ts';
import type { PlannedLoad } from '../../reckon/planning/schedule.ts';
import type { PlannedUse } from '../../reckon/planning/shopping.ts';
import { glazingOf } from '../../reckon/ware/stages.ts';
import { compareTexts } from '../../text-order.ts';
import { backed, tableHead, type BackedRow } from '../head.ts';
import type { Column, Row, Table } from '../table.ts';
import {
  boundText,
  firingText,
  hoursText,
  lateText,
  percentText,
  piecesText,
  planNotes,
  quantityText,
  remedyText,
  whyText,
} from './plan-words.ts';

const PLAN_COLUMNS: readonly Column[] = [
  { key: 'part', title: 'Part', type: 'text' },
  { key: 'day', title: 'Day', type: 'date' },
  { key: 'weekday', title: 'On', type: 'text', drop: 1 },
  { key: 'what', title: 'What', type: 'text', isName: true },
  { key: 'count', title: 'Count', type: 'count' },
  { key: 'says', title: 'How', type: 'text' },
  { key: 'product', title: 'Product', type: 'id', dataOnly: true },
  { key: 'glaze', title: 'Glaze', type: 'id', dataOnly: true },
  { key: 'record', title: 'Record', type: 'id', dataOnly: true },
  { key: 'kiln', title: 'Kiln', type: 'id', dataOnly: true },
  { key: 'kind', title: 'Kind', type: 'text', dataOnly: true },
  { key: 'cone', title: 'Cone', type: 'text', dataOnly: true },
  { key: 'wanted', title: 'Wanted', type: 'count', dataOnly: true },
  { key: 'ready', title: 'Ready', type: 'count', dataOnly: true },
  { key: 'underWay', title: 'Under way', type: 'count', dataOnly: true },
  { key: 'chance', title: 'Chance', type: 'fraction', dataOnly: true },
  { key: 'share', title: 'Share of the kiln', type: 'fraction', dataOnly: true },
  { key: 'needed', title: 'Needed', type: 'quantity', unitFrom: 'unit', dataOnly: true },
  { key: 'onHand', title: 'On hand', type: 'quantity', unitFrom: 'unit', dataOnly: true },
  { key: 'short', title: 'Short', type: 'quantity', unitFrom: 'unit', dataOnly: true },
  { key: 'unit', title: 'Unit', type: 'text', dataOnly: true },
  { key: 'supplier', title: 'Supplier', type: 'text', dataOnly: true },
  { key: 'paidLast', title: 'Paid last', type: 'money', dataOnly: true },
  { key: 'hours', title: 'Hours', type: 'quantity', unit: 'h', dataOnly: true },
];

const DAYS_A_WEEK = 7;

/** What a plan shows. */
export interface PlanShown {
  /** As a fraction of 1. */
  readonly assurance: number;
  /** Whether a goal is one that was asked for. */
  readonly isMeant: (goal: WareGoal) => boolean;
  /** What that is: `o260512hl`, `20 mug oatmeal`; undefined where it is all. */
  readonly meant: string | undefined;
}

/** The plan from the end of a day on. */
export function planTable(
  book: Book,
  plan: WorkPlan,
  { assurance, isMeant, meant }: PlanShown,
): Table {
  const { calendar } = plan;
  const goals = plan.goals.filter(isMeant);
  const days = dayRows(book, plan, goals);
  const isSoon = ({ row }: BackedRow): boolean =>
    dayNumber(String(row['day'])) < calendar.today + DAYS_A_WEEK;
  const rows = [
    ...lateRows(plan).map(under('Not in time')),
    ...days.filter(isSoon).map(under('This week')),
    ...startRows(plan, goals, assurance).map(under('To start')),
    ...plan.shopping.materials.flatMap((use) => orderRow(book, use)).map(under('To order')),
    ...plan.shopping.mixes.flatMap(mixRow).map(under('To mix')),
    ...goals
      .flatMap((goal) => dueRows(plan, goal))
      .sort(byDay)
      .map(under('Due')),
    ...days.filter((row) => !isSoon(row)).map(under('Later')),
    ...hourRows(plan).map(under('Hours')),
  ];
  const asOf = dayFromNumber(calendar.today);
  return {
    report: 'plan',
    title: meant === undefined ? `Plan from ${asOf}` : `Plan for ${meant}, from ${asOf}`,
    ...tableHead(book, asOf),
    columns: PLAN_COLUMNS,
    partedBy: 'part',
    toTick: true,
    notes: goals.length === 0 ? [NOTHING_WANTED] : planNotes(book, { ...plan, goals }, assurance),
    ...backed(rows),
  };
}

const NOTHING_WANTED =
  'Nothing is wanted: orders, what fairs take along, and keep of products are what a plan is made for; or ask: saggar plan --make "20 PRODUCT".';

function under(part: string): (row: BackedRow) => BackedRow {
  return ({ row, behind }) => {
    const day = typeof row['day'] === 'string' ? weekdayOf(row['day']) : undefined;
    return { row: { part, weekday: day && nameOfWeekday(day), ...row }, behind };
  };
}

function nameOfWeekday(day: string): string {
  return day.slice(0, 1).toUpperCase() + day.slice(1);
}

/** A figure of the plan as a decimal. */
function plain(value: number): Decimal {
  return decimal(value.toFixed(4));
}

function byDay({ row: one }: BackedRow, { row: other }: BackedRow): number {
  return compareTexts(String(one['day']), String(other['day']));
}

function dated(day: number, row: Row, behind: readonly string[] = []): BackedRow {
  return { row: { day: dayFromNumber(day), ...row }, behind };
}

/** What does not fit first, with what would make it fit. */
function lateRows({ fitting: { late, bound, remedies } }: WorkPlan): BackedRow[] {
  return late.map((each, at) => {
    const { sort, count, due } = each;
    const help = bound ? [boundText(bound)] : remedies.map(remedyText);
    const says = [lateText(each), ...(at === 0 ? help : [])].join('; ');
    const { product, glaze } = sort;
    return dated(due, { what: sort.name, count, says, product, glaze: glaze ?? null }, [product]);
  });
}

function startRows(plan: WorkPlan, goals: readonly WareGoal[], assurance: number): BackedRow[] {
  const { making } = plan.fitting.schedule;
  return goals
    .filter(({ start }) => start.count > 0)
    .map((goal) => {
      const { sort, start, wanted, ready, underWay, demands } = goal;
      const first = making.find((each) => each.sort === sort)?.day ?? plan.calendar.today;
      const row = {
        what: sort.name,
        count: start.count,
        says: whyText(plan, goal, assurance),
        ...{ product: sort.product, glaze: sort.glaze ?? null, wanted, ready, underWay },
        chance: plain(start.chance),
      };
      return dated(first, row, [...new Set([sort.product, ...demands.map(({ by }) => by)])]);
    })
    .sort(byDay);
}

/** What is done on which day: making, glazing, loading, unloading. */
function dayRows(book: Book, plan: WorkPlan, goals: readonly WareGoal[]): BackedRow[] {
  const meant = new Set(goals.map(({ sort }) => sort));
  const isAll = goals.length === plan.goals.length;
  const { making, loads } = plan.fitting.schedule;
  const made = making.filter(({ sort }) => isAll || meant.has(sort));
  const going = loads.filter(({ pieces }) => isAll || pieces.some(({ sort }) => meant.has(sort)));
  return [
    ...going.flatMap((load) => loadRows(book, plan, load)),
    ...made.map(({ day, sort, count }) => {
      const hours = plain((count * sort.minutes) / 60);
      const { product, glaze } = sort;
      const says = sort.minutes === 0 ? '' : hoursText(count * sort.minutes);
      const row = { what: `Make ${sort.name}`, count, says, product, glaze: glaze ?? null, hours };
      return dated(day, row, [product]);
    }),
  ].sort(byDay);
}

function loadRows(book: Book, plan: WorkPlan, load: PlannedLoad): BackedRow[] {
  const { day, out, kiln, kind, cone, pieces, taken, room } = load;
  const of = firingText(kind, cone);
  const count = pieces.reduce((sum, each) => sum + each.count, 0);
  const share = plain(taken / room);
  const common = { count, kiln: kiln.id, kind, cone: cone ?? null };
  const says = `${percentText(taken / room)} full; ${piecesText(pieces)}`;
  const fired = dated(day, { ...common, what: `Load ${kiln.id}: ${of}`, says, share }, [kiln.id]);
  const unloaded = dated(out, { ...common, what: `Unload ${kiln.id}`, says: of }, [kiln.id]);
  return [unloaded, fired, ...glazingRows(book, plan, load)];
}

/** Ware is glazed on the day of work before it is loaded, where it is out of the kiln by then. */
function glazingRows(book: Book, { calendar }: WorkPlan, load: PlannedLoad): BackedRow[] {
  const glazed = load.pieces.filter(
    ({ sort }) => glazingOf(book.products.get(sort.product)) === load.kind,
  );
  if (glazed.length === 0) return [];
  const day = workDayFrom(calendar, Math.max(calendar.today, load.day - 1));
  const count = glazed.reduce((sum, each) => sum + each.count, 0);
  const what = `Glaze for ${load.kiln.id}`;
  return [dated(Math.min(day, load.day), { what, count, says: piecesText(glazed) })];
}

function orderRow(book: Book, use: PlannedUse): BackedRow[] {
  const { what, unit, needed, onHand, short, orderBy, last, packs } = use;
  if (short === NO_QUANTITY || orderBy === undefined) return [];
  const supplier = last?.bought.supplier ?? book.materials.get(what)?.supplier;
  const buy = last && packs !== undefined ? `${packs} x ${last.pack.text}` : undefined;
  const paid = last && `last ${last.line.cost.toFixed()} for ${last.line.quantity.text}`;
  const says = [
    `short ${quantityText(short, unit)} of ${quantityText(needed, unit)}`,
    ...[buy, supplier && `from ${supplier}`, paid].filter((part) => part !== undefined),
  ].join('; ');
  const figures = {
    ...{ needed: inUnit(needed, unit), onHand: inUnit(onHand, unit), short: inUnit(short, unit) },
    ...{ unit, supplier: supplier ?? null, record: what },
    paidLast: last ? booked(book, last.line.cost) : null,
  };
  const row = { what, count: packs ?? null, says, ...figures };
  return [dated(orderBy, row, [what, ...(last ? [last.bought.id] : [])])];
}

function mixRow({ what, unit, needed, onHand, short, shortOn }: PlannedUse): BackedRow[] {
  if (shortOn === undefined) return [];
  const says = `${quantityText(short, unit)} dry: ${quantityText(needed, unit)} needed, ${quantityText(onHand, unit)} in the bucket`;
  const figures = {
    ...{ needed: inUnit(needed, unit), onHand: inUnit(onHand, unit), short: inUnit(short, unit) },
    ...{ unit, record: what },
  };
  return [dated(shortOn, { what, says, ...figures }, [what])];
}

/** What is wanted by a day, and until when lost pieces of it can be made again. */
function dueRows({ calendar }: WorkPlan, { sort, demands }: WareGoal): BackedRow[] {
  return demands.flatMap((demand) => {
    const { source, by, count, ready, due } = demand;
    if (due === undefined) return [];
    const last = lastStart(calendar, sort, dayNumber(due));
    const again =
      last < calendar.today
        ? 'no time to make lost pieces again'
        : `lost pieces can be made again until ${dayFromNumber(last)}`;
    const says = `${forText(demand)}; ${ready === count ? 'ready' : `${ready} ready; ${again}`}`;
    const record = source === 'asked' ? null : by;
    const { product, glaze } = sort;
    const row = { what: sort.name, count, says, record, product, glaze: glaze ?? null, ready };
    return [dated(dayNumber(due), row, record === null ? [product] : [record, product])];
  });
}

function forText({ source, by }: DemandMet): string {
  return source === 'asked' ? 'asked for' : `${source} ${by}`;
}

function hourRows({ fitting: { schedule }, hours }: WorkPlan): BackedRow[] {
  const weeks = grouped(schedule.making, ({ day }) => weekOf(day));
  return [...weeks].map(([week, some]) => {
    const minutes = some.reduce((sum, { sort, count }) => sum + sort.minutes * count, 0);
    const count = some.reduce((sum, each) => sum + each.count, 0);
    const there = hours ? ` of ${hoursText(hours.aWeek * 60)}` : '';
    const row = { what: "The week's making", count, says: hoursText(minutes) + there };
    return dated(week, { ...row, hours: plain(minutes / 60) });
  });
}
