/** What has changed in the closed period since it was closed, as git tells. */
import type { Book, Day } from '../../book.ts';
import { finishBook } from '../../check/draft.ts';
import { takeIn } from '../../check/taken.ts';
import { readCommit } from '../../read/git/commit.ts';
import { conversionsOf } from '../../read/git/conversions.ts';
import { settingHistory } from '../../read/git/history.ts';
import type { OnDisk } from '../../read/git/on-disk.ts';
import { openRepository, type Commit, type Repository } from '../../read/git/repository.ts';
import { SETTINGS_FILE } from '../../read/kinds.ts';
import { openMemory } from '../../read/kept/memory.ts';
import { changesSince } from '../../review/changes.ts';
import { closedChanges, type ClosedChange } from '../../review/closed/closed.ts';
import { storeFor } from '../studio/find-studio.ts';
import { isRefusal, type World } from '../world.ts';

/**
 * The commit in which `closed-through` got the value that it has; undefined where that value is not
 * committed.
 */
function closingIn(repository: Repository, closedThrough: Day): Commit | undefined {
  let closing: string | undefined;
  for (const { commit, value } of settingHistory(repository, 'closed-through')) {
    if (value !== closedThrough) break;
    closing = commit;
  }
  return closing === undefined ? undefined : { name: closing, id: closing };
}

/** What git tells of a closed period. */
interface ClosedPeriodChanges {
  /** The records that are not as they were. */
  readonly changes: readonly ClosedChange[];
  readonly uncompared: OnDisk['uncompared'];
}

const NO_CHANGES: ClosedPeriodChanges = { changes: [], uncompared: new Map() };

/**
 * The records of the closed period that are not as they were when it was closed. Nothing is checked
 * out; none where nothing is closed or git does not know when it was.
 */
export async function closedPeriodChanges(
  folder: string,
  book: Book,
  world: Pick<World, 'environment' | 'memory' | 'stamp'>,
): Promise<ClosedPeriodChanges> {
  const { closedThrough } = book.studio;
  if (closedThrough === undefined) return NO_CHANGES;
  const repository = openRepository(folder, world.environment);
  if (isRefusal(repository)) return NO_CHANGES;
  const closing = closingIn(repository, closedThrough);
  if (!closing) return { ...NO_CHANGES, uncompared: hiddenSettings(repository) };
  const store = storeFor(folder, world);
  const disk = { studioDir: folder, memory: openMemory(folder, store) };
  const reading = await readCommit(repository, closing, { disk });
  if (isRefusal(reading)) return NO_CHANGES;
  const { uncompared } = reading;
  const { draft, unread } = takeIn(reading);
  const then = finishBook(draft);
  const isUnknown = ({ change: { after } }: ClosedChange): boolean =>
    unread.some(({ at: { file } }) => file === after?.file && uncompared.has(file));
  const changes = closedChanges(then, changesSince(then, book));
  return { changes: changes.filter((each) => !isUnknown(each)), uncompared };
}

/** The settings, where git has something else in their place. */
function hiddenSettings(repository: Repository): ClosedPeriodChanges['uncompared'] {
  const { through } = conversionsOf(repository, [SETTINGS_FILE]).get(SETTINGS_FILE) ?? {};
  return new Map(through === undefined ? [] : [[SETTINGS_FILE, through]]);
}

/** One sentence a file, without a full stop. */
export function uncomparedTexts(uncompared: OnDisk['uncompared']): readonly string[] {
  return [...uncompared].map(
    ([file, through]) =>
      `${file} can't be compared with what git has of it: git passes it through ${through}, which is never run here`,
  );
}
