/** What a book comes to as plain data, so that two ways to it can be compared. */
import { settledBy } from '../../src/reckon/open.ts';
import type { LotState } from '../../src/reckon/ware/lot.ts';
import type { Flows } from '../../src/reckon/flows.ts';

/** All parts of the flows; lots and firings by their ids where they are only named. */
export function plainFlows({ stock, ware, taxes, shortfalls }: Flows): unknown {
  return {
    asOf: stock.asOf,
    pools: [...stock.pools].map(([id, { pool, unit, since, opened }]) => ({
      ...{ id, unit, pool, since, opened },
    })),
    sums: [stock.sums, ware.sums],
    movements: [...stock.movements],
    facts: [...ware.facts],
    sales: [...ware.sales],
    standing: ware.standing(),
    taxes: settledBy(taxes, stock.asOf),
    minutes: [...ware.lots.keys()].map(ware.minutesOf),
    firings: [...ware.firings].map(([id, cost]) => ({ id, ...cost, firing: cost.firing.id })),
    lots: [...ware.lots].map(([id, state]) => [id, plainLot(state)]),
    open: ware.openGlazes.filter(({ open }) => open.size > 0),
    glazes: [...ware.glazes],
    unglazed: [...ware.unglazed],
    tooFew: ware.shortfalls,
    shortfalls,
  };
}

function plainLot({ inKiln, passes, gone, ...state }: LotState): unknown {
  return {
    ...state,
    inKiln: inKiln.map(({ firing, line, from, to, added, count, cost }) => ({
      ...{ firing, line, from, to, added, count, cost },
    })),
    passes: passes.map(({ firing, line, from, to, added }) => ({
      ...{ firing: firing.id, line, from, to, added },
    })),
    gone: Array.from(gone),
    places: [...state.places].filter(([, count]) => count !== 0).sort(),
  };
}
