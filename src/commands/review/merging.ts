/** Finds the two states that a review compares: the base as it is now, and what a merge would make of it. */
import { counted } from '../../in-words.ts';
import { openBeside, type Beside } from '../../read/git/beside.ts';
import { checkoutOf, type Checkout } from '../../read/git/checkout.ts';
import { commitDisk } from '../../read/git/disk-commit.ts';
import { mergeOf, type MergeConflict } from '../../read/git/merged.ts';
import type { OnDisk } from '../../read/git/on-disk.ts';
import { startOf, type Commit, type Repository } from '../../read/git/repository.ts';
import { isRefusal, type Refusal, type World } from '../world.ts';

/** Two states to compare; without a new commit the new state is the working tree. */
export interface States {
  readonly repository: Repository;
  readonly old: Commit;
  readonly now: Commit | undefined;
  /** Files of which git can't bring the two versions together. */
  readonly conflicts: readonly MergeConflict[];
  readonly notes: readonly string[];
  /** Files of the working tree that are taken as they are committed, since only a filter could compare them. */
  readonly uncompared: OnDisk['uncompared'];
  /** Deletes what was made for them. */
  readonly release: () => void;
}

/** A branch to be merged. */
interface Branch {
  readonly repository: Repository;
  readonly base: Commit;
  readonly head: Commit;
  /** Whether what is in the folder counts, committed or not. */
  readonly isOnDisk: boolean;
}

/** States that are compared just as they are. */
export function statesAsTheyAre(
  given: Pick<States, 'repository' | 'old' | 'now'> & Partial<States>,
): States {
  return { conflicts: [], notes: [], uncompared: new Map(), release: () => undefined, ...given };
}

const COMPLETE: Checkout = { leftOut: [], ignored: [] };

/** The base, and the branch merged into it; where the base has not moved that is the branch itself. */
export function statesOfMerge(
  branch: Branch,
  { environment }: Pick<World, 'environment'>,
): States | Refusal {
  const { repository, base, head, isOnDisk } = branch;
  const start = startOf(repository, base, head);
  if (isRefusal(start)) return start;
  const checkout = isOnDisk ? checkoutOf(repository, head) : COMPLETE;
  if (isRefusal(checkout)) return checkout;
  const isWhole = checkout.leftOut.length === 0 && checkout.ignored.length === 0;
  if (start.id === base.id && (isWhole || !isOnDisk))
    return statesAsTheyAre({ repository, old: base, now: isOnDisk ? undefined : head });
  const beside = openBeside(repository, environment);
  if (isRefusal(beside)) return beside;
  const states = statesBeside(beside, branch, { start, checkout });
  if (isRefusal(states)) beside.release();
  return states;
}

interface Started {
  /** Where the branch left the base. */
  readonly start: Commit;
  readonly checkout: Checkout;
}

function statesBeside(
  beside: Beside,
  { base, head, isOnDisk }: Branch,
  { start, checkout }: Started,
): States | Refusal {
  const { repository, release } = beside;
  const made = isOnDisk
    ? commitDisk(beside, head, checkout)
    : { commit: head, uncompared: new Map<string, string>() };
  if (isRefusal(made)) return made;
  const { commit: from, uncompared } = made;
  const notes = checkoutNotes(checkout);
  const common = { repository, uncompared, release };
  if (start.id === base.id) return statesAsTheyAre({ ...common, notes, old: base, now: from });
  const merged = mergeOf(beside, { into: base, from });
  if (merged === undefined)
    return statesAsTheyAre({ ...common, notes: [...notes, OLD_GIT], old: start, now: from });
  if (isRefusal(merged)) return merged;
  const { tree, conflicts } = merged;
  return statesAsTheyAre({ ...common, notes, conflicts, old: base, now: tree });
}

const OLD_GIT =
  'This git is older than 2.38 and can not show what a merge gives, so what has come to the base since the branch left it is not in this review.';

function checkoutNotes({ leftOut, ignored }: Checkout): string[] {
  const are = (files: readonly string[]): string => (files.length === 1 ? 'is' : 'are');
  const named = (files: readonly string[]): string =>
    files.length === 1 ? (files[0] ?? '') : `${counted(files.length, 'file')} (${files[0]} …)`;
  return [
    ...(leftOut.length === 0
      ? []
      : [
          `${named(leftOut)} ${are(leftOut)} left out of this checkout, which is sparse, and read from git.`,
        ]),
    ...(ignored.length === 0
      ? []
      : [`${named(ignored)} ${are(ignored)} ignored by git, so not part of this review.`]),
  ];
}
