/** Disks that refuse: full, read-only, immovable. The old files stay whole, and nothing is left behind. */
import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir, userInfo } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { applyPlan } from '../../src/write/store.ts';
import {
  buildWriterChild,
  HERE,
  litterIn,
  startWriter,
  studioFolder,
} from '../helpers/studio-folder.ts';

const NOBODY = 65534;
const ME = userInfo().username;
const isRoot = process.getuid?.() === 0;
const canMount = isRoot && canRun('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs']);
if (!canMount)
  console.warn(
    'SKIPPED: full disks, read-only disks and immovable files, for this user may not mount',
  );

/** Tries a mount on a folder of its own and takes it away again. */
function canRun(command: string, options: string[]): boolean {
  const folder = mkdtempSync(join(tmpdir(), 'mount-'));
  const done = spawnSync(command, [...options, folder]).status === 0;
  if (done) execFileSync('umount', [folder]);
  rmSync(folder, { recursive: true });
  return done;
}

/** Mounts something on a path until the test is over. */
function mount(path: string, options: readonly string[]): void {
  execFileSync('mount', [...options, path]);
  onTestFinished(() => {
    execFileSync('umount', [path]);
  });
}

function smallDisk(files: Readonly<Record<string, string>>): string {
  const studio = studioFolder();
  mount(studio, ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs']);
  for (const [file, text] of Object.entries(files)) writeFileSync(join(studio, file), text);
  return studio;
}

const before = 'a: { x: 1 }\n';
const after = 'a: { x: 2 }\n';
const large = `b: ${'x'.repeat(80_000)}\n`;

describe.runIf(canMount)('a full disk', () => {
  test('has no room for the new text', async () => {
    const studio = smallDisk({ 'sales.yaml': before });
    const plan = [{ file: 'sales.yaml', before, after: before + large }];
    expect(await applyPlan(studio, plan, HERE)).toEqual({
      refused: "sales.yaml can't be written: there is no room left on the disk",
    });
    expect(readFileSync(join(studio, 'sales.yaml'), 'utf8')).toBe(before);
    expect(litterIn(studio)).toEqual([]);
  });

  test('has room for the first of several files, but not for all', async () => {
    const studio = smallDisk({ 'sales.yaml': before, 'spent.yaml': before });
    const plan = [
      { file: 'sales.yaml', before, after },
      { file: 'new/one.yaml', before: undefined, after },
      { file: 'spent.yaml', before, after: before + large },
    ];
    expect(await applyPlan(studio, plan, HERE)).toEqual({
      refused: "spent.yaml can't be written: there is no room left on the disk",
    });
    expect(readFileSync(join(studio, 'sales.yaml'), 'utf8')).toBe(before);
    expect(readFileSync(join(studio, 'spent.yaml'), 'utf8')).toBe(before);
    expect(readdirSync(studio).sort()).toEqual(['sales.yaml', 'spent.yaml']);
    expect(litterIn(studio)).toEqual([]);
  });

  test('has no room for the lock, and has some again later', async () => {
    const studio = smallDisk({ 'sales.yaml': before });
    expect(() => {
      writeFileSync(join(studio, 'filler'), 'x'.repeat(100_000));
    }).toThrow('ENOSPC');
    const plan = [{ file: 'sales.yaml', before, after }];
    expect(await applyPlan(studio, plan, HERE)).toEqual({
      refused: "the studio can't be written: there is no room left on the disk",
    });
    expect(litterIn(studio)).toEqual([]);
    rmSync(join(studio, 'filler'));
    expect(await applyPlan(studio, plan, HERE)).toEqual({ written: ['sales.yaml'] });
  });
});

test.runIf(canMount)('a read-only disk', async () => {
  const studio = smallDisk({ 'sales.yaml': before });
  execFileSync('mount', ['-o', 'remount,ro', studio]);
  expect(await applyPlan(studio, [{ file: 'sales.yaml', before, after }], HERE)).toEqual({
    refused: "the studio can't be written: the disk is read-only",
  });
  expect(readFileSync(join(studio, 'sales.yaml'), 'utf8')).toBe(before);
});

test.runIf(canMount)('a read-only folder in the midst of a plan', async () => {
  const studio = studioFolder({ 'sales.yaml': before, 'spent/2026-03.yaml': before });
  mount(join(studio, 'spent'), ['-t', 'tmpfs', '-o', 'ro', 'tmpfs']);
  const plan = [
    { file: 'sales.yaml', before, after },
    { file: 'spent/2026-04.yaml', before: undefined, after },
  ];
  expect(await applyPlan(studio, plan, HERE)).toEqual({
    refused: "spent/2026-04.yaml can't be written: the disk is read-only",
  });
  expect(readFileSync(join(studio, 'sales.yaml'), 'utf8')).toBe(before);
  expect(litterIn(studio)).toEqual([]);
});

test.runIf(canMount)('a file that can not be replaced: those before it are put back', async () => {
  const old = { 'a.yaml': before, 'gone.yaml': before, 'stuck.yaml': before };
  const studio = studioFolder(old);
  chmodSync(join(studio, 'a.yaml'), 0o640);
  mount(join(studio, 'stuck.yaml'), ['--bind', join(studio, 'stuck.yaml')]);
  const plan = [
    { file: 'a.yaml', before, after },
    { file: 'new/b.yaml', before: undefined, after },
    { file: 'gone.yaml', before, after: undefined },
    { file: 'stuck.yaml', before, after },
  ];
  expect(await applyPlan(studio, plan, HERE)).toEqual({
    refused: "stuck.yaml can't be written: it is open in another program",
  });
  for (const file of Object.keys(old))
    expect(readFileSync(join(studio, file), 'utf8'), file).toBe(before);
  expect(existsSync(join(studio, 'new'))).toBe(false);
  expect(litterIn(studio)).toEqual([]);
});

if (!isRoot) console.warn('SKIPPED: what belongs to somebody else, for this user is not root');

describe.runIf(isRoot)('somebody else who may not write', () => {
  let script = '';
  const folder = mkdtempSync(join(tmpdir(), 'script-'));
  beforeAll(() => {
    script = buildWriterChild(folder);
    chmodSync(folder, 0o755);
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  /** What a process of another user says that adds a record. */
  async function answerOfAnother(studio: string, file: string): Promise<string> {
    const child = startWriter(script, studio, NOBODY);
    expect(await child.answer()).toBe('ready');
    child.tell(file, 'b');
    return child.answer();
  }

  test('to the studio', async () => {
    const studio = studioFolder({ 'sales.yaml': before });
    chmodSync(studio, 0o555);
    expect(await answerOfAnother(studio, 'sales.yaml')).toBe(
      `no b the studio can't be written: its folder ${studio} belongs to ${ME}`,
    );
    expect(readFileSync(join(studio, 'sales.yaml'), 'utf8')).toBe(before);
    expect(readdirSync(studio)).toEqual(['sales.yaml']);
    chmodSync(studio, 0o755);
  });

  test('to a folder', async () => {
    const studio = studioFolder({ 'sales/2026-03.yaml': before });
    chmodSync(studio, 0o777);
    chmodSync(join(studio, 'sales'), 0o555);
    expect(await answerOfAnother(studio, 'sales/2026-03.yaml')).toBe(
      `no b sales/2026-03.yaml can't be written: its folder ${join(studio, 'sales')} belongs to ${ME}`,
    );
    expect(readFileSync(join(studio, 'sales/2026-03.yaml'), 'utf8')).toBe(before);
    expect(litterIn(studio)).toEqual([]);
    chmodSync(join(studio, 'sales'), 0o755);
  });

  test('to a file, though its folder would let it be replaced', async () => {
    const studio = studioFolder({ 'sales.yaml': before });
    chmodSync(studio, 0o777);
    chmodSync(join(studio, 'sales.yaml'), 0o444);
    expect(await answerOfAnother(studio, 'sales.yaml')).toBe(
      `no b sales.yaml can't be written: it belongs to ${ME}`,
    );
    expect(readFileSync(join(studio, 'sales.yaml'), 'utf8')).toBe(before);
    expect(litterIn(studio)).toEqual([]);
  });
});
