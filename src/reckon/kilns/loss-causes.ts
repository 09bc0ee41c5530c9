/** What seconds and losses came of: faults by cause, and what is certain of each. */
import { CAUSES } from '../../events.ts';

/** Cause → how many pieces. */
type Causes = Readonly<Record<string, number>>;

/** Pieces that came out as seconds or were lost, and why. */
export interface Faults {
  readonly second: number;
  readonly lost: number;
  readonly causes: Causes;
  /** The causes of what was lost, where the record says so; all others are then of seconds. */
  readonly lostTo: Causes | undefined;
}

/** Causes with their counts in the order of the trade's list, however a record puts them. */
export function inOrderOfCauses(causes: Causes): (readonly [string, number])[] {
  return CAUSES.flatMap((cause) => {
    const count = causes[cause];
    return count === undefined ? [] : [[cause, count] as const];
  });
}

/** A cause, and how many of its faults are surely of a lost piece, and of a second. */
interface CauseCount {
  /** Undefined of those without one on record. */
  readonly cause: string | undefined;
  readonly faults: number;
  readonly lost: number;
  readonly second: number;
}

/** Faults by cause, those without one too. */
export function causesOf(faults: Faults): CauseCount[] {
  const counted = faults.lostTo ? causesAsSaid(faults, faults.lostTo) : causesForCertain(faults);
  return counted.filter((each) => each.faults > 0);
}

/** Where the record doesn't say, that much of a cause is of lost pieces as there aren't seconds for. */
function causesForCertain({ causes, second, lost }: Faults): CauseCount[] {
  const named = inOrderOfCauses(causes);
  const others = Math.max(0, second + lost - faultsIn(named));
  return [...named, [undefined, others] as const].map(([cause, faults]) => ({
    cause,
    faults,
    lost: Math.min(lost, Math.max(0, faults - second)),
    second: Math.min(second, Math.max(0, faults - lost)),
  }));
}

function causesAsSaid({ causes, second, lost }: Faults, lostTo: Causes): CauseCount[] {
  const named = inOrderOfCauses(causes).map(([cause, faults]) => {
    const lostHere = Math.min(faults, lostTo[cause] ?? 0);
    return { cause, faults, lost: lostHere, second: faults - lostHere };
  });
  const left = (all: number, of: 'lost' | 'second'): number =>
    Math.max(
      0,
      named.reduce((rest, each) => rest - each[of], all),
    );
  const others = { lost: left(lost, 'lost'), second: left(second, 'second') };
  return [...named, { cause: undefined, faults: others.lost + others.second, ...others }];
}

function faultsIn(causes: readonly (readonly [string, number])[]): number {
  return causes.reduce((all, [, count]) => all + count, 0);
}
