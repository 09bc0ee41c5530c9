/**
 * A process that writes to a studio when it is told to, for tests that kill it or start two at once.
 * Each line on standard input is a JSON array of file and record id: it reads the file, puts the
 * record at its end and answers with `ok ID` or `no ID REASON`. The id `*` goes on for ever with
 * `n0`, `n1` and so on, into the file and into a second one beside it at once.
 */
import { readFileSync, writeSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { applyPlan, type FileToWrite } from '../../src/write/store.ts';

const [studio = '', stateFolder] = process.argv.slice(2);
const writer = {
  pid: process.pid,
  host: hostname(),
  isRunning: (pid: number) => {
    try {
      return process.kill(pid, 0);
    } catch (error) {
      return (error as { code?: string }).code === 'EPERM';
    }
  },
  uid: process.getuid?.(),
  timeOf: String,
  stateFolder,
  patience: Infinity,
};

function withRecord(file: string, id: string): FileToWrite {
  const before = readText(file);
  return { file, before, after: `${before ?? ''}${id}: { x: ${'x'.repeat(60)} }\n` };
}

function readText(file: string): string | undefined {
  try {
    return readFileSync(join(studio, file), 'utf8');
  } catch {
    return undefined;
  }
}

async function add(files: readonly string[], id: string): Promise<void> {
  const changes = files.map((file) => withRecord(file, id));
  const applied = await applyPlan(studio, changes, writer);
  writeSync(1, 'refused' in applied ? `no ${id} ${applied.refused}\n` : `ok ${id}\n`);
}

async function addForEver(files: readonly string[]): Promise<void> {
  const start = (readText(files[0] ?? '') ?? '').split('\n').length - 1;
  for (let number = start; ; number++) await add(files, `n${number}`);
}

writeSync(1, 'ready\n');
for await (const line of createInterface({ input: process.stdin })) {
  const [file, id] = JSON.parse(line) as [string, string];
  if (id === '*') await addForEver([file, `second/${file}`]);
  else await add([file], id);
}
