/** What a plan has done on which day: making, glazing, loading and unloading; and the hours of each week. */
import type { Book } from '../../book.ts';
import { countIn, grouped } from '../../grouping.ts';
import { workDayBefore } from '../../reckon/planning/calendar.ts';
import type { WareGoal } from '../../reckon/planning/goals.ts';
import { weekOf, type WorkPlan } from '../../reckon/planning/plan.ts';
import type { PlannedLoad } from '../../reckon/planning/schedule.ts';
import { glazingOf } from '../../reckon/ware/stages.ts';
import type { Row } from '../table.ts';
import { byDay, dated, plain } from './plan-rows.ts';
import { firingText, hoursText, percentText, piecesText } from './plan-words.ts';

/** What is done on which day: making, glazing, loading, unloading. */
export function dayRows(book: Book, plan: WorkPlan, goals: readonly WareGoal[]): Row[] {
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
      return dated(day, row);
    }),
  ].sort(byDay);
}

function loadRows(book: Book, plan: WorkPlan, load: PlannedLoad): Row[] {
  const { day, out, kiln, kind, cone, pieces, taken, room } = load;
  const of = firingText(kind, cone);
  const count = pieces.reduce((sum, each) => sum + each.count, 0);
  const share = plain(taken / room);
  const common = { count, kiln: kiln.id, kind, cone: cone ?? null };
  const says = `${percentText(taken / room)} full; ${piecesText(pieces)}`;
  const fired = dated(day, { ...common, what: `Load ${kiln.id}: ${of}`, says, share });
  const unloaded = dated(out, { ...common, what: `Unload ${kiln.id}`, says: of });
  return [unloaded, ...glazingRows(book, plan, load), fired];
}

/** Ware is glazed on the last day of work before it is loaded, once it is out of the kiln. */
function glazingRows(book: Book, { calendar }: WorkPlan, load: PlannedLoad): Row[] {
  const glazed = load.pieces.filter(
    ({ sort }) => glazingOf(book.products.get(sort.product)) === load.kind,
  );
  if (glazed.length === 0) return [];
  const out = Math.max(...glazed.map(({ ready }) => ready)) - calendar.waits.glazing.days;
  const day = workDayBefore(calendar, load.day, Math.max(calendar.today, out));
  const what = `Glaze for ${load.kiln.id}`;
  return [dated(day, { what, count: countIn(glazed), says: piecesText(glazed) })];
}

/** The hours of making in each week, beside those that there are. */
export function hourRows({ fitting: { schedule }, hours }: WorkPlan): Row[] {
  const weeks = grouped(schedule.making, ({ day }) => weekOf(day));
  return [...weeks].map(([week, some]) => {
    const minutes = some.reduce((sum, { sort, count }) => sum + sort.minutes * count, 0);
    const count = some.reduce((sum, each) => sum + each.count, 0);
    const there = hours ? ` of ${hoursText(hours.aWeek * 60)}` : '';
    const row = { what: "The week's making", count, says: hoursText(minutes) + there };
    return dated(week, { ...row, hours: plain(minutes / 60) });
  });
}
