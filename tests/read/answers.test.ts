import {
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keptOfStudio, type KeptOfStudio } from '../../src/read/answers.ts';
import { folderOf, memoryForTests, namesIn, storeIn } from '../helpers/memory.ts';

let studioDir = '';

/** Past the disk's tick, so that what was written before is settled. */
function settle(): Promise<void> {
  return new Promise((done) => setTimeout(done, 30));
}

function open(stamp = 'one'): KeptOfStudio {
  return keptOfStudio(studioDir, storeIn(studioDir, stamp));
}

function ask(words = 'materials', stamp = 'one'): unknown {
  return open(stamp).recall(words);
}

async function keep(answer: unknown, words = 'materials'): Promise<void> {
  await settle();
  const kept = open();
  expect(kept.recall(words)).toBeUndefined();
  kept.keep(words, answer);
}

beforeEach(() => {
  studioDir = mkdtempSync(join(tmpdir(), 'saggar-answers-'));
  writeFileSync(join(studioDir, 'studio.yaml'), 'name: A\n');
  mkdirSync(join(studioDir, 'sales'));
  writeFileSync(join(studioDir, 'sales/a.yaml'), 's1: {}\n');
});

afterEach(() => {
  rmSync(studioDir, { recursive: true });
});

function answerFile(): string {
  const folder = folderOf(storeIn(studioDir, 'one'));
  const name = readdirSync(folder).find((file) => file.startsWith('answer-')) ?? '';
  return join(folder, name);
}

describe('answers', () => {
  it('are given again while nothing changes', async () => {
    await keep({ rows: [1, 'a', null] });
    expect(ask()).toEqual({ rows: [1, 'a', null] });
  });

  it('are to one question and one program only', async () => {
    await keep('yes');
    expect(ask('firings')).toBeUndefined();
    expect(ask('materials', 'two')).toBeUndefined();
    expect(ask()).toBe('yes');
  });

  it('are forgotten when a file has other content of the same size and the old time', async () => {
    await keep('yes');
    const file = join(studioDir, 'sales/a.yaml');
    const { atime, mtime } = statSync(file);
    await settle();
    writeFileSync(file, 's2: {}\n');
    utimesSync(file, atime, mtime);
    expect(ask()).toBeUndefined();
  });

  it.each([
    [
      'a new file',
      () => {
        writeFileSync(join(studioDir, 'sales/b.yaml'), '');
      },
    ],
    [
      'a stray file',
      () => {
        writeFileSync(join(studioDir, 'salse.yaml'), '');
      },
    ],
    [
      'a file less',
      () => {
        rmSync(join(studioDir, 'sales/a.yaml'));
      },
    ],
  ])('are forgotten with %s', async (_, change) => {
    await keep('yes');
    change();
    expect(ask()).toBeUndefined();
  });

  it('are not kept while a file is as new as the clock of the disk', () => {
    const soon = new Date(Date.now() + 60_000);
    utimesSync(join(studioDir, 'sales/a.yaml'), soon, soon);
    open().keep('materials', 'too soon');
    expect(ask()).toBeUndefined();
  });

  it('are passed over when they are damaged', async () => {
    await keep('yes');
    const file = answerFile();
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace('"yes"', '"yet"'));
    expect(ask()).toBeUndefined();
    writeFileSync(file, text.slice(0, -2));
    expect(ask()).toBeUndefined();
  });

  it('of an older state make room for those of a new one', async () => {
    await keep('old');
    writeFileSync(join(studioDir, 'sales/b.yaml'), '');
    await keep('new');
    await keep('more', 'firings');
    expect(namesIn(storeIn(studioDir, 'one'))).toHaveLength(3);
    writeFileSync(join(studioDir, 'sales/c.yaml'), '');
    await keep('newest');
    expect(namesIn(storeIn(studioDir, 'one'))).toHaveLength(2);
    expect(ask()).toBe('newest');
  });
});

