/** Changed files reach the disk whole, in place and with their permissions, or not at all. */
import {
  chmodSync,
  chownSync,
  existsSync,
  linkSync,
  lstatSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  statSync,
  symlinkSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { applyPlan, makeStudioFolder } from '../../src/write/store.ts';
import { HERE, litterIn, studioFolder } from '../helpers/studio-folder.ts';

const isRoot = process.getuid?.() === 0;
const before = 'a: { x: 1 }\n';
const after = 'a: { x: 2 }\n';
const change = { file: 'sales.yaml', before, after };

function read(studio: string, file: string): string {
  return readFileSync(join(studio, file), 'utf8');
}

test('changes, makes and removes files in one go', async () => {
  const studio = studioFolder({ 'sales.yaml': before, 'old/gone.yaml': 'b: {}\n' });
  const changes = [
    change,
    { file: 'firings/2026/f1.yaml', before: undefined, after: 'f1: {}\n' },
    { file: 'old/gone.yaml', before: 'b: {}\n', after: undefined },
    { file: 'same.yaml', before: 'x', after: 'x' },
  ];
  expect(await applyPlan(studio, changes, HERE)).toEqual({
    written: ['sales.yaml', 'firings/2026/f1.yaml', 'old/gone.yaml'],
  });
  expect(read(studio, 'sales.yaml')).toBe(after);
  expect(read(studio, 'firings/2026/f1.yaml')).toBe('f1: {}\n');
  expect(existsSync(join(studio, 'old/gone.yaml'))).toBe(false);
  expect(litterIn(studio)).toEqual([]);
});

test('writes nothing, not even a lock, where nothing changes', async () => {
  const studio = studioFolder();
  expect(await applyPlan(studio, [{ ...change, after: before }], HERE)).toEqual({ written: [] });
  expect(readdirSync(studio)).toEqual([]);
});

test('keeps byte order mark, line ends and characters', async () => {
  const text = '\ufeffa: { x: é😀 }\r\n';
  const studio = studioFolder({ 'sales.yaml': text });
  const changed = text.replace('é', 'è');
  await applyPlan(studio, [{ file: 'sales.yaml', before: text, after: changed }], HERE);
  expect(readFileSync(join(studio, 'sales.yaml')).equals(Buffer.from(changed))).toBe(true);
});

test.each([0o600, 0o640, 0o664, 0o755])('keeps permissions %o', async (mode) => {
  const studio = studioFolder({ 'sales.yaml': before });
  chmodSync(join(studio, 'sales.yaml'), mode);
  await applyPlan(studio, [change], HERE);
  expect(statSync(join(studio, 'sales.yaml')).mode & 0o777).toBe(mode);
  expect(read(studio, 'sales.yaml')).toBe(after);
});

test.runIf(isRoot)('keeps the owner of a file that is changed for somebody else', async () => {
  const studio = studioFolder({ 'sales.yaml': before });
  chownSync(join(studio, 'sales.yaml'), 65534, 65534);
  await applyPlan(studio, [change], HERE);
  expect(statSync(join(studio, 'sales.yaml'))).toMatchObject({ uid: 65534, gid: 65534 });
});

describe('refuses, and leaves everything as it was, where', () => {
  const both = [
    { file: 'new/first.yaml', before: undefined, after: 'f: {}\n' },
    { file: 'other.yaml', before: 'o: {}\n', after: 'o: { x: 1 }\n' },
    change,
  ];

  test.each([
    [
      'the file changed since it was read',
      'a: { x: 9 }\n',
      'sales.yaml has changed since it was read: try again',
    ],
    [
      'only its line ends changed',
      'a: { x: 1 }\r\n',
      'sales.yaml has changed since it was read: try again',
    ],
    [
      'it got a byte order mark',
      `\ufeff${before}`,
      'sales.yaml has changed since it was read: try again',
    ],
    ['the file is gone', undefined, 'sales.yaml is gone since it was read'],
  ])('%s', async (_, now, refused) => {
    const studio = studioFolder({ 'other.yaml': 'o: {}\n', ...(now ? { 'sales.yaml': now } : {}) });
    expect(await applyPlan(studio, both, HERE)).toEqual({ refused });
    expect(read(studio, 'other.yaml')).toBe('o: {}\n');
    expect(existsSync(join(studio, 'new'))).toBe(false);
    if (now !== undefined) expect(read(studio, 'sales.yaml')).toBe(now);
    expect(litterIn(studio)).toEqual([]);
  });

  test('a new file is there already', async () => {
    const studio = studioFolder({ 'sales.yaml': before });
    expect(await applyPlan(studio, [{ ...change, before: undefined }], HERE)).toEqual({
      refused: 'sales.yaml is there already',
    });
    expect(read(studio, 'sales.yaml')).toBe(before);
    expect(litterIn(studio)).toEqual([]);
  });

  test('a file is named twice, if by a link', async () => {
    const studio = studioFolder({ 'sales.yaml': before });
    symlinkSync('sales.yaml', join(studio, 'link.yaml'));
    const plan = [change, { ...change, file: 'link.yaml' }];
    expect(await applyPlan(studio, plan, HERE)).toEqual({
      refused: 'link.yaml would be changed twice at once',
    });
    expect(read(studio, 'sales.yaml')).toBe(before);
  });

  test.each([
    ['../outside.yaml', '../outside.yaml is not in the studio'],
    ['/etc/outside.yaml', '/etc/outside.yaml is not in the studio'],
    ['a/../../outside.yaml', 'a/../../outside.yaml is not in the studio'],
    ['.', '. is not in the studio'],
    ['folder', 'folder is not a file'],
    ['sales.yaml/x.yaml', "sales.yaml/x.yaml can't be written: its folder is gone"],
    [`${'x'.repeat(300)}.yaml`, `${'x'.repeat(300)}.yaml can't be written: its name is too long`],
  ])('the path is %s', async (file, refused) => {
    const studio = studioFolder({ 'sales.yaml': before, 'folder/x.yaml': '' });
    expect(await applyPlan(studio, [{ file, before: undefined, after }], HERE)).toEqual({
      refused,
    });
    expect(litterIn(studio)).toEqual([]);
  });

  test('the studio is gone', async () => {
    const studio = studioFolder({ 'sales.yaml': before });
    rmSync(studio, { recursive: true });
    expect(await applyPlan(studio, [change], HERE)).toEqual({
      refused: "the studio can't be written: its folder is gone",
    });
    expect(existsSync(studio)).toBe(false);
  });
});

describe('links', () => {
  test('to a file in the studio stay links, and the file changes', async () => {
    const studio = studioFolder({ 'real/sales.yaml': before });
    symlinkSync('real/sales.yaml', join(studio, 'sales.yaml'));
    expect(await applyPlan(studio, [change], HERE)).toEqual({ written: ['sales.yaml'] });
    expect(readlinkSync(join(studio, 'sales.yaml'))).toBe('real/sales.yaml');
    expect(read(studio, 'real/sales.yaml')).toBe(after);
    expect(litterIn(studio)).toEqual([]);
  });

  test('to a folder in the studio are followed', async () => {
    const studio = studioFolder({ 'archive/2026.yaml': before });
    symlinkSync('archive', join(studio, 'sales'));
    await applyPlan(studio, [{ file: 'sales/2026.yaml', before, after }], HERE);
    expect(read(studio, 'archive/2026.yaml')).toBe(after);
  });

  test('that lead out of the studio are refused, for files and for folders', async () => {
    const outside = studioFolder({ 'sales.yaml': before });
    const studio = studioFolder();
    symlinkSync(join(outside, 'sales.yaml'), join(studio, 'sales.yaml'));
    symlinkSync(outside, join(studio, 'spent'));
    expect(await applyPlan(studio, [change], HERE)).toEqual({
      refused: 'sales.yaml leads out of the studio',
    });
    const inside = [{ file: 'spent/new/x.yaml', before: undefined, after }];
    expect(await applyPlan(studio, inside, HERE)).toEqual({
      refused: 'spent/new/x.yaml leads out of the studio',
    });
    expect(read(outside, 'sales.yaml')).toBe(before);
    expect(existsSync(join(outside, 'new'))).toBe(false);
  });

  test('that lead nowhere or in a circle are refused', async () => {
    const studio = studioFolder();
    symlinkSync('nothing.yaml', join(studio, 'sales.yaml'));
    symlinkSync('circle.yaml', join(studio, 'circle.yaml'));
    expect(await applyPlan(studio, [change], HERE)).toEqual({
      refused: 'sales.yaml is a link that leads nowhere',
    });
    expect(await applyPlan(studio, [{ ...change, file: 'circle.yaml' }], HERE)).toEqual({
      refused: "circle.yaml can't be written: its links lead in a circle",
    });
    expect(lstatSync(join(studio, 'sales.yaml')).isSymbolicLink()).toBe(true);
  });

  test('the studio itself may be behind one', async () => {
    const studio = studioFolder({ 'sales.yaml': before });
    const link = join(studioFolder(), 'link');
    symlinkSync(studio, link);
    expect(await applyPlan(link, [change], HERE)).toEqual({ written: ['sales.yaml'] });
  });
});

test('a file that has another name on the disk is told of, since that keeps the old text', async () => {
  const studio = studioFolder({ 'sales.yaml': before, 'spent.yaml': before });
  const elsewhere = join(studioFolder(), 'sales.yaml');
  linkSync(join(studio, 'sales.yaml'), elsewhere);
  const plan = [change, { file: 'spent.yaml', before, after }];
  expect(await applyPlan(studio, plan, HERE)).toEqual({
    written: ['sales.yaml', 'spent.yaml'],
    parted: ['sales.yaml'],
  });
  expect([readFileSync(elsewhere, 'utf8'), read(studio, 'sales.yaml')]).toEqual([before, after]);
});

test('writes that begin at once in one process wait for each other', async () => {
  const studio = studioFolder({ 'sales.yaml': before });
  const writer = { ...HERE, patience: Infinity };
  const apart = Array.from({ length: 8 }, (_, index) =>
    applyPlan(studio, [{ file: `spent/${index}.yaml`, before: undefined, after }], writer),
  );
  expect(await Promise.all(apart)).toHaveLength(8);
  expect((await Promise.all(apart)).every((applied) => 'written' in applied)).toBe(true);
  const same = [1, 2, 3].map((n) =>
    applyPlan(studio, [{ ...change, after: `a: { x: ${n}0 }\n` }], writer),
  );
  const done = await Promise.all(same);
  expect(done.filter((applied) => 'written' in applied)).toHaveLength(1);
  expect(done.filter((applied) => 'refused' in applied)).toHaveLength(2);
});

test('clears hidden files that a killed writer left in the folder, and no others', async () => {
  const mine = { '.saggar-123-0.new': 'x', '.saggar-123-1.old': 'x' };
  const others = { '.saggar-notes.new': 'x', '.hidden.yaml': 'x' };
  const studio = studioFolder({ 'sales.yaml': before, ...mine, ...others });
  await applyPlan(studio, [change], HERE);
  for (const file of Object.keys(mine)) expect(existsSync(join(studio, file))).toBe(false);
  for (const file of Object.keys(others)) expect(existsSync(join(studio, file))).toBe(true);
});

describe('the folder of a new studio', () => {
  test('is made, with those above it, or is there already', () => {
    const folder = join(studioFolder(), 'deep/studio');
    expect(makeStudioFolder(folder, HERE.uid)).toBeUndefined();
    expect(statSync(folder).isDirectory()).toBe(true);
    expect(makeStudioFolder(folder, HERE.uid)).toBeUndefined();
  });

  test('is refused where a file stands in the way', () => {
    const file = join(studioFolder({ studio: '' }), 'studio/here');
    expect(makeStudioFolder(file, HERE.uid)).toEqual({
      refused: `${file} can't be written: its folder is gone`,
    });
  });
});
