/** Runs the built program as a person would; builds it first where a source is newer. */
import { execFileSync, spawn } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join, resolve } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { onTestFinished } from 'vitest';
import { IS_ROOT, NOBODY, give } from './needed.ts';

const ROOT = resolve(import.meta.dirname, '../..');
/** What starts the program. */
export const PROGRAM = join(ROOT, 'bin/saggar.js');
const BUILT = join(ROOT, 'dist/cli.cjs');
const LOCK = join(ROOT, 'node_modules/.saggar-build');

/** The demo studio, and the last day of its book. */
export const EXAMPLE = join(ROOT, 'example-studio');
export const EXAMPLE_DAY = '2026-06-30';

/** What a run said and how it ended; the status is null where a signal ended it. */
export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Where a program runs. */
export interface RunOptions {
  /** The folder to run in; the demo studio when left out. */
  readonly folder?: string;
  /** Text on standard input; nothing when left out. */
  readonly input?: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** Runs `saggar` with these arguments. */
export async function runSaggar(
  args: readonly string[],
  { folder = EXAMPLE, input = '', env = {} }: RunOptions = {},
): Promise<Ran> {
  await builtProgram();
  return runProgram([process.execPath, PROGRAM, ...args], { folder, input, env });
}

/** Runs `saggar` in a folder as a user who may not do everything; it is nobody's afterwards where a superuser tests. */
export async function runAsPlainUser(args: readonly string[], folder: string): Promise<Ran> {
  if (!IS_ROOT) return runSaggar(args, { folder });
  await builtProgram();
  const home = emptyFolder();
  chmodSync(home, 0o755);
  for (const part of ['bin', 'dist'])
    cpSync(join(ROOT, part), join(home, part), { recursive: true });
  mkdirSync(join(home, 'own'));
  give(join(home, 'own'), NOBODY);
  give(folder, NOBODY);
  const own = { HOME: join(home, 'own'), XDG_CACHE_HOME: '', XDG_STATE_HOME: '' };
  const command = [process.execPath, join(home, 'bin/saggar.js'), ...args];
  return runProgram(command, { folder, input: '', env: own, user: NOBODY });
}

/** Runs a script in a shell, in which `saggar` is the built program. */
export async function runShell(
  shell: readonly string[],
  script: string,
  { folder = EXAMPLE, input = '', env = {} }: RunOptions = {},
): Promise<Ran> {
  await builtProgram();
  const path = `${programFolder()}${delimiter}${process.env['PATH'] ?? ''}`;
  return runProgram([...shell, script], { folder, input, env: { PATH: path, ...env } });
}

/** An empty folder that is gone when the test is over. */
export function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'saggar-cli-'));
  onTestFinished(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  return folder;
}

/** Copies the demo studio, without what was kept of it between runs. */
export function copyDemo(folder: string): void {
  cpSync(EXAMPLE, folder, { recursive: true, filter: (path) => !path.endsWith('.saggar') });
}

/** A copy of the demo studio that is gone when the test is over. */
export function demoCopy(): string {
  const folder = emptyFolder();
  copyDemo(folder);
  return folder;
}

let built: Promise<void> | undefined;

/** Sees to it, once, that the built program is of the sources as they are. */
export function builtProgram(): Promise<void> {
  return (built ??= buildIfStale());
}

// Tests run beside each other: one of them builds, the others wait.
async function buildIfStale(): Promise<void> {
  while (!takeLock()) await pause(200);
  try {
    if (isStale())
      execFileSync(process.execPath, ['schema/build/build.js'], { cwd: ROOT, stdio: 'pipe' });
  } finally {
    rmSync(LOCK, { recursive: true, force: true });
  }
}

function isStale(): boolean {
  const built = statSync(BUILT, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  return ['src', 'schema', 'package.json'].some((name) => newestIn(join(ROOT, name)) > built);
}

// What the build itself makes is newer than what it was made from.
function newestIn(path: string): number {
  const { mtimeMs } = statSync(path);
  if (path.endsWith('generated')) return 0;
  if (!statSync(path).isDirectory()) return mtimeMs;
  return Math.max(...readdirSync(path).map((name) => newestIn(join(path, name))));
}

function takeLock(): boolean {
  const age = Date.now() - (statSync(LOCK, { throwIfNoEntry: false })?.mtimeMs ?? Infinity);
  if (age > 600_000) rmSync(LOCK, { recursive: true, force: true });
  try {
    mkdirSync(LOCK);
    return true;
  } catch {
    return false;
  }
}

/** A folder for PATH that holds `saggar` alone. */
function programFolder(): string {
  const folder = emptyFolder();
  symlinkSync(PROGRAM, join(folder, 'saggar'));
  return folder;
}

function runProgram(
  [program = '', ...args]: readonly string[],
  { folder, input, env, user }: Required<RunOptions> & { readonly user?: number },
): Promise<Ran> {
  const plain = { ...process.env, NO_COLOR: '', FORCE_COLOR: '' };
  const ids = user === undefined ? {} : { uid: user, gid: user };
  const child = spawn(program, args, {
    cwd: folder,
    env: { ...plain, ...env },
    stdio: 'pipe',
    ...ids,
  });
  const said = { out: '', err: '' };
  child.stdout.setEncoding('utf8').on('data', (text: string) => (said.out += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (said.err += text));
  // A program that reads no input may be gone before it has come.
  child.stdin.on('error', () => undefined).end(input);
  return new Promise((done, failed) => {
    child.on('error', failed).on('close', (status) => {
      done({ status, ...said });
    });
  });
}
