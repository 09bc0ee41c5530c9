/** Tells many problems of one sort in one file as the first ones and a count. */
import { setApart } from './in-words.ts';
import type { Finding, Severity } from './problem.ts';

/** So many of one rule are told of one file; an ordinary file with its faults has fewer. */
export const MOST_TOLD = 100;

/** How many problems of a rule are not told one by one. */
interface Untold {
  readonly rule: string;
  readonly severity: Severity;
  readonly count: number;
}

/** The words for the problems of a file that are not told one by one. */
export function untoldWords({ rule, severity, count }: Untold): { message: string; hint: string } {
  const number = setApart(String(count));
  const noun = count === 1 ? severity : `${severity}s`;
  return {
    message: `${number} more ${noun} of the rule ${rule} in this file`,
    hint: 'correct those listed above, then run the command again to see the next ones',
  };
}

/** How many problems a list tells of, those included that are only counted in it. */
export function countOf(problems: readonly { readonly untold?: number }[]): number {
  return problems.reduce((sum, { untold = 1 }) => sum + untold, 0);
}

/** A list of a file's findings that only counts what goes beyond the most that are told of a rule. */
export interface Findings {
  /** Takes one finding of a rule; it is made only where it will be told. */
  readonly add: (rule: string, make: () => Finding) => void;
  readonly all: () => readonly Finding[];
}

/** An empty list. */
export function newFindings(): Findings {
  const told: Finding[] = [];
  const counts = new Map<string, { count: number; last?: Finding }>();
  return {
    add: (rule, make) => {
      const known = counts.get(rule) ?? { count: 0 };
      known.count += 1;
      counts.set(rule, known);
      if (known.count > MOST_TOLD) return;
      known.last = make();
      told.push(known.last);
    },
    all: () => [...told, ...[...counts.values()].flatMap(untoldIn)],
  };
}

function untoldIn({ count, last }: { count: number; last?: Finding }): Finding[] {
  if (last === undefined || count <= MOST_TOLD) return [];
  const { rule, severity, at } = last;
  const untold = count - MOST_TOLD;
  return [{ rule, severity, at, ...untoldWords({ rule, severity, count: untold }), untold }];
}
