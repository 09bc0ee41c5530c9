/**
 * A process that changes files of a studio at once and is killed before one of its steps on the disk,
 * the first being 1; it says `done` where it has fewer. Without changes it only takes the lock, which
 * undoes what is half done.
 */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { hostname } from 'node:os';
import { applyPlan, lockForWriting, type FileToWrite } from '../../src/write/store.ts';

const [studio = '', stateFolder = '', killAt = '0', changes = ''] = process.argv.slice(2);

const STEPS = [
  'openSync',
  'writeFileSync',
  'fsyncSync',
  'fchmodSync',
  'linkSync',
  'renameSync',
  'unlinkSync',
  'mkdirSync',
  'rmdirSync',
] as const;

let left = Number(killAt);
const patched = fs as unknown as Record<string, (...given: unknown[]) => unknown>;
for (const name of STEPS) {
  const step = patched[name]!;
  patched[name] = (...given) => {
    left -= 1;
    if (left === 0) process.kill(process.pid, 'SIGKILL');
    return step(...given);
  };
}
syncBuiltinESMExports();

const writer = {
  pid: process.pid,
  host: hostname(),
  uid: process.getuid?.(),
  isRunning: () => false,
  timeOf: String,
  stateFolder,
  patience: Infinity,
};

if (changes === '') {
  const lock = await lockForWriting(studio, writer);
  if ('release' in lock) lock.release();
} else {
  const applied = await applyPlan(studio, JSON.parse(changes) as FileToWrite[], writer);
  if ('refused' in applied) throw new Error(applied.refused);
}
fs.writeSync(1, 'done\n');