describe('what was found of a studio', () => {
  it('is found again by what was asked, while nothing changes', async () => {
    await settle();
    const kept = open();
    kept.keep('findings', []);
    kept.keep('figures', [1]);
    expect(open().recall('findings')).toEqual([]);
    expect(open().recall('figures')).toEqual([1]);
    expect(open('two').recall('figures')).toBeUndefined();
    writeFileSync(join(studioDir, 'sales/a.yaml'), 's2: {}\n');
    expect(open().recall('figures')).toBeUndefined();
  });

  it('is of the state before a change that comes while it is found', async () => {
    await settle();
    const kept = open();
    writeFileSync(join(studioDir, 'sales/a.yaml'), 's2: {}\n');
    kept.keep('findings', []);
    expect(open().recall('findings')).toBeUndefined();
  });

  it.each([
    ['just now', 2990, undefined],
    ['a while ago', 3100, []],
  ])('is kept only of files that were not changed %s', (_, ago, expected) => {
    const now = statSync(join(studioDir, 'sales/a.yaml')).mtimeMs + ago;
    const store = storeIn(studioDir, 'one', { ...memoryForTests(), clock: () => now });
    keptOfStudio(studioDir, store).keep('findings', []);
    expect(open().recall('findings')).toEqual(expected);
  });

  it('is not kept where a file has a time to come', async () => {
    await settle();
    const file = join(studioDir, 'sales/a.yaml');
    const soon = new Date(Date.now() + 60_000);
    utimesSync(file, soon, soon);
    const kept = open();
    kept.keep('findings', []);
    expect(open().recall('findings')).toBeUndefined();
  });

  it("changes with the studio's own tax sheet, whatever it is called", async () => {
    writeFileSync(join(studioDir, 'studio.yaml'), 'name: A\ntax-sheet: own/sheet.json\n');
    mkdirSync(join(studioDir, 'own'));
    writeFileSync(join(studioDir, 'own/sheet.json'), '{}');
    await settle();
    open().keep('findings', []);
    expect(open().recall('findings')).toEqual([]);
    writeFileSync(join(studioDir, 'own/sheet.json'), '{ }');
    expect(open().recall('findings')).toBeUndefined();
  });

  it('holds on for the state that the program itself brings about', async () => {
    await settle();
    const before = open();
    const file = join(studioDir, 'sales/a.yaml');
    writeFileSync(file, 's2: {}\n');
    await settle();
    before.after(new Map([['sales/a.yaml', 's2: {}\n']]))?.keep('findings', ['after']);
    expect(open().recall('findings')).toEqual(['after']);
    rmSync(file);
    await settle();
    open()
      .after(new Map([['sales/a.yaml', undefined]]))
      ?.keep('findings', []);
    expect(open().recall('findings')).toEqual([]);
  });

  it.each<[string, () => void]>([
    [
      'somebody else changed another file',
      () => {
        writeFileSync(join(studioDir, 'studio.yaml'), 'name: B\n');
      },
    ],
    [
      'somebody else added a file',
      () => {
        writeFileSync(join(studioDir, 'sales/b.yaml'), '');
      },
    ],
    [
      'the file has another text by now',
      () => {
        writeFileSync(join(studioDir, 'sales/a.yaml'), 's3: {}\n');
      },
    ],
  ])('does not hold where %s', async (_, meanwhile) => {
    await settle();
    const before = open();
    writeFileSync(join(studioDir, 'sales/a.yaml'), 's2: {}\n');
    meanwhile();
    await settle();
    before.after(new Map([['sales/a.yaml', 's2: {}\n']]))?.keep('findings', []);
    expect(open().recall('findings')).toBeUndefined();
  });

  it('holds at once for what the program itself has written, though that is not settled', async () => {
    // By the true clock, so the other files need their three seconds.
    await new Promise((done) => setTimeout(done, 3100));
    const openNow = (): KeptOfStudio =>
      keptOfStudio(studioDir, storeIn(studioDir, 'one', { ...memoryForTests(), clock: Date.now }));
    for (const text of ['s2: {}\n', 's3: {}\n', 's4: {}\n']) {
      const before = openNow();
      writeFileSync(join(studioDir, 'sales/a.yaml'), text);
      before.after(new Map([['sales/a.yaml', text]]))?.keep('findings', [text]);
      expect(openNow().recall('findings')).toEqual([text]);
    }
    writeFileSync(join(studioDir, 'sales/a.yaml'), 's5: {}\n');
    expect(openNow().recall('findings')).toBeUndefined();
    openNow().keep('findings', []);
    expect(openNow().recall('findings')).toBeUndefined();
  });

  it('does not hold where another file was changed just before it was opened', async () => {
    await settle();
    const soon = new Date(Date.now() + 60_000);
    utimesSync(join(studioDir, 'studio.yaml'), soon, soon);
    const before = open();
    writeFileSync(join(studioDir, 'sales/a.yaml'), 's2: {}\n');
    expect(before.after(new Map([['sales/a.yaml', 's2: {}\n']]))).toBeUndefined();
  });

  it.each([
    ['a file in a folder of its own', 'bought/2026/05.yaml'],
    ['a file that comes first', 'advances.yaml'],
    ['the settings', 'studio.yaml'],
    ['a name with quotes', 'sales/a"b.yaml'],
  ])('holds for %s', async (_, file) => {
    await settle();
    const before = open();
    const text = 'x: { date: 2026-05-01 }\n';
    mkdirSync(join(studioDir, file, '..'), { recursive: true });
    writeFileSync(join(studioDir, file), text);
    before.after(new Map([[file, text]]))?.keep('findings', ['after']);
    expect(open().recall('findings')).toEqual(['after']);
  });
});
