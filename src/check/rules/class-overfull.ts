/** A class has as many places as it has. */
import type { Book, Sale, StudioClass } from '../../book.ts';
import { inForce, placeInForce } from '../../in-force.ts';
import { hasClass } from '../../reckon/enrolment.ts';
import { findEach, once, spot } from '../finding.ts';
import type { Rule } from '../rule.ts';

export const classOverfull: Rule = {
  name: 'class-overfull',
  severity: 'warning',
  about: 'More students are enrolled in a class than it has places.',
  find: (book) =>
    findEach(book.classes, (taught, say) => {
      const over = firstOver(taught, enrolmentsOf(book).get(taught.id) ?? []);
      if (!over) return;
      const places = placeInForce(taught, 'places', over.sale.date);
      say({
        at: spot(over.sale, 'lines', over.index, 'count'),
        message: `${String(over.enrolled)} are enrolled in ${taught.id}, which has ${placesOf(over.places)}`,
        hint: 'correct the count, or give the class more places',
        related: [{ at: spot(taught, ...places), message: 'its places' }],
      });
    }),
};

interface Enrolment {
  readonly sale: Sale;
  readonly index: number;
  readonly change: number;
}

/** Class → the lines that enrol students in it or take them out, in the order of their dates. */
const enrolmentsOf = once((book: Book) => {
  const enrolments = new Map<string, Enrolment[]>();
  for (const sale of [...book.sales.values()].filter(hasClass).sort(byDate))
    sale.lines.forEach((line, index) => {
      if (line.class === undefined) return;
      const change = line.returned === 'yes' ? -line.count : line.count;
      const known = enrolments.get(line.class);
      if (known) known.push({ sale, index, change });
      else enrolments.set(line.class, [{ sale, index, change }]);
    });
  return enrolments;
});

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
