/** A plan: the week's work for the wall, what to start and why, what to order, what is due, and the hours. */
import type { Book } from '../../book.ts';
import { capitalised, sentences } from '../../in-words.ts';
import { dayFromNumber, dayNumber, weekdayOf } from '../../number/date.ts';
import type { WareGoal } from '../../reckon/planning/goals.ts';
import { throwingSizes } from '../../reckon/claims/shrinkage.ts';
import { DAYS_A_WEEK, type WorkPlan } from '../../reckon/planning/plan.ts';
import { tableHead } from '../head.ts';
import type { Column, Row, Table } from '../table.ts';
import { dayRows, hourRows } from './plan-days.ts';
import { dueRows, mixRows, orderRows } from './plan-needs.ts';
import { planVerdict } from './plan-verdict.ts';
import { byDay, dated, plain } from './plan-rows.ts';
import { boundText, lateText, planNotes, remedyText, wetText, whyText } from './plan-words.ts';

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
  const isSoon = ({ day }: Row): boolean => dayNumber(String(day)) < calendar.today + DAYS_A_WEEK;
  const starts = startRows(book, plan, { goals, assurance });
  const rows = [
    ...lateRows(plan).map(under(LATE)),
    ...days.filter(isSoon).map(under('This week')),
    ...starts.filter(isSoon).map(under('To start this week')),
    ...orderRows(book, plan).map(under('To order')),
    ...mixRows(plan).map(under('To mix')),
    ...dueRows(plan, goals).sort(byDay).map(under('Due')),
    ...starts.filter((each) => !isSoon(each)).map(under('To start later')),
    ...days.filter((each) => !isSoon(each) && 'share' in each).map(under('Loads later')),
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
    verdict: planVerdict(book, plan, {
      starts: starts.filter(isSoon),
      isWanted: goals.length > 0,
    }),
    alerts: { column: 'says', of: rows.map(({ part }) => (part === LATE ? 'now' : undefined)) },
    notes: goals.length === 0 ? [NOTHING_WANTED] : planNotes(book, { ...plan, goals }, assurance),
    rows,
  };
}

/** The part of what does not fit. */
const LATE = 'Not in time';

const NOTHING_WANTED =
  'Nothing is wanted: orders, what fairs take along, and keep of products are what a plan is made for; or ask: saggar plan --make "20 PRODUCT".';

function under(part: string): (row: Row) => Row {
  return (row) => {
    const day = typeof row['day'] === 'string' ? weekdayOf(row['day']) : undefined;
    return { part, weekday: day && nameOfWeekday(day), ...row };
  };
}

function nameOfWeekday(day: string): string {
  return capitalised(day);
}

/** What does not fit first, with what would make it fit. */
function lateRows({ fitting: { late, bound, remedies } }: WorkPlan): Row[] {
  return late.map((each, at) => {
    const { sort, count, due } = each;
    const help = [...(bound ? [boundText(bound)] : []), ...remedies.map(remedyText)];
    const says = [lateText(each), ...(at === 0 ? help : [])].join('; ');
    const { product, glaze } = sort;
    return dated(due, { what: sort.name, count, says, product, glaze: glaze ?? null });
  });
}

function startRows(
  book: Book,
  plan: WorkPlan,
  { goals, assurance }: { readonly goals: readonly WareGoal[]; readonly assurance: number },
): Row[] {
  const { making } = plan.fitting.schedule;
  const sizes = throwingSizes(book, dayFromNumber(plan.calendar.today));
  const wetSizes = new Map(sizes.map(({ product, wet }) => [product.id, wetText(wet)]));
  return goals
    .filter(({ start }) => start.count > 0)
    .map((goal) => {
      const { sort, start, wanted, ready, underWay } = goal;
      const first = making.find((each) => each.sort === sort)?.day ?? plan.calendar.today;
      const row = {
        what: sort.name,
        count: start.count,
        says: sentences(whyText(plan, goal, assurance), wetSizes.get(sort.product)).join('; '),
        ...{ product: sort.product, glaze: sort.glaze ?? null, wanted, ready, underWay },
        chance: plain(start.chance),
      };
      return dated(first, row);
    })
    .sort(byDay);
}
