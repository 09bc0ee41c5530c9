/** A firing whose energy nobody knows costs nothing in the figures. */
import type { Book, Firing, Kiln } from '../../book.ts';
import { energyOf } from '../../reckon/energy.ts';
import { outcomeOf } from '../../reckon/out-of-kiln.ts';
import { findEach, keySpot } from '../finding.ts';
import type { Rule, RuleFinding } from '../rule.ts';

export const energyMissing: Rule = {
  name: 'energy-missing',
  severity: 'warning',
  about: 'The energy of a firing is neither on record nor to be reckoned, so its cost is too low.',
  find: (book) => {
    const known = kilnsWithEnergy(book);
    return [
      ...findEach(book.firings, (firing, say) => {
        if (known.has(firing.kiln) && lacksEnergy(book, firing)) say(forgotten(firing));
      }),
      ...findEach(book.kilns, (kiln, say) => {
        if (known.has(kiln.id)) return;
        const first = [...book.firings.values()].find(
          (firing) => firing.kiln === kiln.id && lacksEnergy(book, firing),
        );
        if (first !== undefined) say(neverKnown(kiln, first));
      }),
    ];
  },
};

function kilnsWithEnergy(book: Book): ReadonlySet<string> {
  const known = new Set<string>();
  for (const firing of book.firings.values())
    if (!lacksEnergy(book, firing)) known.add(firing.kiln);
  return known;
}

// Wood is often had for nothing, so nobody need write it down; of a kiln that is still shut nobody can.
function lacksEnergy(book: Book, firing: Firing): boolean {
  const kiln = book.kilns.get(firing.kiln);
  if (kiln === undefined || kiln.fuel === 'wood' || isInKiln(firing)) return false;
  return energyOf(firing, kiln) === undefined;
}

function isInKiln({ load }: Firing): boolean {
  return load.length > 0 && load.every((line) => outcomeOf(line) === undefined);
}

function forgotten(firing: Firing): RuleFinding {
  return {
    at: keySpot(firing),
    message: `the energy of this firing of ${firing.date} is not known`,
    hint: 'add its energy, meter or fuel-used; or its hours, where the kiln has power and duty',
  };
}

function neverKnown(kiln: Kiln, first: Firing): RuleFinding {
  return {
    at: keySpot(kiln),
    message: `no firing of ${kiln.id} has an energy, so all of them cost too little`,
    hint: 'give each firing its energy, meter or fuel-used; or the kiln its power and duty, and the firings their hours',
    related: [{ at: keySpot(first), message: 'one of the firings' }],
  };
}
