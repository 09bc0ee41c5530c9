/** What a review says moves is what all reports show, asked of two real checkouts and subtracted. */
import fc from 'fast-check';
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { KINDS } from '../../src/book.ts';
import { quartersOf, type TaxPeriod } from '../../src/reckon/tax/tax-period.ts';
import { INCOME_GROUPS, LOSS_GROUPS, OVERHEAD_BASES, PIECES_GROUPS } from '../../src/groups.ts';
import { addDays, earlierDay, type Day } from '../../src/number/date.ts';
import type { RawMap } from '../../src/read/raw.ts';
import { git, inGit } from '../helpers/git.ts';
import { holds } from '../helpers/law.ts';
import { runSaggar } from '../helpers/program.ts';
import { randomSource } from '../helpers/random-source.js';
import { growStudio, studioPlan, type RandomStudio } from '../helpers/random-studio.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { withStudio } from '../helpers/write-studio.ts';
import { PLAIN_STYLE, yamlText } from '../helpers/yaml-text.js';
import { FIRST_DAY } from './support/days.ts';
import { randomEdit, type RandomEdit } from './support/random-edits.ts';
import {
  figuresApart,
  figuresIn,
  figureText,
  type ReportDocument,
} from './support/second-review.ts';

/** A report as it is asked for on the command line, and the name that the review gives it. */
interface AskedReport {
  /** Report, grouping and period. */
  readonly name: string;
  readonly words: readonly string[];
  readonly options: Readonly<Record<string, string | true>>;
}

/** Runs the program in a folder; undefined where it refuses. */
type Ask = (folder: string, report: Omit<AskedReport, 'name'>) => Promise<string | undefined>;

const inProcess: Ask = async (folder, { words: [name = '', argument], options }) => {
  const { status, out } = await runCommand(name, options, {
    folder,
    ...(argument === undefined ? {} : { argument }),
  });
  return status === 2 ? undefined : out;
};

