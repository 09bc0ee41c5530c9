/** A firing whose energy nobody knows costs nothing in the figures. */
import type { Firing, Kiln, NamedBook } from '../../book.ts';
import { energyOf } from '../../reckon/energy.ts';
import { outcomeOf } from '../../reckon/out-of-kiln.ts';
import { findEach, keySpot, type RuleFinding } from '../finding.ts';
import { over, type Rule } from '../rule.ts';

export const energyMissing: Rule = {
  name: 'energy-missing',
  severity: 'warning',
  about: 'The energy of a firing is neither on record nor to be reckoned, so its cost is too low.',
  looks: [
    over({ kilns: 'all', firings: 'all' }, (book) => {
      const firings = [...book.firings.values()];
      const lacking = firings.filter((firing) => lacksEnergy(book, firing));
      const without = new Set(lacking);
      const known = new Set(firings.filter((each) => !without.has(each)).map(({ kiln }) => kiln));
      return [
        ...lacking.filter(({ kiln }) => known.has(kiln)).map(forgotten),
        ...findEach(book.kilns, (kiln, say) => {
          const first = lacking.find((firing) => firing.kiln === kiln.id);
          if (first !== undefined && !known.has(kiln.id)) say(neverKnown(kiln, first));
        }),
      ];
    }),
  ],
};

// Wood is often had for nothing, so nobody need write it down; of a kiln that is still shut nobody can.
function lacksEnergy(book: NamedBook, firing: Firing): boolean {
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
