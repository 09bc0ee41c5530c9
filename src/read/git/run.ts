/** Runs git, so that it reads and nothing else: no checkout, no lock, no network, no other program. */
import { spawn, spawnSync } from 'node:child_process';
import type { Environment } from './program.ts';

/** Which program is run, and for which repository. */
export interface GitPlace {
  readonly program: string;
  readonly environment: Environment;
  /** Git's options that name the repository. */
  readonly where: readonly string[];
}

/** What git printed, or the first line of what it complained about. */
type Printed = { readonly text: string } | Failed;

/** Why git printed nothing; `isLate` where it was stopped. */
export interface Failed {
  readonly failed: string;
  readonly isLate?: boolean;
}

/** How git is asked. */
export interface GitWay {
  readonly input?: string | Buffer;
  /** It is stopped after so many milliseconds. */
  readonly within?: number;
  /** A status beside 0 with which git has answered. */
  readonly alsoFine?: number;
}

/** Milliseconds for what git should know at once, and for what it has to look for. */
export const AT_ONCE = 5000;
const AFTER_A_LOOK = 30_000;

// Of all the settings that start a program or write a file those that nothing else keeps out.
const SETTINGS = [
  'core.fsmonitor=false',
  'core.hooksPath=/dev/null',
  'core.untrackedCache=false',
  'core.alternateRefsCommand=',
  'core.sshCommand=',
  'core.gitProxy=',
  'core.askPass=',
  'credential.helper=',
  'protocol.allow=never',
  'submodule.recurse=false',
  'maintenance.auto=false',
  'gc.auto=0',
  'safe.bareRepository=explicit',
];
const SAFE = ['--no-pager', ...SETTINGS.flatMap((setting) => ['-c', setting])];
const MOST_OUTPUT = 256 * 1024 * 1024;

/** Runs git and waits for it. Never throws. */
export function runGit(place: GitPlace, words: readonly string[], way: GitWay = {}): Printed {
  const { input = '', within = AFTER_A_LOOK, alsoFine = 0 } = way;
  const run = spawnSync(place.program, [...SAFE, ...place.where, ...words], {
    encoding: 'utf8',
    env: place.environment,
    input,
    timeout: within,
    killSignal: 'SIGKILL',
    maxBuffer: MOST_OUTPUT,
  });
  if (run.status === 0 || run.status === alsoFine) return { text: run.stdout };
  if (codeOf(run.error) === 'ETIMEDOUT') return { failed: lateText(within), isLate: true };
  return {
    failed: run.error ? `it could not be run (${codeOf(run.error)})` : complaint(run.stderr),
  };
}

/** What git printed; undefined where it complained. */
export function askGit(
  place: GitPlace,
  words: readonly string[],
  way?: GitWay,
): string | undefined {
  const printed = runGit(place, words, way);
  return 'text' in printed ? printed.text : undefined;
}

/** Runs git with an input, and hands over what it prints as it comes; what came before a failure counts. */
export async function pipeGit(
  place: GitPlace,
  { words, input }: { readonly words: readonly string[]; readonly input: string },
  take: (chunk: Buffer) => void,
): Promise<Failed | undefined> {
  const child = spawn(place.program, [...SAFE, ...place.where, ...words], {
    env: place.environment,
    stdio: ['pipe', 'pipe', 'ignore'],
    timeout: AFTER_A_LOOK,
    killSignal: 'SIGKILL',
  });
  return new Promise((done) => {
    child.stdout.on('data', take);
    // Git may end before it has read all; its status says so.
    child.stdin.on('error', () => undefined).end(input);
    child.on('error', (error) => {
      done({ failed: `it could not be run (${codeOf(error)})` });
    });
    // What a stopped program has started may keep its output open for ever.
    child.on('exit', (_, signal) => {
      if (signal === 'SIGKILL') done({ failed: lateText(AFTER_A_LOOK), isLate: true });
    });
    child.on('close', (status) => {
      done(status === 0 ? undefined : { failed: 'it failed' });
    });
  });
}

function codeOf(error: Error | undefined): string {
  return (error as NodeJS.ErrnoException | undefined)?.code ?? 'no reason given';
}

function lateText(within: number): string {
  return `it gave no answer within ${within / 1000} seconds and was stopped`;
}

function complaint(text: string): string {
  const [first = ''] = text.split('\n');
  return first.replace(/^(?:fatal|error): /, '') || 'no reason given';
}
