/** What a firing draws on: room in the kiln, energy, meters and tariffs. */
import type { Book, Firing, Fuel, Kiln, LoadLine, NamedBook, Tariff } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { sum, type Decimal } from '../../number/decimal.ts';
import { energyOf, tariffOn } from '../../reckon/kilns/energy.ts';
import { spaceOf } from '../../reckon/kilns/firing-cost.ts';
import { outcomeOf } from '../../reckon/kilns/out-of-kiln.ts';
import { compareTexts } from '../../text-order.ts';
import { findEach, keySpot, spot, type RuleFinding } from '../finding.ts';
import { each, over, type Rule } from '../rule.ts';
import { mayLack } from '../unsound.ts';

const kilnOverfull: Rule = {
  name: 'kiln-overfull',
  severity: 'warning',
  about: 'The load takes more space than the kiln has.',
  looks: [
    each('firings', (firing, { book, say }) => {
      const kiln = book.kilns.get(firing.kiln);
      // How much room a piece takes is not known while its product has faults.
      if (kiln?.space === undefined || !firing.load.every((line) => isKnown(book, line))) return;
      const taken = spaceTaken(book, firing);
      if (taken.lte(kiln.space)) return;
      say({
        at: keySpot(firing, 'load'),
        message: `the load takes ${taken.toFixed()} of space, but ${kiln.id} has ${kiln.space.toFixed()}`,
        hint: 'correct a count, or give a line the space that one of its pieces takes, as when ware is stacked',
        related: [{ at: spot(kiln, 'space'), message: `the space of ${kiln.id}` }],
      });
    }),
  ],
};

function spaceTaken(book: NamedBook, firing: Firing): Decimal {
  return sum(firing.load.map((line) => spaceOf(book, firing, line)));
}

function isKnown(book: NamedBook, { lot = '', space }: LoadLine): boolean {
  return (
    space !== undefined || lot === '' || book.products.has(book.pieces.get(lot)?.product ?? '')
  );
}

const energyMissing: Rule = {
  name: 'energy-missing',
  severity: 'warning',
  about:
    'The energy of a firing is neither on record nor can it be estimated, so its cost is too low.',
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

// Wood is often had for nothing, so nobody need record it; of a kiln that is still shut nobody can.
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

const tariffMissing: Rule = {
  name: 'tariff-missing',
  severity: 'warning',
  about: 'No tariff for the fuel is in force on the day of a firing, so its energy costs nothing.',
  looks: [
    over({ tariffs: 'all', firings: 'all' }, (book, unsound) => {
      if (mayLack(unsound, 'tariffs')) return [];
      return [...firingsWithoutTariff(book)].map(([fuel, firings]) => {
        const first = firings.reduce((early, each) => (each.date < early.date ? each : early));
        const later = firstTariff(book.tariffs.values(), fuel);
        if (later) return beginsLate(later, first, firings.length - 1);
        return {
          at: spot(first, 'date'),
          message: `there is no tariff for ${fuel}, which the firing of ${first.date} needs${others(firings.length - 1)}`,
          hint: `add a tariff for ${fuel} with from: ${first.date} or an earlier day`,
        };
      });
    }),
  ],
};

function firstTariff(tariffs: Iterable<Tariff>, fuel: Fuel): Tariff | undefined {
  const own = [...tariffs].filter((tariff) => tariff.fuel === fuel);
  return own.sort((one, other) => compareTexts(one.from, other.from))[0];
}

function beginsLate(tariff: Tariff, first: Firing, count: number): RuleFinding {
  return {
    at: spot(tariff, 'from'),
    message: `the first tariff for ${tariff.fuel} is from ${tariff.from}, after the firing ${first.id} of ${first.date}${others(count)}`,
    hint: `write ${first.date} or an earlier day if its price held then; otherwise add the tariff that did`,
    related: [{ at: spot(first, 'date'), message: 'the first firing without a tariff' }],
  };
}

function others(count: number): string {
  return count === 0 ? '' : `, and of ${counted(count, 'other firing')}`;
}

function firingsWithoutTariff(
  book: NamedBook & Pick<Book, 'tariffs' | 'firings'>,
): ReadonlyMap<Fuel, readonly Firing[]> {
  const found = new Map<Fuel, Firing[]>();
  for (const firing of book.firings.values()) {
    const fuel = fuelBoughtFor(book, firing);
    if (fuel === undefined || tariffOn(book, fuel, firing.date) !== undefined) continue;
    const firings = found.get(fuel) ?? [];
    firings.push(firing);
    found.set(fuel, firings);
  }
  return found;
}

/** The fuel whose tariff prices a firing: undefined where nothing is drawn, or it comes from stock. */
function fuelBoughtFor(book: NamedBook, firing: Firing): Fuel | undefined {
  const kiln = book.kilns.get(firing.kiln);
  const fromStock = firing.fuelUsed !== undefined && 'material' in firing.fuelUsed;
  if (kiln === undefined || fromStock || energyOf(firing, kiln) === undefined) return undefined;
  return kiln.fuel;
}

const meterGap: Rule = {
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
          hint: `add the firing between the two; or write ${after.toFixed()} if the reading is a slip`,
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
  const days = compareTexts(a.date, b.date);
  if (days !== 0) return days;
  if (a.meter === undefined || b.meter === undefined) return compareTexts(a.id, b.id);
  return a.meter.before.cmp(b.meter.before);
}

const meterRunsBackwards: Rule = {
  name: 'meter-runs-backwards',
  severity: 'error',
  about: "A firing's meter reads less after it than before it.",
  looks: [
    each('firings', (firing, { say }) => {
      const { meter } = firing;
      if (meter === undefined || meter.after.gte(meter.before)) return;
      say({
        at: spot(firing, 'meter', 'after'),
        message: `the meter read ${meter.before.toFixed()} before and ${meter.after.toFixed()} after`,
        hint: `write meter: { before: ${meter.after.toFixed()}, after: ${meter.before.toFixed()} } if they are the wrong way round; if the meter was replaced or rolled over, give the energy instead`,
      });
    }),
  ],
};

/** The rules on kilns and their energy. */
export const FIRING_RULES: readonly Rule[] = [
  kilnOverfull,
  energyMissing,
  tariffMissing,
  meterGap,
  meterRunsBackwards,
];
