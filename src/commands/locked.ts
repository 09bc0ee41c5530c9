/** Holds a studio's lock while a command reads, judges and writes, so that of two at once each judges in turn. */
import { stillAsNow } from '../read/find.ts';
import { printedLayout } from '../render/printable.ts';
import { lockForWriting, type Lock } from '../write/store.ts';
import { findAsked } from './find-studio.ts';
import { refuse } from './show.ts';
import { isRefusal, type Asked, type Refusal, type World } from './world.ts';
import { holding, notWritten, writerIn } from './writer.ts';

/** The work of a command that asks nothing. */
export interface Work {
  readonly run: (world: World) => Promise<number>;
  /** What was typed, to be given back where the studio can't be locked. */
  readonly typed?: () => string;
}

/** Does all of the work under the lock of the studio that is asked for; a dry run takes none. */
export async function whileLocked(asked: Asked, world: World, work: Work): Promise<number> {
  if (asked.options['dryRun'] === true) return work.run(world);
  const found = findAsked(asked, world);
  if (isRefusal(found)) return refuse(world, found);
  const lock = await lockForWriting(found.folder, writerIn(world));
  if (isRefusal(lock)) {
    if (work.typed) world.complain(printedLayout(work.typed()));
    return notWritten(world, lock.refused);
  }
  try {
    return await work.run(holding(world, () => lock));
  } finally {
    lock.release();
  }
}

/** A lock for a studio that somebody is shown a change of: it is taken once they have agreed to that. */
export interface LateLock {
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
