/** `saggar check --since REVISION`: first what that commit does not have, and of the rest a few lines. */
import type { Finding, Problem } from '../../problem.ts';
import { locateIn } from '../../read/place.ts';
import { printedLines, type Printable } from '../../render/printable.ts';
import { countsOf } from '../../render/problems/problems.ts';
import { problemChanges } from '../../review/problems.ts';
import type { AskedOf } from '../catalogue.ts';
import { findInTime } from '../studio/find-studio.ts';
import { openFound, type OpenedBook } from '../studio/open.ts';
import { isRefusal, type Refusal, type World } from '../world.ts';

/** Problems that a commit does not have, errors first, and those that it has too. */
export interface ProblemsSince {
  readonly brought: readonly Problem[];
  readonly kept: readonly Problem[];
}

/** What was found, held against what the commit of `--since` has. */
export async function problemsSince(
  { findings, textOf }: OpenedBook,
  asked: AskedOf<'check'>,
  world: World,
): Promise<ProblemsSince | Refusal> {
  const options = { ...asked.options, at: asked.options.since };
  const before = await openFound(await findInTime({ ...asked, options }, world));
  if (isRefusal(before)) return before;
  before.save();
  const brought = problemChanges(before.findings, findings).brought;
  const isNew = new Set(brought);
  const kept = findings.filter((each) => !isNew.has(each));
  const located = await locateIn(textOf, brought);
  return { brought: located.toSorted(byRank), kept: await locateIn(textOf, kept) };
}

function byRank(one: Problem, other: Problem): number {
  return Number(isError(other)) - Number(isError(one));
}

function isError({ severity }: Pick<Finding, 'severity'>): boolean {
  return severity === 'error';
}

/** So many errors are told that the commit has too. */
const MOST_KEPT = 5;

/** What the commit has too: the first errors, a line each, and how many problems those are in all. */
export function keptText(kept: readonly Problem[], since: string): Printable {
  const errors = kept.filter(isError);
  const told = errors.slice(0, MOST_KEPT).map(({ place, message, rule }) => {
    return `  ${place.file}:${place.line}: ${message} [${rule}]`;
  });
  const left = errors.length - told.length;
  return printedLines([
    `${since} has as well: ${countsOf(kept)}`,
    ...told,
    ...(left > 0 ? [`  and ${left} more of the errors; saggar check shows them all`] : []),
  ]);
}
