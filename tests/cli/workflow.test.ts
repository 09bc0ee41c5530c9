/** The workflow that init makes: what it may do, and what its steps do in a real shell. */
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { MARKER } from '../../src/render/review/markdown.ts';
import { commitAll, git, inGit } from '../helpers/git.ts';
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
      expect.stringMatching(/^actions\/checkout@v\d+$/),
      expect.stringMatching(/^actions\/setup-node@v\d+$/),
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
    const folder = stage({ saggar: `${NOTE}; echo "# Review"; exit ${String(ending)}` });
    const step = await stepNamed('Review the changes');
    const { status, noted } = runStep(folder, step, { BASE: 'abc' });
    expect(status).toBe(ending);
    expect(noted('calls')).toBe('review abc --studio my studio --as markdown\n');
    expect(noted('review.md')).toBe('# Review\n');
    expect(noted('summary.md')).toBe('# Review\n');
  });

  it('review a real branch, with the mark by which the comment is found again', async () => {
    await builtProgram();
    const folder = stage({ saggar: `exec "${process.execPath}" "${PROGRAM}" "$@"` });
    const studio = join(folder, 'my studio');
    mkdirSync(studio);
    writeFileSync(join(studio, 'studio.yaml'), 'format: 1\nname: x\ncurrency: USD\n');
    inGit(folder);
    const base = git(folder, 'rev-parse', 'HEAD').trim();
    const spent = 'e1:\n  date: 2026-05-01\n  to: Pit\n  for: tools\n  amount: 5\n';
    writeFileSync(join(studio, 'spent.yaml'), spent);
    commitAll(folder, 'Spend');
    const step = await stepNamed('Review the changes');
    const { status, noted } = runStep(folder, step, { BASE: base });
    expect(status).toBe(0);
    expect(noted('review.md').startsWith(`${MARKER}\n`)).toBe(true);
    expect(noted('review.md')).toContain('e1');
    expect((await stepNamed('Comment on the pull request')).run).toContain(
      `startswith("${MARKER}")`,
    );
  });

  const COMMENTING = { REPOSITORY: 'potter/book', NUMBER: '7', GH_TOKEN: 'x' };

  it.each([
    ['a new comment', '', '--method POST repos/potter/book/issues/7/comments'],
    ['its own comment of before', '12\n34', '--method PATCH repos/potter/book/issues/comments/12'],
  ])('write the review into %s', async (_, ids, call) => {
    const gh = `${NOTE}; case $* in *--paginate*) printf '%s' '${ids}' ;; esac`;
    const folder = stage({ gh });
    writeFileSync(join(folder, 'review.md'), `${MARKER}\n# Review\n`);
    const step = await stepNamed('Comment on the pull request');
    const { status, noted } = runStep(folder, step, COMMENTING);
    expect(status).toBe(0);
    const calls = noted('calls').trim();
    expect(calls).toMatch(/^api --paginate repos\/potter\/book\/issues\/7\/comments --jq /);
    expect(calls).toContain(`startswith("${MARKER}")`);
    expect(calls.split('\n').at(-1)).toBe(`api --silent ${call} -F body=@${folder}/review.md`);
  });

  it('write no comment where the review gave nothing or comments can not be read', async () => {
    const step = await stepNamed('Comment on the pull request');
    const empty = stage({ gh: NOTE });
    writeFileSync(join(empty, 'review.md'), '');
    expect(runStep(empty, step, COMMENTING).status).toBe(1);
    const failing = stage({ gh: `${NOTE}; exit 4` });
    writeFileSync(join(failing, 'review.md'), 'x\n');
    const { status, noted } = runStep(failing, step, COMMENTING);
    expect(status).not.toBe(0);
    expect(noted('calls')).not.toContain('POST');
  });
});
