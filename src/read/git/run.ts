/** Runs git in a studio's repository, so that it reads and nothing else: no checkout, no lock, no network. */
import { spawn, spawnSync } from 'node:child_process';

/** Where git runs. */
export interface GitPlace {
  readonly folder: string;
  /** What the program was started with; what names another repository in it is left out. */
  readonly environment: Environment | undefined;
}

/** Variables of the environment. */
export type Environment = Readonly<Record<string, string | undefined>>;

/** What git printed, or the first line of what it complained about. */
export type Printed = { readonly text: string } | { readonly failed: string };

/**
 * A hook is run with variables that name the repository that it belongs to, mostly by a path from
 * another folder. The studio's own repository is meant, so they must not stand.
 */
const NAMING_A_REPOSITORY: ReadonlySet<string> = new Set([
  'GIT_COMMON_DIR',
  'GIT_CONFIG',
  'GIT_DIR',
  'GIT_GRAFT_FILE',
  'GIT_IMPLICIT_WORK_TREE',
  'GIT_INDEX_FILE',
  'GIT_INTERNAL_SUPER_PREFIX',
  'GIT_LITERAL_PATHSPECS',
  'GIT_NAMESPACE',
  'GIT_PREFIX',
  'GIT_SHALLOW_FILE',
  'GIT_WORK_TREE',
]);

/** While a push is received its objects lie in a place that only these variables name. */
const OF_A_PUSH: readonly string[] = ['GIT_OBJECT_DIRECTORY', 'GIT_ALTERNATE_OBJECT_DIRECTORIES'];

/** The environment that git is run with: without another repository, in plain English, never asking. */
export function gitEnvironment(environment: Environment | undefined): Environment | undefined {
  if (environment === undefined) return undefined;
  const isReceiving = environment['GIT_QUARANTINE_PATH'] !== undefined;
  const kept = Object.entries(environment).filter(
    ([name]) => !NAMING_A_REPOSITORY.has(name) && (isReceiving || !OF_A_PUSH.includes(name)),
  );
  const ours = { LC_ALL: 'C', GIT_TERMINAL_PROMPT: '0', GIT_NO_LAZY_FETCH: '1' };
  return { ...Object.fromEntries(kept), ...ours };
}

// An object that is missing here must not be fetched, and no program of the repository's be run.
const SAFE = ['--no-optional-locks', '-c', 'core.fsmonitor=false', '-c', 'protocol.allow=never'];
const MOST_OUTPUT = 256 * 1024 * 1024;
const NO_GIT = 'git is not there';

/** Runs git and waits for it. Never throws. */
export function runGit({ folder, environment }: GitPlace, words: readonly string[]): Printed {
  const run = spawnSync('git', ['-C', folder, ...SAFE, ...words], {
    encoding: 'utf8',
    env: gitEnvironment(environment),
    stdio: ['ignore', 'pipe', 'pipe'],
    maxBuffer: MOST_OUTPUT,
  });
  if (run.status === 0) return { text: run.stdout };
  return { failed: run.error ? NO_GIT : complaint(run.stderr) };
}

/** What git printed; undefined where it complained. */
export function askGit(place: GitPlace, words: readonly string[]): string | undefined {
  const printed = runGit(place, words);
  return 'text' in printed ? printed.text : undefined;
}

/**
 * Runs git with an input, and hands over what it prints as it comes. False where it failed, whatever
 * came before that.
 */
export async function pipeGit(
  { folder, environment }: GitPlace,
  { words, input }: { readonly words: readonly string[]; readonly input: string },
  take: (chunk: Buffer) => void,
): Promise<boolean> {
  const child = spawn('git', ['-C', folder, ...SAFE, ...words], {
    env: gitEnvironment(environment),
    stdio: ['pipe', 'pipe', 'ignore'],
  });
  return new Promise((done) => {
    child.stdout.on('data', take);
    // Git may end before it has read all; its status says so.
    child.stdin.on('error', () => undefined).end(input);
    child.on('error', () => {
      done(false);
    });
    child.on('close', (status) => {
      done(status === 0);
    });
  });
}

function complaint(text: string): string {
  const [first = ''] = text.split('\n');
  return first.replace(/^(?:fatal|error): /, '');
}
