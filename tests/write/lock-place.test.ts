/** Whatever lies in the lock's place is looked at and named, and never followed, waited for or written to. */
import { execFileSync } from 'node:child_process';
import {
  lstatSync,
  mkdirSync,
  readdirSync,
  statSync,
  symlinkSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { userInfo } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { applyPlan } from '../../src/write/store.ts';
import { runSaggar } from '../helpers/program.ts';
import { SMALL_STUDIO } from '../helpers/small-studio.ts';
import { HERE, studioFolder } from '../helpers/studio-folder.ts';
import { filesIn } from '../helpers/temp-studio.ts';

const isRoot = process.getuid?.() === 0;
if (!isRoot) console.warn('SKIPPED: a device in the place of the lock, for this user is not root');

const CHANGE = { file: 'sales.yaml', before: undefined, after: 'a: {}\n' };

type Place = readonly [what: string, put: (lock: string) => void, is: string];

const PLACES: readonly Place[] = [
  [
    'a link that leads nowhere',
    (lock) => {
      symlinkSync('nothing', lock);
    },
    'a link',
  ],
  [
    'a link to an endless file',
    (lock) => {
      symlinkSync('/dev/zero', lock);
    },
    'a link',
  ],
  [
    'a link to itself',
    (lock) => {
      symlinkSync('.saggar-lock', lock);
    },
    'a link',
  ],
  [
    'a link to a file outside',
    (lock) => {
      symlinkSync('/etc/hostname', lock);
    },
    'a link',
  ],
  ['a pipe', (lock) => execFileSync('mkfifo', [lock]), 'a pipe'],
  ['a folder', (lock) => mkdirSync(join(lock, 'x'), { recursive: true }), 'a folder'],
  ['a huge file', hugeFile, 'a file'],
  [
    'a file of other words',
    (lock) => {
      writeFileSync(lock, 'mine\n');
    },
    'a file',
  ],
  [
    'a file of bytes',
    (lock) => {
      writeFileSync(lock, Buffer.from([0xff, 0, 0x1b]));
    },
    'a file',
  ],
  [
    'an owner of a wrong form',
    (lock) => {
      writeFileSync(lock, '{"pid":-1,"host":"","started":""}');
    },
    'a file',
  ],
  ...(isRoot ? [['a device', device, 'a device'] as const] : []),
];

function hugeFile(lock: string): void {
  writeFileSync(lock, '');
  truncateSync(lock, 1024 ** 3);
}

function device(lock: string): void {
  execFileSync('mknod', [lock, 'c', '1', '5']);
}

describe('in the place of the lock', () => {
  test.each(PLACES)('%s is named in one line, without waiting for it', async (_, put, is) => {
    const studio = studioFolder();
    const lock = join(studio, '.saggar-lock');
    put(lock);
    const { ino } = lstatSync(lock);
    const since = HERE.timeOf(Math.min(lstatSync(lock).mtimeMs, lstatSync(lock).ctimeMs));
    expect(await applyPlan(studio, [CHANGE], { ...HERE, patience: Infinity })).toEqual({
      refused: `${lock} is in the way: it is ${is} and not a lock of this program (of ${userInfo().username}, since ${since}); it may be deleted`,
    });
    expect(lstatSync(lock).ino).toBe(ino);
    expect(readdirSync(studio)).toEqual(['.saggar-lock']);
  });

  test('all of them are named by a command, too', async () => {
    const ran = PLACES.slice(0, 6).map(async ([, put]) => {
      const studio = studioFolder(SMALL_STUDIO);
      put(join(studio, '.saggar-lock'));
      const words = ['add', 'sales', '--channel', 'shop', '--line', '1 mug at 40'];
      const { status, err } = await runSaggar([...words, '--as-of', '2026-05-01'], {
        folder: studio,
      });
      expect(filesIn(studio)).toEqual(SMALL_STUDIO);
      expect([status, err.split('\n').at(-2)]).toEqual([
        1,
        expect.stringMatching(
          /^saggar: nothing was written: .*\.saggar-lock is in the way: .*; it may be deleted$/,
        ),
      ]);
    });
    await Promise.all(ran);
  });

  test('a lock of another machine is honoured until a time that is said', async () => {
    const studio = studioFolder();
    const lock = join(studio, '.saggar-lock');
    writeFileSync(lock, JSON.stringify({ pid: 7, host: 'elsewhere', started: '' }));
    const made = Date.now() - 60_000;
    utimesSync(lock, made / 1000, made / 1000);
    const { mtimeMs } = statSync(lock);
    expect(await applyPlan(studio, [CHANGE], HERE)).toEqual({
      refused: `another command (process 7 on elsewhere) has been writing to the studio since ${HERE.timeOf(mtimeMs)}: ${lock} is honoured until ${HERE.timeOf(mtimeMs + 600_000)}; if no one is writing any more, delete it to go on at once`,
    });
  });

  test('a lock that says that it is of the future is honoured no longer than one of today', async () => {
    const studio = studioFolder();
    const lock = join(studio, '.saggar-lock');
    writeFileSync(lock, JSON.stringify({ pid: 7, host: 'elsewhere', started: '' }));
    utimesSync(lock, 4_000_000_000, 4_000_000_000);
    const until = HERE.timeOf(statSync(lock).ctimeMs + 600_000);
    expect(await applyPlan(studio, [CHANGE], HERE)).toEqual({
      refused: expect.stringContaining(`is honoured until ${until}; `) as string,
    });
  });
});

describe('in the place of a claim to clear the lock of a dead process', () => {
  const DEAD = JSON.stringify({ pid: 4_194_305, host: HERE.host, started: 'x' });

  test('nothing but a file is taken for one', async () => {
    const others = PLACES.filter(([, , is]) => is !== 'a file');
    await Promise.all(others.map(([, put]) => isLeftAlone(put)));
  });

  async function isLeftAlone(put: Place[1]): Promise<void> {
    const studio = studioFolder({ '.saggar-lock': DEAD });
    put(join(studio, '.saggar-lock-x'));
    await new Promise((resolve) => setTimeout(resolve, 0));
    const later = { ...HERE, patience: Infinity };
    expect(await applyPlan(studio, [CHANGE], later)).toHaveProperty('written');
    expect(readdirSync(studio).sort()).toEqual(['.saggar-lock-x', 'sales.yaml']);
  }

  test('the claim of a process that was killed with it is cleared by the next write', async () => {
    const studio = studioFolder({ '.saggar-lock-x': DEAD });
    expect(await applyPlan(studio, [CHANGE], HERE)).toHaveProperty('written');
    expect(readdirSync(studio)).toEqual(['sales.yaml']);
  });
});
