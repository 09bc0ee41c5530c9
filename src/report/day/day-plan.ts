/** What a plan has next, for a day's end: what to do on the next day of work, and what is due first. */
import { countIn } from '../../grouping.ts';
import { dayFromNumber, dayNumber } from '../../number/date.ts';
import { workDayFrom } from '../../reckon/planning/calendar.ts';
import type { WorkPlan } from '../../reckon/planning/plan.ts';
import { firingText, percentText, piecesText } from '../making/plan-words.ts';
import type { Row } from '../table.ts';
import { sectionOf, type Section } from './day-sections.ts';

/** With the book and the next command. */
const LAST_GROUP = 5;

/** One line: what is due first, and what to do; its rows have all that is due. None where nothing is wanted. */
export function planSections(plan: WorkPlan): Section[] {
  const day = workDayFrom(plan.calendar, plan.calendar.today);
  const todo = [...makingRows(plan, day), ...loadRows(plan, day), ...orderRows(plan, day)];
  const due = dueRows(plan);
  if (todo.length + due.length === 0) return [];
  const said = [...due.slice(0, 1), ...todo].map(({ says }) => String(says));
  // The first of a list is seen however little room there is: what is due first, with what is done first.
  const list = [said.slice(0, 2).join('; '), ...said.slice(2)];
  const line = { label: 'By plan', group: LAST_GROUP, lead: '', list, brief: said };
  return [sectionOf('plan', line, [...todo, ...due])];
}

function makingRows({ fitting: { schedule } }: WorkPlan, on: number): Row[] {
  return schedule.making
    .filter(({ day }) => day === on)
    .map(({ sort, count }) => {
      const says = `make ${count} ${sort.name}`;
      return { what: sort.product, kind: 'make', count, says };
    });
}

function loadRows({ fitting: { schedule } }: WorkPlan, on: number): Row[] {
  return schedule.loads
    .filter(({ day }) => day === on)
    .map(({ kiln, kind, cone, pieces, taken, room }) => {
      const count = countIn(pieces);
      const says = `load ${kiln.id} for ${firingText(kind, cone)}, ${percentText(taken / room)} full (${piecesText(pieces)})`;
      return { what: kiln.id, kind: 'load', count, says };
    });
}

function orderRows({ shopping }: WorkPlan, on: number): Row[] {
  return shopping.materials
    .filter(({ orderBy }) => orderBy !== undefined && orderBy <= on)
    .map(({ what, orderBy, packs, last }) => {
      const pack = last && packs !== undefined ? `${packs} x ${last.pack.text} ` : '';
      const says = `order ${pack}${what}`;
      return { what, kind: 'buy', orderBy: dayFromNumber(orderBy ?? on), says };
    });
}

/** Orders and fairs, the one that is due first first. */
function dueRows({ goals, calendar }: WorkPlan): Row[] {
  const rows = new Map<string, Row & { readonly since: string; readonly left: number }>();
  for (const { source, by, due, count, ready } of goals.flatMap(({ demands }) => demands)) {
    if (due === undefined) continue;
    const left = (rows.get(by)?.left ?? 0) + count - ready;
    const there = left === 0 ? 'all ready' : `${left} to come`;
    const says = `${by} due ${due} (${there})`;
    const days = dayNumber(due) - calendar.today;
    rows.set(by, { what: by, kind: source, count: left, left, since: due, days, says });
  }
  return [...rows.values()]
    .sort((one, other) => (one.since < other.since ? -1 : 1))
    .map(({ left, ...row }) => ({ ...row, count: left }));
}
