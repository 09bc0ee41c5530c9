/** Killed at any moment, or started two at once: nothing lost, nothing half-written, no lock left. */
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { applyPlan } from '../../src/write/store.ts';
import { randomSource } from '../helpers/random-source.js';
import {
  buildWriterChild,
  HERE,
  litterIn,
  QUICK_FOLDER,
  startWriter,
  studioFolder,
  type WriterChild,
} from '../helpers/studio-folder.ts';
import { cases } from '../helpers/tier.ts';

const RECORD = /^n(\d+): \{ x: x{60} \}$/;
/** Records to begin with: so many that a write takes a while. */
const START = 5_000;
let script = '';
const folder = mkdtempSync(join(tmpdir(), 'script-'));

beforeAll(() => {
  script = buildWriterChild(folder);
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

function manyRecords(): string {
  return Array.from({ length: START }, (_, n) => `n${n}: { x: ${'x'.repeat(60)} }\n`).join('');
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}

function exited({ process: child }: WriterChild): Promise<void> {
  return new Promise((resolve) =>
    child.once('close', () => {
      resolve();
    }),
  );
}

async function stop(child: WriterChild): Promise<void> {
  const gone = exited(child);
  child.process.kill('SIGKILL');
  await gone;
}

/** How many whole records a file has, n0, n1 and so on in order; fails on anything else in it. */
function recordsIn(studio: string, file: string): number {
  const lines = readFileSync(join(studio, file), 'utf8').split('\n');
  expect(lines.pop()).toBe('');
  const faulty = lines.findIndex((line, index) => RECORD.exec(line)?.[1] !== String(index));
  expect(lines[faulty]).toBeUndefined();
  return lines.length;
}

/** Lets it write so many records and a while longer; gives how many records it said were there. */
async function killedWhileWriting(
  child: WriterChild,
  { writes, then }: { readonly writes: number; readonly then: number },
): Promise<number> {
  expect(await child.answer()).toBe('ready');
  child.tell('sales.yaml', '*');
  const answers: string[] = [];
  while (answers.length < writes) answers.push(await child.answer());
  await pause(then);
  await stop(child);
  answers.push(...child.answers);
  expect(answers.filter((answer) => !/^ok n\d+$/.test(answer))).toEqual([]);
  return Number(answers.at(-1)?.slice('ok n'.length) ?? -1) + 1;
}

test('many writes, killed at random moments', async () => {
  const random = randomSource('kill');
  const files = { 'sales.yaml': manyRecords(), 'second/sales.yaml': manyRecords() };
  const studio = studioFolder(files, QUICK_FOLDER);
  const ready = [startWriter(script, studio), startWriter(script, studio)];
  let known = START;
  for (let kills = 0; kills < cases(10, 40) || known < START + cases(75, 300); kills++) {
    ready.push(startWriter(script, studio));
    const until = { writes: random.int(0, 16), then: random.next() * 8 };
    const told = await killedWhileWriting(ready.shift()!, until);
    const first = recordsIn(studio, 'sales.yaml');
    const second = recordsIn(studio, 'second/sales.yaml');
    // Only the write that was under way may be there untold, in the first file or in both.
    expect(first).toBeGreaterThanOrEqual(Math.max(told, known));
    expect(first).toBeLessThanOrEqual(Math.max(told, known) + 1);
    expect([first, first - 1]).toContain(second);
    copyFileSync(join(studio, 'sales.yaml'), join(studio, 'second/sales.yaml'));
    known = first;
  }
  for (const child of ready) await stop(child);
  const before = readFileSync(join(studio, 'sales.yaml'), 'utf8');
  const changes = [
    { file: 'sales.yaml', before, after: 'a: {}\n' },
    { file: 'second/x.yaml', before: undefined, after: 'b: {}\n' },
  ];
  const writer = { ...HERE, patience: Infinity };
  expect(await applyPlan(studio, changes, writer)).toHaveProperty('written');
  expect(litterIn(studio)).toEqual([]);
});

test('who reads meanwhile always finds a whole file, old or new', async () => {
  const studio = studioFolder({ 'sales.yaml': manyRecords() }, QUICK_FOLDER);
  const child = startWriter(script, studio);
  expect(await child.answer()).toBe('ready');
  child.tell('sales.yaml', '*');
  let most = START;
  for (let reads = 0; reads < cases(100, 400) || most < START + 20; reads++) {
    const records = recordsIn(studio, 'sales.yaml');
    expect(records).toBeGreaterThanOrEqual(most);
    most = records;
    if (reads % 10 === 0) await pause(1);
  }
  await stop(child);
});

test('two writers at once: both records are there, or one was clearly refused', async () => {
  const studio = studioFolder({}, QUICK_FOLDER);
  const writers = [startWriter(script, studio), startWriter(script, studio)];
  for (const writer of writers) expect(await writer.answer()).toBe('ready');
  const kept: string[] = [];
  let refusals = 0;
  for (let round = 0; round < cases(50, 200); round++) {
    writers.forEach((writer, index) => {
      writer.tell('sales.yaml', `r${round}-${index}`);
    });
    const answers = await Promise.all(writers.map((writer) => writer.answer()));
    const done = answers.filter((answer) => answer.startsWith('ok '));
    expect(done.length).toBeGreaterThan(0);
    for (const answer of answers.filter((each) => !done.includes(each))) {
      refusals++;
      expect(answer).toMatch(
        /^no r\d+-\d sales\.yaml (?:has changed since it was read: try again|is there already)$/,
      );
    }
    kept.push(...done.map((answer) => answer.slice('ok '.length)));
    const ids = readFileSync(join(studio, 'sales.yaml'), 'utf8').match(/^[^:]+/gm) ?? [];
    expect(ids.toSorted()).toEqual(kept.toSorted());
  }
  expect(refusals).toBeGreaterThan(0);
  expect(litterIn(studio)).toEqual([]);
});

test('four writers at once that all find the lock of a dead process', async () => {
  const studio = studioFolder({}, QUICK_FOLDER);
  const writers = [1, 2, 3, 4].map(() => startWriter(script, studio));
  for (const writer of writers) expect(await writer.answer()).toBe('ready');
  const dead = JSON.stringify({ pid: 4_194_305, host: hostname(), started: 'x' });
  let kept = 0;
  for (let round = 0; round < cases(10, 40); round++) {
    await applyPlan(studio, [{ file: `${round}.yaml`, before: undefined, after: '' }], HERE);
    writeFileSync(join(studio, '.saggar-lock'), dead);
    writers.forEach((writer, index) => {
      writer.tell('sales.yaml', `r${round}-${index}`);
    });
    const answers = await Promise.all(writers.map((writer) => writer.answer()));
    kept += answers.filter((answer) => answer.startsWith('ok ')).length;
    for (const answer of answers) expect(answer).toMatch(/^ok |changed since|there already/);
    const ids = readFileSync(join(studio, 'sales.yaml'), 'utf8').match(/^[^:]+/gm) ?? [];
    expect(ids).toHaveLength(kept);
  }
  expect(litterIn(studio)).toEqual([]);
});
