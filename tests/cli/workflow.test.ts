/** The workflow that init makes: what it may do, and what its steps do in a real shell. */
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { MARKER } from '../../src/render/review/markdown.ts';
import { git, inGit } from '../helpers/git.ts';
import { builtProgram } from '../helpers/program.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const PROGRAM = join(import.meta.dirname, '../../bin/saggar.js');

interface Step {
  readonly name?: string;
  readonly uses?: string;
  readonly run?: string;
  readonly with?: Readonly<Record<string, unknown>>;
  readonly env?: Readonly<Record<string, string>>;
}

interface Workflow {
  readonly permissions: unknown;
  readonly env: Readonly<Record<string, string>>;
  readonly jobs: {
    readonly book: { readonly permissions: unknown; readonly steps: readonly Step[] };
  };
}

async function workflow(): Promise<Workflow> {
  const folder = inGit(tempStudio({ 'studio.yaml': 'format: 1\nname: x\ncurrency: USD\n' }));
  await runCommand('init', { with: 'workflow' }, { argument: '.', folder });
  return parse(readFileSync(join(folder, '.github/workflows/saggar.yml'), 'utf8')) as Workflow;
}

async function stepNamed(name: string): Promise<Step> {
  const found = (await workflow()).jobs.book.steps.find((step) => step.name === name);
  if (!found) throw new Error(`no step ${name}`);
  return found;
}

describe('the workflow', () => {
  it('may read the book and write the comment, and nothing else', async () => {
    const { permissions, jobs } = await workflow();
    expect(permissions).toEqual({ contents: 'read' });
    expect(jobs.book.permissions).toEqual({ contents: 'read', 'pull-requests': 'write' });
  });

  it('uses actions of the host alone, and checks out all commits without leaving a key', async () => {
    const { jobs } = await workflow();
    const uses = jobs.book.steps.flatMap((step) => step.uses ?? []);
    expect(uses).toEqual([
      expect.stringMatching(/^actions\/checkout@[0-9a-f]{40}$/),
      expect.stringMatching(/^actions\/setup-node@[0-9a-f]{40}$/),
    ]);
    const [checkout] = jobs.book.steps;
    expect(checkout?.with).toEqual({ 'fetch-depth': 0, 'persist-credentials': false });
  });

  it('puts nothing from a pull request into a script but by its environment', async () => {
    const { jobs } = await workflow();
    for (const { run = '' } of jobs.book.steps) expect(run).not.toContain('${{');
  });
});

/** A folder with programs that note what they are called with, and answer what they are told to. */
function stage(programs: Readonly<Record<string, string>>): string {
  const folder = tempStudio({});
  mkdirSync(join(folder, 'bin'));
  for (const [name, script] of Object.entries(programs)) {
    writeFileSync(join(folder, 'bin', name), `#!/bin/sh\n${script}\n`);
    chmodSync(join(folder, 'bin', name), 0o755);
  }
  return folder;
}

/** Runs a step as the runner does. */
function runStep(folder: string, { run = '' }: Step, env: Record<string, string> = {}) {
  const { PATH = '' } = process.env;
  const fromRunner = {
    PATH: [join(folder, 'bin'), PATH].join(delimiter),
    RUNNER_TEMP: folder,
    GITHUB_STEP_SUMMARY: join(folder, 'summary.md'),
    STUDIO: 'my studio',
  };
  const how = ['--noprofile', '--norc', '-eo', 'pipefail', '-c', run];
  const { status, stdout } = spawnSync('bash', how, {
    cwd: folder,
    encoding: 'utf8',
    env: { ...fromRunner, ...env },
  });
  const noted = (name: string): string => readFileSync(join(folder, name), 'utf8');
  return { status, stdout, noted };
}

const NAMES = { BASE: 'main', BRANCH: 'fair' };

function spent(id: string, to: string): string {
  return `${id}:\n  date: 2026-05-01\n  to: ${to}\n  for: tools\n  amount: 5\n`;
}

type StudioFiles = Readonly<Record<string, string>>;

/** What a runner checks out: the merge of a branch with a base that has moved since the branch left it. */
function merged(
  folder: string,
  files: Partial<Readonly<Record<'Begin' | 'Base' | 'Branch', StudioFiles>>>,
): string {
  const commit = (name: keyof typeof files, day: string): void => {
    for (const [file, text] of Object.entries(files[name] ?? {})) {
      mkdirSync(join(folder, 'my studio', file, '..'), { recursive: true });
      writeFileSync(join(folder, 'my studio', file), text);
    }
    git(folder, 'add', '-A', 'my studio');
    git(folder, 'commit', '-q', '--allow-empty', '-m', name);
    const amend = ['commit', '-q', '--amend', '--allow-empty', '--no-edit'];
    const env = { ...process.env, GIT_COMMITTER_DATE: `${day}T12:00:00Z` };
    const who = ['-c', 'user.name=Test', '-c', 'user.email=test@example.org'];
    spawnSync('git', [...who, ...amend], { cwd: folder, env });
  };
  git(folder, 'init', '-q', '-b', 'start');
  mkdirSync(join(folder, 'my studio'));
  writeFileSync(join(folder, 'my studio/studio.yaml'), 'format: 1\nname: x\ncurrency: USD\n');
  commit('Begin', '2026-05-01');
  git(folder, 'checkout', '-qb', 'theirs');
  commit('Branch', '2026-05-02');
  git(folder, 'checkout', '-q', 'start');
  commit('Base', '2026-05-03');
  git(folder, 'merge', '-q', '--no-ff', '--no-edit', 'theirs');
  git(folder, 'checkout', '-q', '--detach');
  git(folder, 'branch', '-D', '-q', 'start', 'theirs');
  return folder;
}

