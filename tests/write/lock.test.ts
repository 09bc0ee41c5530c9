/** One writer at a time, and no lock that waits for a person to clear it. */
import { readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { takeLock, type Lock, type Writer } from '../../src/write/lock.ts';
import { HERE, litterIn, studioFolder } from '../helpers/studio-folder.ts';

const MINUTES = 60;

/** A studio with a lock that says the given thing, so many seconds old. */
function lockedStudio(content: string, age = 0): string {
  const studio = studioFolder();
  const lock = join(studio, '.saggar-lock');
  writeFileSync(lock, content);
  const then = Date.now() / 1000 - age;
  utimesSync(lock, then, then);
  return studio;
}

async function take(studio: string, writer: Writer = HERE): Promise<Lock> {
  const lock = await takeLock(studio, writer);
  if ('refused' in lock) throw new Error(lock.refused);
  return lock;
}

/** What this process writes into a lock of its own. */
async function ownLock(): Promise<{ pid: number; host: string; started: string }> {
  const studio = studioFolder();
  const lock = await take(studio);
  const text = readFileSync(join(studio, '.saggar-lock'), 'utf8');
  lock.release();
  return JSON.parse(text) as { pid: number; host: string; started: string };
}

test('a lock says who holds it, and is gone when it is released', async () => {
  expect(await ownLock()).toEqual({
    pid: process.pid,
    host: HERE.host,
    started: expect.any(String) as string,
  });
  const studio = studioFolder();
  (await take(studio)).release();
  expect(readdirSync(studio)).toEqual([]);
});

test('a second writer waits for the first', async () => {
  const studio = studioFolder();
  const first = await take(studio);
  let free = false;
  const second = take(studio, { ...HERE, patience: Infinity }).then((lock) => {
    expect(free).toBe(true);
    lock.release();
  });
  await new Promise((resolve) => setTimeout(resolve, 60));
  free = true;
  first.release();
  await second;
});

test('a second writer gives up when its patience is at an end, and says who is writing', async () => {
  const studio = studioFolder();
  const first = await take(studio);
  const begun = Date.now();
  expect(await takeLock(studio, HERE)).toEqual({
    refused: `another command (process ${process.pid} on ${HERE.host}) is writing to the studio: try again in a moment`,
  });
  expect(Date.now() - begun).toBeGreaterThanOrEqual(190);
  expect(readdirSync(studio)).toContain('.saggar-lock');
  first.release();
});

describe('a lock is cleared at once', () => {
  const DEAD = 4_194_305; // beyond the largest process number of Linux

  test('of a process that is gone', async () => {
    const owner = { ...(await ownLock()), pid: DEAD };
    const studio = lockedStudio(JSON.stringify(owner));
    (await take(studio, { ...HERE, patience: 0 })).release();
    expect(litterIn(studio)).toEqual([]);
  });

  test('of a process that is gone, even if the clock was set back since', async () => {
    const owner = { ...(await ownLock()), pid: DEAD };
    const studio = lockedStudio(JSON.stringify(owner), -MINUTES * 60);
    (await take(studio, { ...HERE, patience: 0 })).release();
  });

  test.runIf(process.platform === 'linux')(
    'of a process whose number another has now',
    async () => {
      const owner = { ...(await ownLock()), started: 'an-earlier-start' };
      const studio = lockedStudio(JSON.stringify(owner));
      (await take(studio, { ...HERE, patience: 0 })).release();
    },
  );

  test('that says nothing, when it is older than the moment between making and filling it', async () => {
    const studio = lockedStudio('', 3);
    (await take(studio, { ...HERE, patience: 0 })).release();
  });

  test('of another machine, or of a process that does not say when it started, after ten minutes', async () => {
    const owner = await ownLock();
    for (const other of [
      { ...owner, host: 'elsewhere' },
      { ...owner, started: '' },
    ]) {
      const studio = lockedStudio(JSON.stringify(other), 11 * MINUTES);
      (await take(studio, { ...HERE, patience: 0 })).release();
    }
  });
});

describe('a lock stays', () => {
  async function expectBusy(studio: string): Promise<void> {
    expect(await takeLock(studio, { ...HERE, patience: 50 })).toHaveProperty('refused');
    expect(readdirSync(studio)).toEqual(['.saggar-lock']);
  }

  test('of a running process, however old', async () => {
    await expectBusy(lockedStudio(JSON.stringify(await ownLock()), 60 * MINUTES));
  });

  test('of another machine, or of a process that does not say when it started, for ten minutes', async () => {
    const owner = await ownLock();
    await expectBusy(lockedStudio(JSON.stringify({ ...owner, host: 'elsewhere' }), 9 * MINUTES));
    await expectBusy(lockedStudio(JSON.stringify({ ...owner, started: '' }), 9 * MINUTES));
  });

  test('that says nothing yet, for a moment', async () => {
    await expectBusy(lockedStudio('', 0));
  });
});

test('of those that clear a lock, one that sees the claim of another stands back', async () => {
  const owner = await ownLock();
  const studio = lockedStudio(JSON.stringify({ ...owner, pid: 4_194_305 }));
  const claim = join(studio, '.saggar-lock-other');
  writeFileSync(claim, JSON.stringify(owner));
  expect(await takeLock(studio, { ...HERE, patience: 50 })).toHaveProperty('refused');
  writeFileSync(claim, JSON.stringify({ ...owner, pid: 4_194_305 }));
  (await take(studio, { ...HERE, patience: 0 })).release();
  expect(litterIn(studio)).toEqual([]);
});

test('a lock that somebody else made meanwhile is not released', async () => {
  const studio = studioFolder();
  const lock = await take(studio);
  const file = join(studio, '.saggar-lock');
  writeFileSync(file, JSON.stringify({ pid: 1, host: 'elsewhere', started: '' }));
  lock.release();
  expect(readdirSync(studio)).toContain('.saggar-lock');
});
