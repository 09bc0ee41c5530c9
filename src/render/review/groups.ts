/** Puts problems of one rule together, so that many of one cause don't hide the others. */
import { countOf } from '../../fold.ts';
import { grouped } from '../../grouping.ts';
import type { ReviewProblem } from '../../review/review.ts';

/** Problems of one rule. */
interface ProblemGroup {
  readonly shown: readonly ReviewProblem[];
  /** What is said of those that are not shown; empty where all are. */
  readonly more: string;
}

/** So many of a rule are shown. */
const MOST_OF_RULE = 5;

/** The problems by severity and rule, in the order of the first of each, and of each rule the first five. */
export function problemGroups(problems: readonly ReviewProblem[]): readonly ProblemGroup[] {
  const groups = grouped(problems, ({ severity, rule }) => `${severity} ${rule}`);
  return [...groups].map(([name, all]) => {
    const told = all.filter(({ untold }) => untold === undefined);
    const isFew = told.length === all.length && all.length <= MOST_OF_RULE + 1;
    if (isFew || told.length === 0) return { shown: all, more: '' };
    const shown = told.slice(0, MOST_OF_RULE);
    const number = countOf(all);
    return { shown, more: `${name}: ${number - shown.length} more, ${number} in all` };
  });
}
