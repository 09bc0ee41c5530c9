/** A disk that knows no short times: files look as if they had been changed at a full tick of its clock. */
import fs, { type Stats } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { onTestFinished } from 'vitest';

/** The disk that a folder is made to be on. */
export interface CoarseDisk {
  /** Writes a file in place: same inode, and a time that is a multiple of the tick. */
  readonly write: (path: string, text: string) => void;
}

/**
 * Lets files of a folder that are written by `write` have the times of a disk with such a tick, by a
 * clock that the test moves on. Everything else is the real disk.
 * @param tick in milliseconds: 2,000 on disks of cameras and sticks, 1,000 on many network shares
 */
export function coarseDisk(tick: number, clock: () => number): CoarseDisk {
  const times = new Map<number, number>();
  const { lstatSync, fstatSync } = fs;
  const aged = <T>(stats: T): T => {
    const time = stats === undefined ? undefined : times.get((stats as Stats).ino);
    return time === undefined ? stats : (Object.assign(stats as object, timesAt(time)) as T);
  };
  const coarseLstat = ((...given: Parameters<typeof lstatSync>) =>
    aged(lstatSync(...given))) as typeof lstatSync;
  const coarseFstat = ((handle: number) => aged(fstatSync(handle))) as typeof fstatSync;
  Object.assign(fs, { lstatSync: coarseLstat, fstatSync: coarseFstat });
  syncBuiltinESMExports();
  onTestFinished(() => {
    Object.assign(fs, { lstatSync, fstatSync });
    syncBuiltinESMExports();
  });
  return {
    write: (path, text) => {
      fs.writeFileSync(path, text);
      times.set(lstatSync(path).ino, Math.floor(clock() / tick) * tick);
    },
  };
}

function timesAt(time: number): Partial<Stats> {
  return { mtimeMs: time, ctimeMs: time, mtime: new Date(time), ctime: new Date(time) };
}
