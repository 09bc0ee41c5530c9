/** Puts what is alike together, so that many of one cause don't hide the others. */
import { countOf } from '../../fold.ts';
import { grouped } from '../../grouping.ts';
import { setApart } from '../../in-words.ts';
import type { ReviewProblem } from '../../review/review.ts';
import type { Sized } from '../../review/told-changes.ts';

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

/** So many risks that are alike are shown, and so many changes. */
export const MOST_RISKS = 5;
export const MOST_CHANGES = 12;

/** Things that are alike, of which the largest are shown in their order. */
interface AlikeGroup<T> {
  readonly shown: readonly T[];
  /** What is said of those that are not shown; empty where all are. */
  readonly more: string;
}

/** The things by their sort, in the order of the first of each, and of each sort the largest so many. */
export function foldedAlike<T extends Sized>(things: readonly T[], most: number): AlikeGroup<T>[] {
  const groups = [...grouped(things, ({ sort }) => sort).values()];
  // One more is no longer than the sentence that would stand for it.
  const isShort = (alike: readonly T[]): boolean => alike.length <= most + 1;
  if (groups.every(isShort)) return [{ shown: things, more: '' }];
  return groups.map((alike) => {
    if (isShort(alike)) return { shown: alike, more: '' };
    const largest = new Set(alike.toSorted((one, other) => other.size - one.size).slice(0, most));
    const left = setApart(String(alike.length - most));
    return {
      shown: alike.filter((each) => largest.has(each)),
      more: `and ${left} more like these; --as json has them all`,
    };
  });
}
