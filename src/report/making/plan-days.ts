/** What a plan has done on which day: making, glazing, loading and unloading; and the hours of each week. */
import type { Book } from '../../book.ts';
import { countIn, grouped } from '../../grouping.ts';
import { workDayBefore } from '../../reckon/planning/calendar.ts';
import type { WareGoal } from '../../reckon/planning/goals.ts';
import { DAYS_A_WEEK, weekOf, type WorkPlan } from '../../reckon/planning/plan.ts';
import type { MadeOn, PlannedLoad } from '../../reckon/planning/schedule.ts';
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
  const count = countIn(pieces);
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

/** The hours of making in each week, beside those that there are, and what is finished in it. */
export function hourRows({ fitting: { schedule }, hours }: WorkPlan): Row[] {
  const weeks = grouped(schedule.making, ({ day }) => weekOf(day));
  const aWeek = hours && hours.aWeek * 60;
  return [...minutesByWeek(weeks, aWeek)].map(([week, minutes]) => {
    const there = aWeek === undefined ? '' : ` of ${hoursText(aWeek)}`;
    const row = { what: "The week's making", count: countIn(weeks.get(week) ?? []) };
    return dated(week, { ...row, says: hoursText(minutes) + there, hours: plain(minutes / 60) });
  });
}

/** What is finished in a week but takes more time than it has was begun in the week before. */
function minutesByWeek(
  weeks: ReadonlyMap<number, readonly MadeOn[]>,
  aWeek = Infinity,
): [number, number][] {
  const first = Math.min(...weeks.keys());
  const found: [number, number][] = [];
  let begun = 0;
  for (let week = Math.max(...weeks.keys()); week >= first; week -= DAYS_A_WEEK) {
    const finished = (weeks.get(week) ?? []).reduce(
      (sum, { sort, count }) => sum + sort.minutes * count,
      begun,
    );
    begun = week === first ? 0 : Math.max(0, finished - aWeek);
    if (finished > 0 || weeks.has(week)) found.unshift([week, finished - begun]);
  }
  return found;
}
