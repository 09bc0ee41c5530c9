/** Days that ware waits between the steps of its making: by the settings, else by what lots took, else usual ones. */
import type { Book, FiringKind, StepDays } from '../../book.ts';
import { addDays, daysBetween } from '../../number/date.ts';
import { addTo, keyed } from '../../grouping.ts';
import { once } from '../../once.ts';
import type { Flows } from '../flows.ts';
import { outOn } from '../kilns/out-of-kiln.ts';
import type { LotPass, LotState } from '../ware/lot.ts';
import { GLAZING } from '../ware/stages.ts';
import { lotsDuring } from '../ware/ware.ts';
import { DAYS_BACK } from './yields.ts';

type WaitName = keyof StepDays;

/** The waits in the order of the work. */
export const WAITS: readonly WaitName[] = ['drying', 'glazing', 'decorating', 'packing'];

/** One wait, and what it goes by. */
export interface Wait {
  readonly days: number;
  readonly from: 'settings' | 'lots' | 'usual';
  /** Of lots: nine of ten took no longer than this. */
  readonly slow: number | undefined;
}

export type Waits = Readonly<Record<WaitName, Wait>>;

/** Where nothing is on record (common practice). */
const USUAL_DAYS: Readonly<Record<WaitName, number>> = {
  drying: 7,
  glazing: 2,
  decorating: 1,
  packing: 1,
};

const FEWEST_LOTS = 5;

/** The median over the lots of the last two years, unless the settings say it. */
export function waitsOf({ studio: { days = {} } }: Book, flows: Flows): Waits {
  const taken = once(() => daysTaken(flows));
  return keyed(WAITS, (name): Wait => {
    const set = days[name];
    if (set !== undefined) return { days: set, from: 'settings', slow: undefined };
    const some = taken()?.get(name) ?? [];
    if (some.length < FEWEST_LOTS)
      return { days: USUAL_DAYS[name], from: 'usual', slow: undefined };
    return { days: quantile(some, 0.5), from: 'lots', slow: quantile(some, 0.9) };
  });
}

/** The wait before a firing of a product: before its first, before one that melts a glaze, before a later one. */
export function waitBefore(fired: readonly FiringKind[], at: number): WaitName {
  if (at === 0) return 'drying';
  const kind = fired[at];
  return kind !== undefined && GLAZING.includes(kind) ? 'glazing' : 'decorating';
}

function daysTaken({ stock: { asOf }, ware }: Flows): Map<WaitName, number[]> {
  const from = addDays(asOf, -DAYS_BACK);
  const taken = new Map<WaitName, number[]>();
  const states = [...lotsDuring(ware.lots, { from, to: asOf })];
  for (const { state, pass } of states.flatMap((each) =>
    each.passes.map((pass) => ({ state: each, pass })),
  )) {
    const since = sinceOf(state, pass);
    if (since === undefined || pass.firing.date < from) continue;
    const days = Math.max(0, daysBetween(since, pass.firing.date));
    addTo(taken, waitBefore(state.fired, pass.from), days);
  }
  return taken;
}

/** The day it was made, or came out of the firing before; undefined where that is not known. */
function sinceOf({ lot, wasThere, passes }: LotState, pass: LotPass): string | undefined {
  if (pass.from >= pass.to) return undefined;
  if (pass.from === 0) return wasThere ? undefined : lot.date;
  const before = passes.findLast(
    ({ to, from, firing }) => from < to && to === pass.from && outOn(firing) <= pass.firing.date,
  );
  return before && outOn(before.firing);
}

/** The least of which so large a share is no larger: the nearest rank. */
function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((one, other) => one - other);
  return sorted[Math.ceil(sorted.length * share) - 1] ?? 0;
}
