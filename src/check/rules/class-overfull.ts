/** A class has as many places as it has. */
import type { Sale, StudioClass } from '../../book.ts';
import { inForce, placeInForce } from '../../in-force.ts';
import { hasClass } from '../../reckon/enrolment.ts';
import { findEach, spot, type Say } from '../finding.ts';
import { over, type Rule } from '../rule.ts';

export const classOverfull: Rule = {
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
    message: `${String(first.enrolled)} are enrolled in ${taught.id}, which has ${placesOf(first.places)}`,
    hint: 'correct the count, or give the class more places',
    related: [{ at: spot(taught, ...places), message: 'its places' }],
  });
}

interface Enrolment {
  readonly sale: Sale;
  readonly index: number;
  readonly change: number;
}

/** Class → the lines that enrol students in it or take them out, in the order of their dates. */
function enrolmentsIn(sales: Iterable<Sale>): ReadonlyMap<string, readonly Enrolment[]> {
  const enrolments = new Map<string, Enrolment[]>();
  for (const sale of [...sales].filter(hasClass).sort(byDate))
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
function byDate(one: Sale, other: Sale): number {
  if (one.date !== other.date) return one.date < other.date ? -1 : 1;
  const [leaves, othersLeave] = [isReturn(one), isReturn(other)];
  if (leaves !== othersLeave) return leaves ? -1 : 1;
  return one.id < other.id ? -1 : 1;
}

function isReturn({ lines }: Sale): boolean {
  return lines.some((line) => line.returned === 'yes');
}

function firstOver(
  taught: StudioClass,
  enrolments: readonly Enrolment[],
): (Enrolment & { readonly enrolled: number; readonly places: number }) | undefined {
  let enrolled = 0;
  for (const enrolment of enrolments) {
    enrolled += enrolment.change;
    const { places = Infinity } = inForce(taught, enrolment.sale.date);
    if (enrolled > places) return { ...enrolment, enrolled, places };
  }
  return undefined;
}

function placesOf(places: number): string {
  return places === 1 ? '1 place' : `${String(places)} places`;
}
