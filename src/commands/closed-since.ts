/** What has changed in the closed period since it was closed, as git tells. */
import type { Book, Day } from '../book.ts';
import { takeIn } from '../check/check.ts';
import { finishBook } from '../check/draft.ts';
import { readCommit } from '../read/git/commit.ts';
import { settingHistory } from '../read/git/history.ts';
import { openRepository, type Commit, type Repository } from '../read/git/repository.ts';
import { changesSince } from '../review/changes.ts';
import { closedChanges, type ClosedChange } from '../review/closed.ts';
import { storeFor } from './remembered.ts';
import { isRefusal, type World } from './world.ts';

/** The commit in which the closed period got its present end. */
export interface Closing {
  readonly repository: Repository;
  readonly commit: Commit;
}

/**
 * The commit in which `closed-through` got the value that it has; undefined outside git, and where that
 * value is not committed.
 */
export function closingOf(
  folder: string,
  closedThrough: Day,
  { environment }: Pick<World, 'environment'>,
): Closing | undefined {
  const repository = openRepository(folder, environment);
  if (isRefusal(repository)) return undefined;
  let closing: string | undefined;
  for (const { commit, value } of settingHistory(repository, 'closed-through')) {
    if (value !== closedThrough) break;
    closing = commit;
  }
  if (closing === undefined) return undefined;
  return { repository, commit: { name: closing, id: closing } };
}

/**
 * The records of the closed period that are not as they were when it was closed. Nothing is checked
 * out; none where nothing is closed or git does not know when it was.
 */
export async function closedPeriodChanges(
  folder: string,
  book: Book,
  world: Pick<World, 'environment' | 'memory' | 'stamp'>,
): Promise<readonly ClosedChange[]> {
  const { closedThrough } = book.studio;
  const closing = closedThrough && closingOf(folder, closedThrough, world);
  if (!closing) return [];
  const disk = { studioDir: folder, store: storeFor(folder, world) };
  const reading = await readCommit(closing.repository, closing.commit, { disk });
  if (!reading) return [];
  const then = finishBook(takeIn(reading).draft);
  return closedChanges(then, changesSince(then, book));
}
