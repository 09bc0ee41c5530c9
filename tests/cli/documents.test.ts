/** What the pages for people show as typed and printed is what the program prints. */
import { appendFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { check } from '../../src/commands/review/check.ts';
import { run } from '../helpers/command-world.ts';
import { git, inGit, mergeBranches } from '../helpers/git.ts';
import {
  EXAMPLE_DAY,
  builtProgram,
  copyDemo,
  demoCopy,
  emptyFolder,
  runShell,
} from '../helpers/program.ts';

const ROOT = resolve(import.meta.dirname, '../..');
function textOf(page: string): string {
  return readFileSync(join(ROOT, page), 'utf8');
}

interface Sample {
  readonly page: string;
  /** As it is typed. */
  readonly command: string;
  /** What is shown of it; a line of `…` stands for any lines. */
  readonly shown: readonly string[];
}

/** What a page shows as typed and printed. */
function samplesOf(page: string): Sample[] {
  const blocks = [...textOf(page).matchAll(/^```console\n([^]*?)^```$/gm)];
  return blocks
    .flatMap(([, block = '']) => block.split(/^\$ /m).slice(1))
    .map((each) => {
      const [command = '', ...shown] = each.trimEnd().split('\n');
      return { page, command, shown };
    });
}

const SAMPLES = ['README.md', 'example-studio/README.md', 'schema/for-git/README.md'].flatMap(
  samplesOf,
);

/** The lines with `…` filled in by what is printed there; from where they part they are as they are. */
function filledIn(shown: readonly string[], printed: readonly string[]): string[] {
  const [first = [], ...others] = parts(shown);
  const filled = [...first];
  for (const part of others) {
    const is = (at: number): boolean => part.every((line, index) => printed[at + index] === line);
    const end = part.length === 0 || part === others.at(-1) ? printed.length - part.length : -1;
    let at = end < 0 ? filled.length : end;
    while (at < printed.length && !is(at)) at++;
    filled.push(...printed.slice(filled.length, at), ...part);
  }
  return filled;
}

/** The stretches of lines between those of `…`. */
function parts(shown: readonly string[]): string[][] {
  return shown.reduce<string[][]>(
    (all, line) =>
      line === '…' ? [...all, []] : [...all.slice(0, -1), [...(all.at(-1) ?? []), line]],
    [[]],
  );
}

function change(folder: string, file: string, [from, to]: readonly [string, string]): void {
  const text = readFileSync(join(folder, file), 'utf8');
  expect(text).toContain(from);
  writeFileSync(join(folder, file), text.replace(from, to));
}

/** Takes two lost pieces for sound ones, on a branch. */
function edited(): string {
  const folder = inGit(demoCopy());
  git(folder, 'checkout', '-qB', 'main');
  change(folder, 'firings/2026/f260511cq.yaml', [
    'in: 17, first: 15, lost: 2, why: { cracked: 2 }',
    'in: 17, first: 17',
  ]);
  return folder;
}

const SALES = 'sales/2026-06.yaml';

/** A merge of two branches that say when the same sale was paid, and each add a sale of their own. */
async function merged(): Promise<string> {
  const folder = inGit(demoCopy());
  git(folder, 'config', 'merge.conflictStyle', 'diff3');
  const sale = (day: string, id: string, line: string) => (): Promise<void> => {
    change(folder, SALES, ['MH-2606\n  paid: no', `MH-2606\n  paid: ${day}`]);
    const added = `\n${id}:\n  date: 2026-06-30\n  channel: door\n  lines:\n    - { ${line} }\n`;
    appendFileSync(join(folder, SALES), added);
    return Promise.resolve();
  };
  const isMerged = await mergeBranches(folder, {
    ours: sale(
      '2026-07-02',
      's260630ma',
      'product: tumbler, glaze: river-blue, count: 1, price: 34',
    ),
    other: 'fair',
    theirs: sale('2026-07-03', 's260630fa', 'product: mug, glaze: oatmeal, count: 1, price: 38'),
  });
  expect(isMerged).toBe(false);
  return folder;
}

let plain = '';

/** Where the command is run as the page says. */
async function placeOf(page: string, command: string): Promise<string> {
  if (command === 'saggar review main') return edited();
  return command === 'saggar check' && page.includes('for-git') ? merged() : plain;
}

describe('what is shown as typed and printed', () => {
  beforeAll(async () => {
    await builtProgram();
    plain = mkdtempSync(join(tmpdir(), 'saggar-shown-'));
    copyDemo(plain);
    inGit(plain);
  });
  afterAll(() => {
    rmSync(plain, { recursive: true, force: true });
  });

  it.each(SAMPLES.filter(({ command }) => !command.startsWith('git')))(
    '$page: $command',
    async ({ page, command, shown }) => {
      const folder = await placeOf(page, command);
      const { out } =
        command === 'saggar check'
          ? await run(check, folder, { options: { asOf: EXAMPLE_DAY }, isTerminal: true })
          : await runShell(['sh', '-c'], `${command} --as-of ${EXAMPLE_DAY}`, { folder });
      const printed = out.trimEnd().split('\n');
      expect(printed).toEqual(filledIn(shown, printed));
    },
  );

  it('are many', () => {
    expect(SAMPLES.length).toBeGreaterThan(10);
  });

  it('a line that is not printed is seen', () => {
    expect(filledIn(['a', '…', 'd'], ['a', 'b', 'c', 'd'])).toEqual(['a', 'b', 'c', 'd']);
    expect(filledIn(['a', '…'], ['b', 'c'])).not.toEqual(['b', 'c']);
    expect(filledIn(['…', 'x', 'd'], ['a', 'd'])).not.toEqual(['a', 'd']);
  });
});

describe('README.md', () => {
  it('begins a studio as it says', async () => {
    const folder = emptyFolder();
    const typed = /## Your own studio\n+((?: {4}.*\n)+)/.exec(textOf('README.md'))?.[1] ?? '';
    const { status, out, err } = await runShell(['sh', '-e', '-c'], typed, { folder });
    expect([status, err]).toEqual([0, '']);
    expect(out).toMatch(/bought +b\w+ +100\.00/);
  });

  it('has records that are sound', async () => {
    const folder = emptyFolder();
    const [, block = ''] = /```yaml\n(# materials[^]*?)```/.exec(textOf('README.md')) ?? [];
    const files = block.split(/^# (\w+\.yaml).*\n/m).slice(1);
    expect(files.length).toBeGreaterThan(10);
    writeFileSync(join(folder, 'studio.yaml'), 'format: 1\nname: Mine\ncurrency: USD\n');
    files.forEach((file, at) => {
      if (at % 2 === 0) writeFileSync(join(folder, file), files[at + 1] ?? '');
    });
    const ran = await runShell(['sh', '-c'], `saggar check --strict --as-of ${EXAMPLE_DAY}`, {
      folder,
    });
    expect(ran).toMatchObject({ status: 0, out: 'No problems found.\n' });
  });
});
