/** A change of several files that is killed at any step: by the next write all of it is there, or nothing. */
import { execFile } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { leftHalfDone } from '../../src/write/note.ts';
import { applyPlan, type Change, type Writer } from '../../src/write/store.ts';
import {
  buildChild,
  HERE,
  litterIn,
  QUICK_FOLDER,
  studioFolder,
} from '../helpers/studio-folder.ts';
import { filesIn } from '../helpers/temp-studio.ts';

const OLD = { 'sales.yaml': 'a: { x: 1 }\n', 'gone/old.yaml': 'b: { x: 1 }\n' };
const NEW = { 'sales.yaml': 'a: { x: 2 }\n', 'firings/2026/f1.yaml': 'f1: { x: 1 }\n' };
const CHANGES: readonly Change[] = [
  { file: 'sales.yaml', before: OLD['sales.yaml'], after: NEW['sales.yaml'] },
  { file: 'firings/2026/f1.yaml', before: undefined, after: NEW['firings/2026/f1.yaml'] },
  { file: 'gone/old.yaml', before: OLD['gone/old.yaml'], after: undefined },
];
const NEXT: Change = { file: 'next.yaml', before: undefined, after: 'n: {}\n' };

let script = '';
const folder = mkdtempSync(join(tmpdir(), 'script-'));
beforeAll(() => {
  script = buildChild('killed-child.ts', folder);
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

/** The step before which a kill leaves the change half done. */
let step = 0;

interface Place {
  readonly studio: string;
  readonly stateFolder: string;
}

function newPlace(): Place {
  const studio = studioFolder(OLD, QUICK_FOLDER);
  chmodSync(join(studio, 'sales.yaml'), 0o600);
  return { studio, stateFolder: join(studioFolder({}, QUICK_FOLDER), 'state') };
}

/** Runs the child, to be killed at a step; whether it got to its end. */
function isDone({ studio, stateFolder }: Place, killAt: number, changes = ''): Promise<boolean> {
  const words = [script, studio, stateFolder, String(killAt), changes];
  return new Promise((resolve, fail) => {
    execFile(process.execPath, words, (error, out) => {
      if (error && error.signal !== 'SIGKILL') fail(new Error(error.message));
      else resolve(out === 'done\n');
    });
  });
}

function killedAt(place: Place, killAt: number): Promise<boolean> {
  return isDone(place, killAt, JSON.stringify(CHANGES));
}

/** The next write, and what it said of an earlier one. */
async function nextWrite({ studio, stateFolder }: Place, change = NEXT): Promise<string[]> {
  const told: string[] = [];
  const writer: Writer = { ...HERE, stateFolder, tell: (line) => told.push(line) };
  const applied = await applyPlan(studio, [change], { ...writer, patience: 5000 });
  expect(applied).toHaveProperty('written');
  return told;
}

function stateOf({ studio }: Place): 'old' | 'new' | 'mixed' {
  const files = Object.entries(filesIn(studio)).filter(([file]) => file !== NEXT.file);
  const text = JSON.stringify(Object.fromEntries(files));
  if (
    text ===
    JSON.stringify({ 'gone/old.yaml': OLD['gone/old.yaml'], 'sales.yaml': OLD['sales.yaml'] })
  )
    return 'old';
  const whole = {
    'firings/2026/f1.yaml': NEW['firings/2026/f1.yaml'],
    'sales.yaml': NEW['sales.yaml'],
  };
  return text === JSON.stringify(whole) ? 'new' : 'mixed';
}

/** No text is ever in a hidden file that more people may read than the file that it is to replace. */
function expectClosedTemps({ studio }: Place): void {
  for (const name of readdirSync(studio).filter((each) => /^\.saggar-\d+-0\.new$/.test(each))) {
    const { mode, size } = statSync(join(studio, name));
    expect([mode & 0o077, size > 0 ? mode & 0o777 : 0o600]).toEqual([0, 0o600]);
  }
}

/** Kills at every step in turn, four at a time; gives the places for each step. */
async function killEverywhere(): Promise<readonly Place[]> {
  const places: Place[] = [];
  for (let first = 1; ; first += 4) {
    const batch = [first, first + 1, first + 2, first + 3].map((at) => ({ at, place: newPlace() }));
    const done = await Promise.all(batch.map(({ at, place }) => killedAt(place, at)));
    places.push(...batch.flatMap(({ place }, index) => (done[index] ? [] : [place])));
    step ||= batch.find(({ place }) => stateOf(place) === 'mixed')?.at ?? 0;
    if (done.includes(true)) return places;
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
}, 60_000);

/** A place with a change that was killed when the first file was in place, and the second was not. */
async function halfDone(): Promise<Place> {
  for (step ||= 20; step < 60; step += 1) {
    const place = newPlace();
    await killedAt(place, step);
    if (stateOf(place) === 'mixed') return place;
  }
  throw new Error('it was never killed half done');
}

/** The one note there. */
function noteIn({ stateFolder }: Place): string {
  const [only] = readdirSync(stateFolder).filter((name) => name.endsWith('.json'));
  return join(stateFolder, only ?? 'there is none');
}

describe('what was left half done', () => {
  test('is undone though that is killed at any step, too', async () => {
    for (let first = 1, done = false; !done; first += 4) {
      const places = await Promise.all([halfDone(), halfDone(), halfDone(), halfDone()]);
      const ended = await Promise.all(places.map((place, index) => isDone(place, first + index)));
      done = ended.includes(true);
      for (const place of places) {
        await nextWrite(place);
        expect(stateOf(place)).toBe('old');
        expect(litterIn(place.studio)).toEqual([]);
      }
    }
  }, 60_000);

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

describe('a note is not believed', () => {
  const spoilt: readonly (readonly [string, (place: Place, note: string) => void])[] = [
    [
      'that is a link',
      (_, note) => {
        copyFileSync(note, `${note}.real`);
        rmSync(note);
        symlinkSync(`${note}.real`, note);
      },
    ],
    [
      'that others may write',
      (_, note) => {
        chmodSync(note, 0o666);
      },
    ],
    [
      'of another form',
      (_, note) => {
        writeFileSync(note, readFileSync(note, 'utf8').replace('"form":1', '"form":2'));
      },
    ],
    [
      'of another studio',
      (_, note) => {
        writeFileSync(note, readFileSync(note, 'utf8').replace('"studio":"/', '"studio":"/x/'));
      },
    ],
    [
      'that names a file outside',
      (_, note) => {
        writeFileSync(note, readFileSync(note, 'utf8').replace('"sales.yaml"', '"../sales.yaml"'));
      },
    ],
    [
      'that leads out by a link',
      ({ studio }, note) => {
        const outside = studioFolder({ 'sales.yaml': NEW['sales.yaml'] });
        symlinkSync(outside, join(studio, 'out'));
        writeFileSync(note, readFileSync(note, 'utf8').replace('"sales.yaml"', '"out/sales.yaml"'));
      },
    ],
  ];

  test.each(spoilt)('%s', async (_, spoil) => {
    const place = await halfDone();
    spoil(place, noteIn(place));
    const before = filesIn(place.studio);
    expect(await leftHalfDone(place.studio, { ...HERE, stateFolder: place.stateFolder })).toEqual(
      [],
    );
    expect(await nextWrite(place)).toEqual([]);
    expect(filesIn(place.studio)).toEqual({ ...before, 'next.yaml': NEXT.after });
  });

  test('that lies in the studio, as a branch could bring one', async () => {
    const { studio, stateFolder } = await halfDone();
    const inside = { studio, stateFolder: join(studio, '.state') };
    cpSync(stateFolder, inside.stateFolder, { recursive: true });
    expect(await nextWrite(inside)).toEqual([]);
    expect(stateOf(inside)).toBe('mixed');
  });
});
