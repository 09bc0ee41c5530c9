/** Holds a studio's lock while a command reads, judges and writes, so that of two at once each judges in turn. */
import { stillAsNow } from '../../read/find.ts';
import { printedLayout } from '../../render/printable.ts';
import { lockForWriting, type Lock } from '../../write/store.ts';
import type { Scene } from './change.ts';
import { findAsked } from '../studio/find-studio.ts';
import { openFiles } from '../studio/open.ts';
import type { ChangeOptions, FindingOptions } from '../options.ts';
import { refuse } from '../reports/show.ts';
import { isRefusal, type Refusal, type World } from '../world.ts';
import { holding, notWritten, writerIn } from './writer.ts';

type Unopened<O extends object> = Omit<Scene<O>, 'opened'>;
type Work<O extends object> = (scene: Scene<O>) => Promise<number>;

/**
 * Opens the studio that is asked for, and does all of the work of a command that asks nothing under its
 * lock; a dry run takes none. Where it can't be locked, what was `typed` is given back.
 */
export async function whileLocked<O extends ChangeOptions>(
  { asked, world }: Unopened<O>,
  work: Work<O>,
  typed?: () => string,
): Promise<number> {
  if (asked.options.dryRun) return inStudio({ asked, world }, work);
  const found = findAsked(asked, world);
  if (isRefusal(found)) return refuse(world, found);
  const lock = await lockForWriting(found.folder, writerIn(world));
  if (isRefusal(lock)) {
    if (typed) world.complain(printedLayout(typed()));
    return notWritten(world, lock.refused);
  }
  try {
    return await inStudio({ asked, world: holding(world, () => lock) }, work);
  } finally {
    lock.release();
  }
}

/** Opens the studio that is asked for, and does the work in it. */
export async function inStudio<O extends FindingOptions>(
  { asked, world }: Unopened<O>,
  work: Work<O>,
): Promise<number> {
  const opened = await openFiles(asked, world);
  return isRefusal(opened) ? refuse(world, opened) : work({ asked, world, opened });
}

/** A lock for a studio that somebody is shown a change of: it is taken once they have agreed to that. */
interface LateLock {
  /** Where whatever is written is written under the lock. */
  readonly world: World;
  /** Takes it; false where the studio is not in the state any more that it was in at first. */
  readonly take: () => Promise<boolean>;
  readonly release: () => void;
}

/** Makes it, before the studio is read. Where it can't be taken, every write is told why. */
export function lateLock(folder: string, world: World): LateLock {
  const isStill = stillAsNow(folder, world.memory?.clock() ?? 0);
  let lock: Lock | Refusal | undefined;
  return {
    world: holding(world, () => lock),
    take: async () => {
      lock = await lockForWriting(folder, writerIn(world));
      return isRefusal(lock) || isStill();
    },
    release: () => {
      if (lock && 'release' in lock) lock.release();
    },
  };
}
