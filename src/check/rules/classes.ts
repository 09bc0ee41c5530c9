/** A class has as many places and meets as often as it says. */
import type { Day, Sale, StudioClass } from '../../book.ts';
import { inForce, placeInForce } from '../../in-force.ts';
import { counted } from '../../in-words.ts';
import { hasClass } from '../../reckon/sales/enrolment.ts';
import { findEach, spot, type Say } from '../finding.ts';
import { each, over, type Rule } from '../rule.ts';

const classOverfull: Rule = {
  name: 'class-overfull',
  severity: 'warning',
  about: 'More students are enrolled in a class than it has places.',
  looks: [
    over({ classes: 'all', sales: { having: 'class' } }, (book) => {
      const enrolments = enrolmentsIn(book.sales.values());
      return findEach(book.classes, (taught, say) => {
        lookAtPlaces(taught, enrolments.get(taught.id) ?? [], say);
      });
    }),
  ],
};

function lookAtPlaces(taught: StudioClass, enrolments: readonly Enrolment[], say: Say): void {
  const first = firstOver(taught, enrolments);
  if (!first) return;
  const places = placeInForce(taught, 'places', first.sale.date);
  say({
    at: spot(first.sale, 'lines', first.index, 'count'),
    message: `${first.enrolled} are enrolled in ${taught.id}, which has ${counted(first.places, 'place')}`,
    hint: `give the class more places${atMost(first)}`,
    related: [{ at: spot(taught, ...places), message: 'its places' }],
  });
}

function atMost({ enrolled, places, change }: FirstOver): string {
  const left = places - (enrolled - change);
  return left > 0 ? `; or write ${left} or less if the count is a slip` : '; or correct the count';
}

type FirstOver = Enrolment & { readonly enrolled: number; readonly places: number };

interface Enrolment {
  readonly sale: Sale;
  readonly index: number;
  readonly change: number;
}

/** Class → the lines that enrol students in it or take them out, in the order of their dates. */
function enrolmentsIn(sales: Iterable<Sale>): ReadonlyMap<string, readonly Enrolment[]> {
  const enrolments = new Map<string, Enrolment[]>();
  for (const sale of [...sales].filter(hasClass).sort(leaversFirst))
    sale.lines.forEach((line, index) => {
      if (line.class === undefined) return;
      const change = line.returned === 'yes' ? -line.count : line.count;
      const known = enrolments.get(line.class);
      if (known) known.push({ sale, index, change });
      else enrolments.set(line.class, [{ sale, index, change }]);
    });
  return enrolments;
}

// Of one day, who leaves makes room for who comes.
function leaversFirst(one: Sale, other: Sale): number {
  if (one.date !== other.date) return one.date < other.date ? -1 : 1;
  const [leaves, othersLeave] = [isReturn(one), isReturn(other)];
  if (leaves !== othersLeave) return leaves ? -1 : 1;
  return one.id < other.id ? -1 : 1;
}

function isReturn({ lines }: Sale): boolean {
  return lines.some((line) => line.returned === 'yes');
}

function firstOver(taught: StudioClass, enrolments: readonly Enrolment[]): FirstOver | undefined {
  let enrolled = 0;
  for (const enrolment of enrolments) {
    enrolled += enrolment.change;
    const { places = Infinity } = inForce(taught, enrolment.sale.date);
    if (enrolled > places) return { ...enrolment, enrolled, places };
  }
  return undefined;
}

const meetingsDiffer: Rule = {
  name: 'meetings-differ',
  severity: 'warning',
  about: 'The days on which a class meets do not agree with its sessions or its first day.',
  looks: [each('classes', lookAtClass)],
};

function lookAtClass(taught: StudioClass, { say }: { readonly say: Say }): void {
  lookAtDays(taught, '', say);
  for (const change of taught.changes ?? [])
    if (change.meets !== undefined || change.sessions !== undefined)
      lookAtDays(taught, change.from, say);
}

/** The meetings as they are planned on a day. */
function lookAtDays(taught: StudioClass, on: Day, say: Say): void {
  const { meets, sessions, starts } = inForce(taught, on);
  if (meets === undefined) return;
  const days = new Set(meets);
  const daysAt = placeInForce(taught, 'meets', on);
  if (sessions !== undefined && sessions !== days.size)
    say({
      at: spot(taught, ...placeInForce(taught, 'sessions', on)),
      message: `${taught.id} has ${counted(sessions, 'session')}, but meets on ${counted(days.size, 'day')}`,
      hint: `write ${days.size}, or correct the days; without sessions its days alone count`,
      related: [{ at: spot(taught, ...daysAt), message: 'the days' }],
    });
  meets.forEach((day, index) => {
    if (meets.indexOf(day) === index) return;
    say({
      at: spot(taught, ...daysAt, index),
      message: `${taught.id} meets on ${day} already`,
      hint: 'take this one out, or correct it',
    });
  });
  const [first = starts] = meets.toSorted();
  if (first === starts) return;
  say({
    at: spot(taught, 'starts'),
    message: `${taught.id} starts on ${starts}, but meets on ${first} first`,
    hint: `write ${first}, or correct the days`,
    related: [{ at: spot(taught, ...daysAt), message: 'the days' }],
  });
}

/** The rules on classes. */
export const CLASS_RULES: readonly Rule[] = [classOverfull, meetingsDiffer];
