/** Changes of three files that are killed at a step of their way to the disk. */
import { execFile } from 'node:child_process';
import { chmodSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import { applyPlan, type FileToWrite, type Writer } from '../../src/write/store.ts';
import { buildChild, HERE, QUICK_FOLDER, studioFolder } from './studio-folder.ts';
import { filesIn } from './temp-studio.ts';

export const OLD = { 'sales.yaml': 'a: { x: 1 }\n', 'gone/old.yaml': 'b: { x: 1 }\n' };
export const NEW = { 'sales.yaml': 'a: { x: 2 }\n', 'firings/2026/f1.yaml': 'f1: { x: 1 }\n' };
export const CHANGES: readonly FileToWrite[] = [
  { file: 'sales.yaml', before: OLD['sales.yaml'], after: NEW['sales.yaml'] },
  { file: 'firings/2026/f1.yaml', before: undefined, after: NEW['firings/2026/f1.yaml'] },
  { file: 'gone/old.yaml', before: OLD['gone/old.yaml'], after: undefined },
];
export const NEXT: FileToWrite = { file: 'next.yaml', before: undefined, after: 'n: {}\n' };

const folder = mkdtempSync(join(tmpdir(), 'script-'));
const script = buildChild('killed-child.ts', folder);
// Test files of one worker share this module, so it goes with the worker.
process.once('exit', () => {
  rmSync(folder, { recursive: true, force: true });
});

/** The step before which a kill leaves the change half done. */
let step = 0;

export interface Place {
  readonly studio: string;
  readonly stateFolder: string;
}

function newPlace(): Place {
  const studio = studioFolder(OLD, QUICK_FOLDER);
  chmodSync(join(studio, 'sales.yaml'), 0o600);
  return { studio, stateFolder: join(studioFolder({}, QUICK_FOLDER), 'state') };
}

/** Runs the child, to be killed at a step; whether it got to its end. */
export function isDone(
  { studio, stateFolder }: Place,
  killAt: number,
  changes = '',
): Promise<boolean> {
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
export async function nextWrite({ studio, stateFolder }: Place, change = NEXT): Promise<string[]> {
  const told: string[] = [];
  const writer: Writer = { ...HERE, stateFolder, tell: (line) => told.push(line) };
  const applied = await applyPlan(studio, [change], { ...writer, patience: Infinity });
  expect(applied).toHaveProperty('written');
  return told;
}

export function stateOf({ studio }: Place): 'old' | 'new' | 'mixed' {
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

/** A place with a change that was killed when the first file was in place, and the second was not. */
export async function halfDone(): Promise<Place> {
  for (step ||= 20; step < 60; step += 1) {
    const place = newPlace();
    await killedAt(place, step);
    if (stateOf(place) === 'mixed') return place;
  }
  throw new Error('it was never killed half done');
}

/** The one note there. */
export function noteIn({ stateFolder }: Place): string {
  const [only] = readdirSync(stateFolder).filter((name) => name.endsWith('.json'));
  return join(stateFolder, only ?? 'there is none');
}

/** Kills at every step in turn, four at a time; gives the places for each step. */
export async function killEverywhere(): Promise<readonly Place[]> {
  const places: Place[] = [];
  for (let first = 1; ; first += 4) {
    const batch = [first, first + 1, first + 2, first + 3].map((at) => ({ at, place: newPlace() }));
    const done = await Promise.all(batch.map(({ at, place }) => killedAt(place, at)));
    places.push(...batch.flatMap(({ place }, index) => (done[index] ? [] : [place])));
    step ||= batch.find(({ place }) => stateOf(place) === 'mixed')?.at ?? 0;
    if (done.includes(true)) return places;
  }
}
