/** Between two metered firings of a kiln its meter should stand still. */
import type { Day, Firing } from '../../book.ts';
import type { Decimal } from '../../number/decimal.ts';
import { findEach, spot } from '../finding.ts';
import { over, type Rule } from '../rule.ts';
import { mayLack } from '../unsound.ts';

export const meterGap: Rule = {
  name: 'meter-gap',
  severity: 'warning',
  about: "A firing's meter does not start where the kiln's last firing left it.",
  looks: [
    over({ firings: 'all' }, (book, unsound) => {
      if (mayLack(unsound, 'firings')) return [];
      const previous = firingsBefore([...book.firings.values()]);
      return findEach(book.firings, (firing, say) => {
        const last = previous.get(firing);
        if (last?.meter === undefined || firing.meter === undefined) return;
        const { before } = firing.meter;
        const { after } = last.meter;
        if (before.eq(after)) return;
        say({
          at: spot(firing, 'meter', 'before'),
          message: `${firing.kiln} starts at ${before.toFixed()}, but ${last.id} left it at ${after.toFixed()}, ${gap(before, after)}`,
          hint: 'correct a reading, or add the firing that lies between',
          related: [{ at: spot(last, 'meter', 'after'), message: `the reading after ${last.id}` }],
        });
      });
    }),
  ],
};

function gap(before: Decimal, after: Decimal): string {
  const difference = before.minus(after);
  return `${difference.abs().toFixed()} kWh ${difference.isNegative() ? 'less' : 'more'}`;
}

/** Each firing → the one before it in the same kiln. */
function firingsBefore(firings: readonly Firing[]): ReadonlyMap<Firing, Firing> {
  const inOrder = firings.toSorted(byTime);
  const last = new Map<string, Firing>();
  const previous = new Map<Firing, Firing>();
  for (const firing of inOrder) {
    const before = last.get(firing.kiln);
    if (before !== undefined) previous.set(firing, before);
    last.set(firing.kiln, firing);
  }
  return previous;
}

// Two firings of one kiln on one day follow each other as the meter tells.
function byTime(a: Firing, b: Firing): number {
  const days = compare(a.date, b.date);
  if (days !== 0) return days;
  if (a.meter === undefined || b.meter === undefined) return compare(a.id, b.id);
  return a.meter.before.cmp(b.meter.before);
}

function compare(a: Day, b: Day): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}
