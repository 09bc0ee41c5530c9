/** A change of several files that is killed at any step: by the next write all of it is there, or nothing. */
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { leftHalfDone } from '../../src/write/note.ts';
import {
  CHANGES,
  NEXT,
  OLD,
  halfDone,
  isDone,
  killEverywhere,
  nextWrite,
  noteIn,
  stateOf,
  type Place,
} from '../helpers/half-done.ts';
import { runSaggar } from '../helpers/program.ts';
import { SMALL_STUDIO } from '../helpers/small-studio.ts';
import { HERE, litterIn } from '../helpers/studio-folder.ts';
import { filesIn } from '../helpers/temp-studio.ts';
import { IS_LONG } from '../helpers/tier.ts';

/** No text is ever in a hidden file that more people may read than the file that it is to replace. */
function expectClosedTemps({ studio }: Place): void {
  for (const name of readdirSync(studio).filter((each) => /^\.saggar-\d+-0\.new$/.test(each))) {
    const { mode, size } = statSync(join(studio, name));
    expect([mode & 0o077, size > 0 ? mode & 0o777 : 0o600]).toEqual([0, 0o600]);
  }
}

test('killed before each step, all three files are there after the next write, or none', async () => {
  const places = await killEverywhere();
  const found = new Set<string>();
  for (const place of places) {
    expectClosedTemps(place);
    const before = stateOf(place);
    const writer = { ...HERE, stateFolder: place.stateFolder };
    const files = await leftHalfDone(place.studio, writer);
    if (before === 'mixed') expect(files).toEqual(CHANGES.map(({ file }) => file));
    if (before === 'new') expect(files).toEqual([]);
    const told = await nextWrite(place);
    const after = stateOf(place);
    found.add(`${before} ${after} ${told[0]?.replace(/:.*/, '') ?? ''}`);
    expect(readFileSync(join(place.studio, 'next.yaml'), 'utf8')).toBe(NEXT.after);
    // Killed before anything was noted, its files wait for a write to their folder.
    const isNoted = told.length > 0 || after === 'new';
    expect(litterIn(place.studio).filter((path) => isNoted || !path.includes('/'))).toEqual([]);
    expect(statSync(join(place.studio, 'sales.yaml')).mode & 0o777).toBe(0o600);
    if (after === 'old' && before === 'mixed')
      expect(existsSync(join(place.studio, 'firings'))).toBe(false);
    if (existsSync(place.stateFolder))
      expect(readdirSync(place.stateFolder).filter((name) => name.endsWith('.json'))).toEqual([]);
  }
  expect([...found].sort()).toEqual([
    'mixed old a change that was cut off was undone',
    'new new ',
    'new new a change that was cut off is whole',
    'old old ',
    'old old a change that was cut off was undone',
  ]);
});

/** Of the steps at which an undoing may be killed, one in so many. */
const EACH = IS_LONG ? 1 : 3;

describe('what was left half done', () => {
  test('is undone though that is killed at any step, too', async () => {
    for (let first = 1, done = false; !done; first += 4 * EACH) {
      const places = await Promise.all([halfDone(), halfDone(), halfDone(), halfDone()]);
      const ended = await Promise.all(
        places.map((place, index) => isDone(place, first + index * EACH)),
      );
      done = ended.includes(true);
      for (const place of places) {
        await nextWrite(place);
        expect(stateOf(place)).toBe('old');
        expect(litterIn(place.studio)).toEqual([]);
      }
    }
  });

  test('is undone but for what a person has changed since, which is named', async () => {
    const place = await halfDone();
    writeFileSync(join(place.studio, 'sales.yaml'), 'mine: {}\n');
    expect(await nextWrite(place)).toEqual([
      'a change that was cut off was undone: firings/2026/f1.yaml, gone/old.yaml; changed by somebody since and left alone: sales.yaml',
    ]);
    expect(readFileSync(join(place.studio, 'sales.yaml'), 'utf8')).toBe('mine: {}\n');
    expect(existsSync(join(place.studio, 'firings'))).toBe(false);
    expect(litterIn(place.studio)).toEqual([]);
  });

  test('is finished where only that can be done', async () => {
    const place = await halfDone();
    for (const name of readdirSync(place.studio).filter((each) => each.endsWith('.old')))
      rmSync(join(place.studio, name));
    expect(await nextWrite(place)).toEqual([
      expect.stringMatching(/^a change that was cut off was finished: sales\.yaml, /),
    ]);
    expect(stateOf(place)).toBe('new');
  });

  test('is left, and said, where neither can be done', async () => {
    const place = await halfDone();
    for (const name of readdirSync(place.studio, { recursive: true, encoding: 'utf8' }))
      if (/\.(?:old|new)$/.test(name)) rmSync(join(place.studio, name));
    const before = filesIn(place.studio);
    expect(await nextWrite(place)).toEqual([
      "a change that was cut off can't be undone, for its copies are gone: look at sales.yaml, firings/2026/f1.yaml, gone/old.yaml",
    ]);
    expect(filesIn(place.studio)).toEqual({ ...before, 'next.yaml': NEXT.after });
    expect(existsSync(noteIn(place))).toBe(false);
  });

  test('keeps its copies from a write that may not undo it', async () => {
    const place = await halfDone();
    chmodSync(place.stateFolder, 0o700);
    const copies = litterIn(place.studio);
    // Nothing can take the place of a folder with something in it.
    rmSync(join(place.studio, 'sales.yaml'));
    mkdirSync(join(place.studio, 'sales.yaml/x'), { recursive: true });
    await nextWrite(place);
    expect(copies.length).toBeGreaterThan(0);
    expect(lstatSync(join(place.studio, 'sales.yaml')).isDirectory()).toBe(true);
  });
});

test('a check and a report say it in one line, and the next command that writes undoes it', async () => {
  const place = await halfDone();
  for (const [file, text] of Object.entries(SMALL_STUDIO)) {
    mkdirSync(dirname(join(place.studio, file)), { recursive: true });
    writeFileSync(join(place.studio, file), text);
  }
  const env = { XDG_STATE_HOME: dirname(place.stateFolder) };
  const own = join(dirname(place.stateFolder), 'saggar');
  renameSync(place.stateFolder, own);
  const ran = (words: readonly string[]): ReturnType<typeof runSaggar> =>
    runSaggar([...words, '--as-of', '2026-05-01'], { folder: place.studio, env });
  const said =
    'saggar: a change was cut off half done (sales.yaml, firings/2026/f1.yaml, gone/old.yaml); the next command that writes will undo it\n';
  for (const words of [['check'], ['materials'], ['materials']]) {
    const [with_, without] = [
      await ran(words),
      await runSaggar([...words, '--as-of', '2026-05-01'], { folder: place.studio }),
    ];
    expect(with_.err.replace(said, '')).toBe(without.err);
    expect(with_.err).toContain(said);
    expect([with_.status, with_.out]).toEqual([without.status, without.out]);
  }
  await ran(['amend', 's260401ab', 'note=seen']);
  expect(readFileSync(join(place.studio, 'sales.yaml'), 'utf8')).toBe(OLD['sales.yaml']);
  expect((await ran(['check'])).err).not.toContain('cut off');
});
