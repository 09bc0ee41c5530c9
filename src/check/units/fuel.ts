/** Energy and fuel against the tariffs that price them. */
import type { Book, Firing, Fuel, NamedBook, Tariff } from '../../book.ts';
import { dimensionOf, type Dimension } from '../../number/unit.ts';
import { energyCost, energyOf, tariffOn } from '../../reckon/energy.ts';
import { findEach, listed, spot, type Say } from '../finding.ts';
import { each, over, type Look } from '../rule.ts';
import { called, unitsOf } from './fits.ts';

/** What each fuel is sold by. */
const SOLD_BY: Readonly<Record<Fuel, readonly Dimension[]>> = {
  electricity: ['energy'],
  'natural-gas': ['energy', 'gas'],
  propane: ['volume', 'weight', 'energy', 'gas', 'count'],
  wood: ['volume', 'weight', 'count'],
};

/** Tariffs by a unit that their fuel is not sold by, and firings whose energy no tariff can price. */
export const badFuelUnits: readonly Look[] = [
  each('tariffs', lookAtTariff),
  over({ firings: 'all', tariffs: 'all' }, (book) =>
    findEach(book.firings, (firing, say) => {
      lookAtPricing(book, firing, say);
    }),
  ),
];

function lookAtTariff(tariff: Tariff, { say }: { readonly say: Say }): void {
  const { fuel, per } = tariff;
  const given = dimensionOf(per);
  if (SOLD_BY[fuel].includes(given)) return;
  say({
    at: spot(tariff, 'per'),
    message: `${per} is ${called(given)}, but ${fuel} is sold by ${listed(SOLD_BY[fuel], 'or')}`,
    hint: `price it per ${unitsOf(SOLD_BY[fuel])}`,
  });
}

function lookAtPricing(book: NamedBook & Pick<Book, 'tariffs'>, firing: Firing, say: Say): void {
  const kiln = book.kilns.get(firing.kiln);
  if (kiln === undefined || isFromStock(firing)) return;
  const use = energyOf(firing, kiln);
  const tariff = tariffOn(book, kiln.fuel, firing.date);
  if (use === undefined || tariff === undefined) return;
  if (!SOLD_BY[kiln.fuel].includes(dimensionOf(tariff.per))) return;
  if (dimensionOf(use.unit) === dimensionOf(tariff.per)) return;
  if (energyCost(book, firing, use) !== undefined) return;
  say({
    at: spot(firing, ...placeOfEnergy(firing)),
    message: `${use.value.toFixed()} ${use.unit} can't be priced by ${tariff.id}, which is per ${tariff.per}`,
    hint: `write it in ${unitsOf([dimensionOf(tariff.per)])}, or give ${kiln.id} its heat-content if gas is measured`,
    related: [{ at: spot(tariff, 'per'), message: `the unit of ${tariff.id}` }],
  });
}

// Fuel from stock is priced by what it cost.
function isFromStock({ fuelUsed }: Firing): boolean {
  return fuelUsed !== undefined && 'material' in fuelUsed;
}

function placeOfEnergy({ energy, meter, fuelUsed }: Firing): readonly string[] {
  if (energy !== undefined) return ['energy'];
  if (meter !== undefined) return ['meter'];
  return fuelUsed === undefined ? ['hours'] : ['fuel-used'];
}