const byProgram: Ask = async (folder, { words, options }) => {
  const flags = Object.entries(options).flatMap(([key, value]) => {
    const flag = `--${key.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
    return value === true ? [flag] : [flag, value];
  });
  const { status, out } = await runSaggar([...words, ...flags], { folder });
  return status === 2 ? undefined : out;
};

function reportsOfQuarter({ name, from, ...period }: TaxPeriod, asOf: Day): AskedReport[] {
  const to = earlierDay(period.to, asOf);
  return [
    ...INCOME_GROUPS.map((by) => ({
      name: `income|${by}|${name}`,
      words: ['income'],
      options: { by, from, to: period.to },
    })),
    ...LOSS_GROUPS.map((by) => ({
      name: `losses|${by}|${name}`,
      words: ['losses'],
      options: { by, from, to },
    })),
    { name: `firings||${name}`, words: ['firings'], options: { from, to } },
    { name: `materials|where|${name}`, words: ['materials'], options: { where: true, from, to } },
  ];
}

const AT_THE_END: readonly AskedReport[] = [
  ...['materials', 'galleries', 'recipes', 'kilns', 'fairs', 'day'].map((name) => {
    return { name: `${name}||`, words: [name], options: {} };
  }),
  { name: 'orders||', words: ['orders'], options: { all: true } },
  { name: 'losses|firing|', words: ['losses'], options: { by: 'firing' } },
  ...PIECES_GROUPS.map((by) => ({ name: `pieces|${by}|`, words: ['pieces'], options: { by } })),
  ...OVERHEAD_BASES.map((by) => {
    return { name: `costs|${by}|`, words: ['costs'], options: { overheadBy: by } };
  }),
];

/** The tax summary, on the studio's own basis and on each that is named. */
function summaries(name: string, bases: readonly string[]): AskedReport[] {
  const words = ['quarter', name];
  return [
    { name: `quarter||${name}`, words, options: {} },
    ...bases.map((basis) => ({ name: `quarter|${basis}|${name}`, words, options: { basis } })),
  ];
}

/** Every report of a studio whose year begins on that day, for all quarters in which it has something. */
function reportsOf({ asOf, yearStarts, bases }: Asked): AskedReport[] {
  const first = addDays(FIRST_DAY, -100);
  const years = ['2024', '2025', '2026'];
  const quarters = years
    .flatMap((year) => quartersOf(year, yearStarts))
    .filter(({ from, to }) => to >= first && from <= asOf);
  const whole = years.filter((year) => quarters.some((each) => each.year === year));
  return [
    ...[...quarters.map(({ name }) => name), ...whole].flatMap((name) => summaries(name, bases)),
    ...quarters.flatMap((each) => reportsOfQuarter(each, asOf)),
    ...AT_THE_END,
  ];
}

/** What the reports of a checkout are asked with. */
interface Asked {
  readonly asOf: Day;
  readonly yearStarts: string | undefined;
  readonly bases: readonly string[];
}

async function figuresOf(ask: Ask, folder: string, asked: Asked): Promise<Map<string, string>> {
  const figures: (readonly [string, string])[] = [];
  for (const { name, words, options } of reportsOf(asked)) {
    const out = await ask(folder, { words, options: { ...options, asOf: asked.asOf, as: 'json' } });
    if (out !== undefined) figures.push(...figuresIn(name, JSON.parse(out) as ReportDocument));
  }
  return new Map(figures);
}

interface ReviewFigure {
  readonly report: string;
  readonly by: string;
  readonly period: string;
  readonly row: string;
  readonly column: string;
  readonly before: string | null;
  readonly after: string | null;
}

async function told(ask: Ask, folder: string, asOf: Day): Promise<string[]> {
  const out = await ask(folder, { words: ['review', 'main'], options: { asOf, as: 'json' } });
  const { figures } = JSON.parse(out ?? '') as { readonly figures: readonly ReviewFigure[] };
  return figures
    .map(({ report, by, period, row, column, before, after }) => {
      const [was, is] = [before, after].map((figure) => figureText(figure ?? ''));
      return `${report}|${by}|${period}|${row}|${column}: ${was ?? ''} → ${is ?? ''}`;
    })
    .sort();
}

type Records = Pick<RandomStudio, 'settings' | 'records'>;

/** A file a kind. */
function filesOf({ settings, records }: Records): Record<string, string> {
  const kinds = KINDS.filter((kind) => Object.keys(records[kind]).length > 0);
  return Object.fromEntries([
    ['studio.yaml', yamlText(settings as never, PLAIN_STYLE)],
    ...kinds.map((kind) => [`${kind}.yaml`, yamlText(records[kind] as never, PLAIN_STYLE)]),
  ]) as Record<string, string>;
}

function edited({ settings, records }: Records, { kind, id, after }: RandomEdit): Records {
  if (kind === 'studio') return { settings: after ?? {}, records };
  const others = Object.entries(records[kind]).filter(([each]) => each !== id);
  const own = Object.fromEntries([...others, ...(after ? [[id, after] as const] : [])]);
  return { settings, records: { ...records, [kind]: own } };
}

function basisOf({ basis }: RawMap): unknown {
  return basis ?? 'cash';
}

/** Writes the files of a changed studio over those of a checkout. */
function change(folder: string, before: Records, after: Records): void {
  for (const file of Object.keys(filesOf(before))) rmSync(join(folder, file));
  for (const [file, text] of Object.entries(filesOf(after)))
    writeFileSync(join(folder, file), text);
}

interface Checkouts {
  readonly base: string;
  readonly branch: string;
}

/** A studio in a repository, and a worktree of a branch beside it. */
async function inCheckouts<T>(
  studio: RandomStudio,
  use: (checkouts: Checkouts) => Promise<T>,
): Promise<T> {
  return withStudio(filesOf(studio), async (base) => {
    inGit(base);
    git(base, 'branch', '-M', 'main');
    return withStudio({}, (beside) => {
      const branch = join(beside, 'branch');
      git(base, 'worktree', 'add', '-q', '-b', 'change', branch);
      return use({ base, branch });
    });
  });
}

/** What the review says of a change, and what the reports of both checkouts do. */
async function bothWays(
  ask: Ask,
  studio: RandomStudio,
  edits: readonly RandomEdit[],
): Promise<[string[], string[]]> {
  const after = edits.reduce<Records>(edited, studio);
  const what = edits.map((edit) => edit.what).join(', ');
  const [was, is] = [studio, after].map(({ settings }) => basisOf(settings));
  const bases = was === is ? [is === 'cash' ? 'accrual' : 'cash'] : [];
  const asked = ({ settings }: Records): Asked => {
    const starts = settings['year-starts'];
    return {
      asOf: studio.asOf,
      bases,
      yearStarts: typeof starts === 'string' ? starts : undefined,
    };
  };
  return inCheckouts(studio, async ({ base, branch }) => {
    change(branch, studio, after);
    const before = await figuresOf(ask, base, asked(studio));
    const now = await figuresOf(ask, branch, asked(after));
    return [
      [what, ...(await told(ask, branch, studio.asOf))],
      [what, ...figuresApart(before, now)],
    ];
  });
}

function law(ask: Ask, days: number) {
  return fc.asyncProperty(studioPlan({ days }), fc.noShrink(fc.nat()), async (plan, seed) => {
    const studio = growStudio(plan);
    const random = randomSource(seed, 'checkouts');
    const edits = [1, 2, 3, 4].flatMap(() => randomEdit(studio, random) ?? []);
    const [says, found] = await bothWays(ask, studio, edits);
    expect(says).toEqual(found);
  });
}

it('is what the commands say in two worktrees', () =>
  holds(law(inProcess, 40), 3, { long: 300, endOnFailure: true }));

it('is what the program prints in two worktrees', () =>
  holds(law(byProgram, 20), 1, { long: 10, endOnFailure: true }));
