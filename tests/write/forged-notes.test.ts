/** Notes that nobody of ours wrote, from a generator: nothing that is not ours is touched, and nothing hangs. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  lstatSync,
  mkdirSync,
  readdirSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { leftHalfDone } from '../../src/write/note.ts';
import { applyPlan } from '../../src/write/store.ts';
import { holds } from '../helpers/law.ts';
import { HERE, QUICK_FOLDER, studioFolder } from '../helpers/studio-folder.ts';
import { filesIn } from '../helpers/temp-studio.ts';

const MINE = { 'sales.yaml': 'a: { x: 1 }\n', 'spent/2026.yaml': 'b: { x: 1 }\n' };
const NEXT = { file: 'next.yaml', before: undefined, after: 'n: {}\n' };

function digest(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

const paths = fc.constantFrom(
  '../outside/sales.yaml',
  '/etc/hostname',
  'out/sales.yaml',
  'link.yaml',
  'spent/../../outside/sales.yaml',
  './sales.yaml',
  'spent//2026.yaml',
  'spent',
  '',
  '.git/config',
  'spent\\..\\..\\x',
  'pipe',
  'nothing/at/all.yaml',
  'a\0b',
);
// Texts that stand in files outside and inside: a digest alone is no reason to touch one.
const digests = fc.constantFrom(
  null,
  null,
  digest('outside\n'),
  digest('outside\n'),
  digest('x'),
  'x',
);
const steps = fc.record({
  file: fc.oneof({ weight: 6, arbitrary: paths }, fc.string()),
  before: digests,
  after: digests,
});
const note = fc.record({
  form: fc.constantFrom(1, 1, 1, 2),
  folders: fc.array(paths, { maxLength: 2 }),
  steps: fc.array(steps, { minLength: 2, maxLength: 3 }),
  pid: fc.constantFrom(1, 1, -1, '../1'),
});

// The right form in all, with paths that lead out by links or to what is no file.
const wayOut = fc.constantFrom(
  'out/sales.yaml',
  'out/new.yaml',
  'link.yaml',
  'pipe',
  'spent',
  'new/x.yaml',
);
const texts = fc.constantFrom(null, digest('outside\n'), digest('never there'));
const step = fc
  .record({ file: wayOut, before: texts, after: texts })
  .filter(({ before, after }) => before !== after);
const likely = fc.record({
  form: fc.constant(1),
  folders: fc.constantFrom([], ['out']),
  steps: fc.uniqueArray(step, { minLength: 2, maxLength: 3, selector: ({ file }) => file }),
  pid: fc.constant(1),
});

type Put = (place: string, studio: string) => void;

const forged: fc.Arbitrary<Put> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.oneof(note, likely).map(({ pid, ...rest }): Put => (place, studio) => {
      const owner = { pid, host: hostname(), started: '' };
      writeFileSync(place, JSON.stringify({ ...rest, studio, owner }), { mode: 0o600 });
    }),
  },
  {
    weight: 3,
    arbitrary: fc.uint8Array({ maxLength: 300 }).map((bytes): Put => (place) => {
      writeFileSync(place, bytes, { mode: 0o600 });
    }),
  },
  {
    weight: 2,
    arbitrary: fc.json().map((text): Put => (place) => {
      writeFileSync(place, text, { mode: 0o600 });
    }),
  },
  fc.constantFrom<Put>(
    (place) => {
      symlinkSync('/dev/zero', place);
    },
    (place) => {
      symlinkSync('nothing', place);
    },
    (place) => {
      execFileSync('mkfifo', [place]);
    },
    (place) => {
      mkdirSync(join(place, 'x'), { recursive: true });
    },
    (place) => {
      writeFileSync(place, '', { mode: 0o600 });
      truncateSync(place, 1024 ** 3);
    },
  ),
);

interface Ground {
  readonly studio: string;
  readonly outside: string;
  readonly stateFolder: string;
}

function newGround(): Ground {
  const base = studioFolder(
    {
      'outside/sales.yaml': 'outside\n',
      'outside/.saggar-1-0.old': 'outside\n',
      'state/.keep': '',
    },
    QUICK_FOLDER,
  );
  const [studio, outside, stateFolder] = ['studio', 'outside', 'state'].map((name) =>
    join(base, name),
  );
  for (const [file, text] of Object.entries(MINE)) {
    mkdirSync(join(studio!, file, '..'), { recursive: true });
    writeFileSync(join(studio!, file), text);
  }
  symlinkSync(outside!, join(studio!, 'out'));
  symlinkSync(join(outside!, 'sales.yaml'), join(studio!, 'link.yaml'));
  execFileSync('mkfifo', [join(studio!, 'pipe')]);
  return { studio: studio!, outside: outside!, stateFolder: stateFolder! };
}

/** Where the program would note it. */
function placeIn({ studio, stateFolder }: Ground): string {
  const name = encodeURIComponent(studio);
  return join(stateFolder, `half-done-${name.length}-${name.slice(-180)}.json`);
}

test('a forged note changes nothing, in the studio or outside', async () => {
  await holds(
    fc.asyncProperty(forged, async (put) => {
      const ground = newGround();
      put(placeIn(ground), ground.studio);
      const writer = { ...HERE, stateFolder: ground.stateFolder };
      await leftHalfDone(ground.studio, writer);
      expect(await applyPlan(ground.studio, [NEXT], writer)).toEqual({ written: ['next.yaml'] });
      expect(filesIn(ground.studio)).toMatchObject({ ...MINE, 'next.yaml': NEXT.after });
      expect(readdirSync(ground.outside).sort()).toEqual(['.saggar-1-0.old', 'sales.yaml']);
      expect(lstatSync(join(ground.outside, 'sales.yaml')).size).toBe('outside\n'.length);
      expect(readdirSync(ground.studio).sort()).toEqual([
        'link.yaml',
        'next.yaml',
        'out',
        'pipe',
        'sales.yaml',
        'spent',
      ]);
    }),
    50,
    { long: 1000 },
  );
});
