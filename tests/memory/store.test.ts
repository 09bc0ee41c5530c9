import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { MemoryPlace } from '../../src/home.ts';
import {
  LONGEST_UNUSED,
  MOST_IN_ALL,
  MOST_OF_ONE,
  forgetAll,
  keepBounds,
} from '../../src/memory/bounds.ts';
import { forgetFolder, storeOf, unkeepable } from '../../src/memory/store.ts';
import { folderOf, memoryForTests, storeIn } from '../helpers/memory.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

/** A memory of its own. */
function place(other: Partial<MemoryPlace> = {}): MemoryPlace {
  return { ...memoryForTests(), folder: join(tempStudio({}), 'cache/saggar'), ...other };
}

function whyNot(folder: string, own: MemoryPlace): string | undefined {
  return unkeepable(folder, { place: own, stamp: '' });
}

describe('what is remembered of a folder', () => {
  it('is given again, and lies outside of it', () => {
    const folder = tempStudio({});
    expect(storeIn(folder).read('a')).toBeUndefined();
    expect(storeIn(folder).write('a', 'text')).toBe(true);
    expect(storeIn(folder).read('a')?.toString()).toBe('text');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('is for the person alone', () => {
    const [own, folder] = [place(), tempStudio({})];
    const store = storeIn(folder, '', own);
    store.write('a', 'text');
    const modes = [own.folder, folderOf(store, own), join(folderOf(store, own), 'a')];
    expect(modes.map((path) => statSync(path).mode & 0o777)).toEqual([0o700, 0o700, 0o600]);
    expect(readdirSync(folderOf(store, own))).toEqual(['a']);
  });

  it('is not that of a copy, a moved folder, or one put in its place', () => {
    const folder = tempStudio({});
    storeIn(folder).write('a', 'text');
    const [copy, moved] = [`${folder}-copy`, `${folder}-moved`];
    cpSync(folder, copy, { recursive: true });
    renameSync(folder, moved);
    renameSync(copy, folder);
    expect(storeIn(folder).read('a')).toBeUndefined();
    expect(storeIn(moved).read('a')).toBeUndefined();
    rmSync(folder, { recursive: true });
    renameSync(moved, folder);
    expect(storeIn(folder).read('a')?.toString()).toBe('text');
  });

  it('is the same by whatever path the folder is named, and not on another host', () => {
    const folder = tempStudio({});
    const link = join(tempStudio({}), 'link');
    symlinkSync(folder, link);
    storeIn(folder).write('a', 'text');
    expect(storeIn(link).read('a')?.toString()).toBe('text');
    const elsewhere = { ...memoryForTests(), host: 'elsewhere' };
    expect(storeIn(folder, '', elsewhere).read('a')).toBeUndefined();
  });

  it('is not believed where others may have written it', () => {
    const folder = tempStudio({});
    const store = storeIn(folder);
    store.write('a', 'text');
    chmodSync(folderOf(store), 0o770);
    expect(storeIn(folder).read('a')).toBeUndefined();
    expect(storeIn(folder).write('a', 'other')).toBe(false);
    chmodSync(folderOf(store), 0o700);
    const stranger = { ...memoryForTests(), user: (process.getuid?.() ?? 0) + 1 };
    expect(storeIn(folder, '', stranger).read('a')).toBeUndefined();
    expect(storeIn(folder, '', stranger).write('a', 'other')).toBe(false);
    expect(storeIn(folder).read('a')?.toString()).toBe('text');
  });

  it('is not read or written through a link in place of its folder', () => {
    const [own, folder, outside] = [place(), tempStudio({}), tempStudio({ a: 'text' })];
    chmodSync(outside, 0o700);
    mkdirSync(own.folder, { recursive: true });
    symlinkSync(outside, folderOf(storeIn(folder, '', own), own));
    expect(storeIn(folder, '', own).read('a')).toBeUndefined();
    expect(storeIn(folder, '', own).write('b', 'text')).toBe(false);
    expect(readdirSync(outside)).toEqual(['a']);
  });
});

describe('nothing is remembered', () => {
  it('in the studio itself, by whatever way', () => {
    const folder = tempStudio({});
    const link = join(tempStudio({}), 'link');
    symlinkSync(folder, link);
    for (const where of [folder, join(folder, 'cache/saggar'), join(link, 'cache')])
      expect(whyNot(folder, place({ folder: where, isNamed: true }))).toContain('in the studio');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('by a path that is not absolute', () => {
    const named = place({ folder: 'memory', isNamed: true });
    expect(whyNot(tempStudio({}), named)).toContain('SAGGAR_MEMORY');
  });

  it('of a studio on another disk than the home, unless a folder is named', () => {
    const folder = tempStudio({});
    const home = ['/proc', '/dev/shm', '/sys'].find(
      (path) => existsSync(path) && statSync(path).dev !== statSync(folder).dev,
    );
    if (home === undefined) throw new Error('this machine has only one disk');
    expect(whyNot(folder, place({ home }))).toContain('another disk');
    expect(whyNot(folder, place({ home, isNamed: true }))).toBeUndefined();
  });

  it('where there is no home, unless there is another place for it', () => {
    const home = join(tempStudio({}), 'gone');
    expect(whyNot(tempStudio({}), place({ home }))).toBeUndefined();
    const nowhere = place({ home, folder: join(tempStudio({ file: '' }), 'file/saggar') });
    expect(whyNot(tempStudio({}), nowhere)).toContain("can't be written to");
  });

  it('where the folder for it can not be made', () => {
    const file = join(tempStudio({ file: 'mine' }), 'file');
    expect(whyNot(tempStudio({}), place({ folder: join(file, 'saggar') }))).toContain(file);
    expect(readFileSync(file, 'utf8')).toBe('mine');
  });

  it('of a folder that is gone', () => {
    expect(storeOf(join(tmpdir(), 'gone'), { place: place(), stamp: '' })).toHaveProperty(
      'because',
    );
  });
});

describe('the bounds of the memory', () => {
  it('keep one studio below 64 MB', () => {
    const store = storeIn(tempStudio({}));
    store.write('a', 'text');
    truncateSync(join(folderOf(store), 'a'), MOST_OF_ONE - 4);
    expect([store.write('b', 'five '), store.write('b', 'four')]).toEqual([false, true]);
    expect(MOST_OF_ONE).toBe(64 * 1024 * 1024);
  });

  /** A store of a size that takes no room on the disk, last used some days ago. */
  function store(own: MemoryPlace, name: string, days: number): string {
    const folder = join(own.folder, name.repeat(32));
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'a'), 'text');
    const used = own.clock() / 1000 - days * 86_400;
    utimesSync(folder, used, used);
    return folder;
  }

  it('let go of what nobody used for 90 days, and of nothing else in the folder', () => {
    const own = place();
    const [old, young, mine] = [store(own, 'a', 91), store(own, 'b', 89), store(own, 'c', 400)];
    writeFileSync(join(own.folder, 'notes.txt'), 'mine');
    keepBounds(own, mine);
    expect([old, young, mine].map((folder) => existsSync(folder))).toEqual([false, true, true]);
    expect(readFileSync(join(own.folder, 'notes.txt'), 'utf8')).toBe('mine');
    expect(LONGEST_UNUSED).toBe(90 * 24 * 60 * 60 * 1000);
  });

  it('let go of what was used longest ago where it is too much', () => {
    const own = place();
    const folders = [store(own, 'a', 3), store(own, 'b', 2), store(own, 'c', 1)];
    for (const folder of folders) truncateSync(join(folder, 'a'), MOST_IN_ALL / 2 - 1);
    const [mine = ''] = folders;
    utimesSync(mine, own.clock() / 1000, own.clock() / 1000);
    keepBounds(own, mine);
    expect(folders.map((folder) => existsSync(folder))).toEqual([true, false, true]);
  });

  it('are kept when a studio is remembered for the first time, and once a day', () => {
    const own = place();
    const old = store(own, 'a', 91);
    const folder = tempStudio({});
    const kept = storeIn(folder, '', own);
    kept.write('a', 'text');
    expect(existsSync(old)).toBe(false);
    const older = store(own, 'b', 91);
    storeIn(folder, '', own).read('a');
    expect(existsSync(older)).toBe(true);
    storeIn(folder, '', { ...own, clock: () => own.clock() + 25 * 3_600_000 });
    expect(existsSync(older)).toBe(false);
    expect(storeIn(folder, '', own).read('a')?.toString()).toBe('text');
  });
});

describe('forgetting', () => {
  it('deletes all of one studio, of whatever version, or all there is', () => {
    const own = place();
    const [one, other] = [tempStudio({}), tempStudio({})];
    for (const folder of [one, other]) storeIn(folder, 'v1', own).write('a', 'text');
    expect(forgetFolder(one, own)).toBe(4);
    expect(forgetFolder(one, own)).toBe(0);
    expect(storeIn(one, 'v1', own).read('a')).toBeUndefined();
    expect(storeIn(other, 'v1', own).read('a')?.toString()).toBe('text');
    writeFileSync(join(own.folder, 'notes.txt'), 'mine');
    expect(forgetAll(own)).toBe(4);
    expect(readdirSync(own.folder)).toEqual(['notes.txt']);
    expect(forgetAll({ folder: join(dirname(own.folder), 'none') })).toBe(0);
  });
});
