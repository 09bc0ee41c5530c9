/** Folders of a studio for tests that write, and processes that write to them. */
import { spawn, type ChildProcessWithoutNullStreams } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { buildSync } from 'esbuild';
import { onTestFinished } from 'vitest';
import type { Writer } from '../../src/write/store.ts';

/** This process as a writer that waits only a moment for others. */
export const HERE: Writer = {
  pid: process.pid,
  host: hostname(),
  isRunning: (pid) => {
    try {
      return process.kill(pid, 0);
    } catch (error) {
      return (error as { code?: string }).code === 'EPERM';
    }
  },
  timeOf: (milliseconds) => new Date(milliseconds).toISOString(),
  uid: process.getuid?.(),
  patience: 200,
};

/** A folder in memory where the system has one: a killed process is the same there, and sooner done. */
export const QUICK_FOLDER = existsSync('/dev/shm') ? '/dev/shm' : tmpdir();

/** A folder with the given files, gone when the test is over. */
export function studioFolder(
  files: Readonly<Record<string, string>> = {},
  within = tmpdir(),
): string {
  const folder = mkdtempSync(join(within, 'studio-'));
  onTestFinished(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  chmodSync(folder, 0o755);
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    writeFileSync(join(folder, file), text);
  }
  return folder;
}

/** Files that a write left behind, in whatever folder: hidden ones, and locks. */
export function litterIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((path) =>
    /(?:^|\/)\.saggar(?:-|\/(?!\.gitignore$))/.test(path),
  );
}

/** Bundles the writing process once; gives the path of the script. */
export function buildWriterChild(folder: string): string {
  return buildChild('writer-child.ts', folder);
}

/** Bundles a process of the tests that imports sources; gives the path of the script. */
export function buildChild(name: string, folder: string): string {
  const outfile = join(folder, name.replace(/\.ts$/, '.mjs'));
  const entry = join(import.meta.dirname, name);
  buildSync({ entryPoints: [entry], outfile, bundle: true, platform: 'node', format: 'esm' });
  return outfile;
}

/** A writing process and what it says. */
export interface WriterChild {
  readonly process: ChildProcessWithoutNullStreams;
  /** Tells it to put a record into a file. */
  readonly tell: (file: string, id: string) => void;
  /** Its next answer. */
  readonly answer: () => Promise<string>;
  /** All answers so far that nobody has asked for. */
  readonly answers: string[];
}

/** Starts a writing process, which ends with the test; its first answer is `ready`. */
export function startWriter(script: string, studio: string, user?: number): WriterChild {
  const ids = user === undefined ? {} : { uid: user, gid: user };
  const child = spawn(process.execPath, [script, studio], { stdio: 'pipe', ...ids });
  onTestFinished(() => {
    child.kill('SIGKILL');
  });
  const answers: string[] = [];
  const waiting: ((line: string) => void)[] = [];
  createInterface({ input: child.stdout }).on('line', (line) => {
    const next = waiting.shift();
    if (next) next(line);
    else answers.push(line);
  });
  child.stderr.pipe(process.stderr);
  child.stdin.on('error', () => undefined);
  return {
    process: child,
    answers,
    tell: (file, id) => {
      child.stdin.write(`${JSON.stringify([file, id])}\n`);
    },
    answer: () => {
      const said = answers.shift();
      return said === undefined
        ? new Promise((resolve) => {
            waiting.push(resolve);
          })
        : Promise.resolve(said);
    },
  };
}
