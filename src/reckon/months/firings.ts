/** What firings cost in a month, as data that can be kept. */
import type { Book } from '../../book.ts';
import { decimal } from '../../number/decimal.ts';
import type { Unit } from '../../number/unit.ts';
import type { FiringCost } from '../firing-cost.ts';
import { costKept, keptCost, type KeptCost } from './columns.ts';
import { sure } from './sure.ts';

type FiringAmounts = Omit<FiringCost, 'firing' | 'energy' | 'withoutBands' | 'shares'>;

/** A firing's cost as it is kept. */
export interface KeptFiring {
  readonly id: string;
  readonly amounts: FiringAmounts;
  readonly energy: readonly [value: string, unit: Unit, estimated: boolean] | undefined;
  readonly withoutBands: string | undefined;
  readonly shares: readonly KeptCost[];
}

/** A firing's cost to be kept. */
export function keptFiring(cost: FiringCost): KeptFiring {
  const { firing, energy, withoutBands, shares, ...amounts } = cost;
  return {
    id: firing.id,
    amounts,
    energy: energy && [energy.value.toFixed(), energy.unit, energy.estimated],
    withoutBands: withoutBands?.id,
    shares: shares.map(keptCost),
  };
}

/** What firings cost, as it was, by their ids. */
export function firingsKept(kept: readonly KeptFiring[], book: Book): Map<string, FiringCost> {
  return new Map(kept.map((each) => [each.id, firingKept(each, book)]));
}

function firingKept(
  { id, amounts, energy, withoutBands, shares }: KeptFiring,
  book: Book,
): FiringCost {
  return {
    ...amounts,
    get firing() {
      return sure(book.firings.get(id), id);
    },
    energy: energy && { value: decimal(energy[0]), unit: energy[1], estimated: energy[2] },
    withoutBands: withoutBands === undefined ? undefined : book.tariffs.get(withoutBands),
    shares: shares.map(costKept),
  };
}
