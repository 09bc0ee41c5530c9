/** Energy without a tariff in force costs nothing in the figures. */
import { counted } from '../../in-words.ts';
import type { Book, Firing, Fuel, NamedBook } from '../../book.ts';
import { energyOf, tariffOn } from '../../reckon/energy.ts';
import { spot } from '../finding.ts';
import { over, type Rule } from '../rule.ts';
import { mayLack } from '../unsound.ts';

export const tariffMissing: Rule = {
  name: 'tariff-missing',
  severity: 'warning',
  about: 'No tariff for the fuel is in force on the day of a firing, so its energy costs nothing.',
  looks: [
    over({ tariffs: 'all', firings: 'all' }, (book, unsound) => {
      if (mayLack(unsound, 'tariffs')) return [];
      return [...firingsWithoutTariff(book)].map(([fuel, firings]) => {
        const first = firings.reduce((early, each) => (each.date < early.date ? each : early));
        return {
          at: spot(first, 'date'),
          message: `no tariff for ${fuel} is in force on ${first.date}${others(firings.length - 1)}`,
          hint: `add a tariff for ${fuel} from that day or before`,
        };
      });
    }),
  ],
};

function others(count: number): string {
  return count === 0 ? '' : `, nor on the day of ${counted(count, 'other firing')}`;
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