/** The first line of a comment, by which it is known among those of other studios. */
const OWN = '<!-- book in my studio -->';

const NOTE = 'printf "%s\\n" "$*" >> "$RUNNER_TEMP/calls"';

describe('the steps of the workflow', () => {
  it('say so where saggar is missing', async () => {
    const step = await stepNamed('See that saggar is there');
    const found = runStep(stage({ saggar: '' }), step);
    expect(found.status).toBe(0);
    const lost = runStep(stage({}), step, { PATH: '/usr/bin:/bin' });
    expect(lost.status).toBe(1);
    expect(lost.stdout).toContain('::error::saggar is not on the PATH');
  });

  it('check the book as annotations', async () => {
    const step = await stepNamed('Check the book');
    const { status, noted } = runStep(stage({ saggar: `${NOTE}; exit 1` }), step);
    expect(status).toBe(1);
    expect(noted('calls')).toBe('check --studio my studio --as annotations\n');
  });

  it.each([0, 1])('review a pull request, and end with its status %i', async (ending) => {
    const folder = merged(
      stage({ saggar: `${NOTE}; echo "# Review"; exit ${String(ending)}` }),
      {},
    );
    const step = await stepNamed('Review the changes');
    const { status, noted } = runStep(folder, step, NAMES);
    expect(status).toBe(ending);
    const common = 'review refs/base/heads/main refs/branch/heads/fair --studio my studio --as-of';
    expect(noted('calls')).toBe(
      `${common} 2026-05-03 --as markdown\n${common} 2026-05-03 --as annotations\n`,
    );
    expect(noted('review.md')).toBe(`${OWN}\n# Review\n`);
    expect(noted('summary.md')).toBe(`${OWN}\n# Review\n`);
  });

  it('review what a branch brings to a base that has moved, as of the day of its last commit', async () => {
    await builtProgram();
    const folder = merged(stage({ saggar: `exec "${process.execPath}" "${PROGRAM}" "$@"` }), {
      Begin: { 'wrong.yaml': 'x: 1\n', 'used.yaml': 'u1: {}\n' },
      Base: { 'spent/base.yaml': spent('e1', 'Pit') },
      Branch: { 'spent/branch.yaml': spent('e2', 'Well').replace('tools', 'tolls') },
    });
    const step = await stepNamed('Review the changes');
    const { status, stdout, noted } = runStep(folder, step, NAMES);
    expect(status).toBe(1);
    const comment = noted('review.md');
    expect(comment.startsWith(`${OWN}\n${MARKER}\n`)).toBe(true);
    expect(comment).toContain('main → fair merged into main · as of 2026-05-03');
    expect(comment).toContain('e2');
    expect(comment).not.toContain('e1');
    // Every line that is marked is one of the branch, and the comment has it too.
    expect(stdout.match(/^::.*$/gm)).toEqual([
      expect.stringMatching(
        /^::error file=my studio\/spent\/branch\.yaml,line=4,title=unknown-reference::/,
      ),
    ]);
    expect(comment).toContain('1 new error');
  });

  it('review a branch of a copy that is called like the base', async () => {
    await builtProgram();
    const folder = merged(stage({ saggar: `exec "${process.execPath}" "${PROGRAM}" "$@"` }), {
      Branch: { 'spent/branch.yaml': spent('e2', 'Well') },
    });
    git(folder, 'tag', 'main', 'HEAD^2');
    const step = await stepNamed('Review the changes');
    const { status, noted } = runStep(folder, step, { BASE: 'main', BRANCH: 'main' });
    expect(status).toBe(0);
    expect(noted('review.md')).toContain('1 record added');
  });

  const COMMENTING = { REPOSITORY: 'potter/book', NUMBER: '7', GH_TOKEN: 'x' };

  it.each([
    ['a new comment', '', '--method POST repos/potter/book/issues/7/comments'],
    ['its own comment of before', '12\n34', '--method PATCH repos/potter/book/issues/comments/12'],
  ])('write the review into %s', async (_, ids, call) => {
    const gh = `${NOTE}; case $* in *--paginate*) printf '%s' '${ids}' ;; esac`;
    const folder = stage({ gh });
    writeFileSync(join(folder, 'review.md'), `${OWN}\n${MARKER}\n# Review\n`);
    const step = await stepNamed('Comment on the pull request');
    const { status, noted } = runStep(folder, step, COMMENTING);
    expect(status).toBe(0);
    const calls = noted('calls').trim();
    expect(calls).toMatch(/^api --paginate repos\/potter\/book\/issues\/7\/comments --jq /);
    expect(calls).toContain('startswith("<!-- book in " + env.STUDIO + " -->")');
    expect(calls.split('\n').at(-1)).toBe(`api --silent ${call} -F body=@${folder}/review.md`);
  });

  it('write no comment where the review gave nothing or comments can not be read', async () => {
    const step = await stepNamed('Comment on the pull request');
    const empty = stage({ gh: NOTE });
    writeFileSync(join(empty, 'review.md'), `${OWN}\n`);
    expect(runStep(empty, step, COMMENTING).status).toBe(1);
    const failing = stage({ gh: `${NOTE}; exit 4` });
    writeFileSync(join(failing, 'review.md'), `${OWN}\n${MARKER}\nx\n`);
    const { status, noted } = runStep(failing, step, COMMENTING);
    expect(status).not.toBe(0);
    expect(noted('calls')).not.toContain('POST');
  });
});
