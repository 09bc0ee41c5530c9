/** Every command on a stranger's studio: no text of it reaches the terminal, or a program, raw. */
import { cpSync, mkdirSync, mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { emitRecord } from '../../src/write/emit.ts';
import { KINDS } from '../../src/book.ts';
import { COMMANDS, COMPLETE_WORDS } from '../../src/commands/catalogue.ts';
import { loadCommand } from '../../src/commands/load.ts';
import type { CommandSpec } from '../../src/commands/spec.ts';
import { run, type Said, type Told } from '../helpers/command-world.ts';
import { commitAll, git } from '../helpers/git.ts';
import {
  HOSTILE,
  HOSTILE_BRANCH,
  hostileFiles,
  hostileRecords,
  textFields,
} from '../helpers/hostile-studio.ts';
import { filesIn } from '../helpers/temp-studio.ts';
import { writeStudio } from '../helpers/write-studio.ts';
import { some } from '../helpers/tier.ts';
import { PAPER_KINDS } from '../../src/commands/paper-command.ts';

const ACTING = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;
const CSV_ENDS = /\r\n/g;

/** What acts in a text, but for the ends of its lines, and lines that a value has begun. */
function actingIn(text: string, isCsv = false): string[] {
  const lines = (isCsv ? text.replace(CSV_ENDS, '\n') : text).split('\n');
  return lines.filter((line) => ACTING.test(line) || line.startsWith('SPOOF'));
}

/** Studios in a folder of a hostile name: one that is sound, and one of which nothing is. */
const studios = { sound: '', unsound: '' };
let base = '';

beforeAll(() => {
  base = realpathSync(mkdtempSync(join(tmpdir(), 'saggar-hostile-')));
  for (const name of ['sound', 'unsound'] as const) {
    const { folder, remove } = writeStudio(hostileFiles(name === 'unsound'));
    studios[name] = join(base, name + HOSTILE);
    cpSync(folder, studios[name], { recursive: true });
    remove();
    git(studios[name], 'init', '-q');
    commitAll(studios[name], HOSTILE);
  }
  git(studios.sound, 'checkout', '-qb', HOSTILE_BRANCH);
  cpSync(`${studios.unsound}/sales`, `${studios.sound}/sales`, { recursive: true });
  commitAll(studios.sound, HOSTILE);
  git(studios.sound, 'checkout', '-q', '-');
});

afterAll(() => {
  rmSync(base, { recursive: true, force: true });
});

let copies = 0;

/** A copy of a studio that a command may change; git's folder is left out where there is to be none. */
function copyOf(name: keyof typeof studios, hasGit: boolean): string {
  const folder = join(base, `${String((copies += 1))}${HOSTILE}`);
  const filter = (path: string): boolean => hasGit || !path.endsWith('.git');
  cpSync(studios[name], folder, { recursive: true, filter });
  return folder;
}

async function said(spec: CommandSpec, folder: string, told: Told): Promise<Said> {
  return run(await loadCommand(spec.name), folder, told);
}

function specOf(name: string): CommandSpec {
  return COMMANDS.find((each) => each.name === name) ?? COMPLETE_WORDS;
}

function formatsOf({ options }: CommandSpec): readonly (string | undefined)[] {
  return options.find(({ flags }) => flags.startsWith('--as '))?.choices ?? [undefined];
}

/** One id for each of the kinds that the argument names, and none. */
function argumentsOf({ argument }: CommandSpec): readonly (readonly string[])[] {
  const { offers = [] } = argument ?? {};
  if (typeof offers === 'string') return [[]];
  const records = hostileRecords();
  const ids = offers.map((kind) => records.find((each) => each.kind === kind)?.id ?? '');
  return [[], ...ids.map((id) => [id])];
}

/** Commands of which each is gone through below; all others only look. */
const CHANGING = ['init', 'tidy', 'add', 'unload', 'gone', 'revise', 'amend', 'remove', 'export'];
const OTHERS = [
  ...['review', 'completion', 'help', 'man', 'forget', 'paper'],
  ...['take-in', 'match'],
];
const LOOKING = COMMANDS.filter(
  (spec) => ![...CHANGING, ...OTHERS].includes(spec.name) && formatsOf(spec).length > 1,
);

it('no command is forgotten here, nor any field that holds a text', () => {
  const names = [...LOOKING.map(({ name }) => name), ...CHANGING, ...OTHERS];
  expect(names.sort()).toEqual(COMMANDS.map(({ name }) => name).sort());
  const texts = textFields().filter((path) => path.split(' ').length === 2);
  const filled = hostileRecords(true).flatMap(({ kind, fields }) =>
    Object.entries(fields).flatMap(([name, raw]) =>
      typeof raw === 'string' && raw.endsWith(HOSTILE) ? [`${kind} ${name}`] : [],
    ),
  );
  expect(texts.filter((path) => !filled.includes(path))).toEqual([]);
  expect(new Set(hostileRecords().map(({ kind }) => kind))).toEqual(new Set(KINDS));
});

describe.each(['sound', 'unsound'] as const)('of a studio that is %s', (name) => {
  const looks = LOOKING.flatMap((spec) => formatsOf(spec).map((as) => [spec.name, as] as const));

  it.each(some(looks, 30))('%s --as %s shows nothing raw', async (command, as) => {
    const spec = specOf(command);
    const options = as === undefined ? {} : { as };
    for (const words of argumentsOf(spec)) {
      const { out, err } = await said(spec, studios[name], { words, options });
      expect(out + err).not.toBe('');
      expect(actingIn(out, as === 'csv')).toEqual([]);
      expect(actingIn(err)).toEqual([]);
    }
  });

  it.each(PAPER_KINDS)('the paper %s has nothing raw in it', async (kind) => {
    const records = hostileRecords(name === 'unsound');
    const ids = new Set(['sales', 'orders', 'consigned', 'channels', 'products', 'pieces']);
    const words = [...records.filter((each) => ids.has(each.kind)).map(({ id }) => id), HOSTILE];
    for (const word of some(words, 8))
      for (const options of [{}, { as: 'html' }, { number: true, series: 'A', dryRun: true }]) {
        const told = { words: [kind, word], options };
        const { out, err } = await said(specOf('paper'), studios[name], told);
        expect(out + err).not.toBe('');
        expect(actingIn(out + err)).toEqual([]);
      }
  });

  it('what was shown before is shown again as it was', async () => {
    const told = { options: { as: 'text' } };
    const first = await said(specOf('day'), studios[name], told);
    expect(await said(specOf('day'), studios[name], told)).toEqual(first);
  });

  it('completion is given words that it can put on the line', async () => {
    for (const words of [
      [''],
      ['amend', ''],
      ['amend', 's260401ab', 'buyer='],
      ['materials', ''],
    ]) {
      const { out, err } = await said(COMPLETE_WORDS, studios[name], { words: ['--', ...words] });
      expect(actingIn(out.replaceAll('\t', ' ') + err)).toEqual([]);
    }
  });

  it('no record is removed, and none amended, with a raw word', async () => {
    const folders = [copyOf(name, false), copyOf(name, true)];
    const records = hostileRecords(name === 'unsound');
    const one = KINDS.map((kind) => records.find((each) => each.kind === kind)!);
    for (const { kind, id, fields } of some(one, 8)) {
      const isText = (path: string): boolean =>
        path.startsWith(`${kind} `) && !path.includes('why');
      const [text = ''] = textFields()
        .filter(isText)
        .map((path) => path.split(' ')[1] ?? '');
      const change = `${text}=${text in fields ? 'plain' : HOSTILE}`;
      for (const [at, folder] of folders.entries()) {
        const options = { dryRun: at === 1, studio: folder };
        const told = { words: [id, change], options, from: base };
        const amended = await said(specOf('amend'), folder, told);
        expect(actingIn(amended.out + amended.err)).toEqual([]);
        const gone = { words: [id], options: { dryRun: at === 0, evenIfUsed: true } };
        const removed = await said(specOf('remove'), folder, gone);
        expect(actingIn(removed.out + removed.err)).toEqual([]);
      }
    }
  });

  it('the other commands that write say nothing raw, nor does what an export holds', async () => {
    const folder = copyOf(name, true);
    const tell = async (command: string, told: Told): Promise<void> => {
      const { out, err } = await said(specOf(command), folder, told);
      expect(out + err).not.toBe('');
      expect(actingIn(out + err)).toEqual([]);
    };
    await tell('unload', { options: { line: ['6 first'], dryRun: true } });
    await tell('unload', { options: { line: ['6 first', HOSTILE] } });
    await tell('unload', { words: [HOSTILE], options: { peak: HOSTILE } });
    await tell('gone', { words: [HOSTILE], options: { why: 'gift', note: HOSTILE } });
    await tell('gone', { words: ['1 mug'], options: { why: 'gift', note: HOSTILE } });
    await tell('revise', { words: [HOSTILE, HOSTILE] });
    for (const { id } of hostileRecords().filter(({ kind }) => kind === 'recipes'))
      await tell('revise', { words: [id, 'kaolin 3', HOSTILE], options: { note: HOSTILE } });
    await tell('tidy', { options: { dryRun: true } });
    await tell('tidy', {});
    await tell('forget', {});
    await tell('init', { words: [`new${HOSTILE}`], options: { name: HOSTILE } });
    await tell('init', {
      words: [`new${HOSTILE}`],
      options: { with: 'hooks,workflow,editor' },
    });
    await tell('init', { words: [HOSTILE], options: { with: HOSTILE } });
    await tell('export', { words: [`out${HOSTILE}`], options: { archive: `zip${HOSTILE}.zip` } });
    await tell('export', { words: [`sales/${HOSTILE}`] });
    const exported = Object.entries(filesIn(join(folder, `out${HOSTILE}`)));
    expect(exported.length).toBeGreaterThan(50);
    for (const [file, text] of exported)
      expect([file, ...actingIn(text, file.endsWith('.csv'))]).toEqual([file]);
  });
});

let added = '';

it.each(KINDS)('a record of %s is added, or given back, with no raw word', async (kind) => {
  added ||= copyOf('sound', true);
  const folder = added;
  for (const isSound of [true, false]) {
    const fields = hostileRecords(!isSound).find((each) => each.kind === kind)?.fields ?? {};
    for (const [id, dryRun] of [
      [`x-${kind}`, true],
      [`x-${kind}`, false],
      [HOSTILE, false],
    ] as const) {
      const told = { words: [kind], options: { dryRun }, input: emitRecord(id, fields) };
      const { out, err } = await said(specOf('add'), folder, told);
      expect(out + err).not.toBe('');
      expect(actingIn(out + err)).toEqual([]);
    }
  }
});

it.each(['text', 'json', 'markdown'])(
  'a review of hostile branches says nothing raw as %s',
  async (as) => {
    const folder = studios.sound;
    for (const words of [[HOSTILE_BRANCH], [`HEAD..${HOSTILE_BRANCH}`], [HOSTILE, HOSTILE], []]) {
      const { out, err } = await said(specOf('review'), folder, { words, options: { as } });
      expect(out + err).not.toBe('');
      expect(actingIn(out + err)).toEqual([]);
    }
    const at = await said(specOf('check'), folder, { options: { at: HOSTILE_BRANCH } });
    expect(at.status).toBe(1);
    expect(actingIn(at.out + at.err)).toEqual([]);
  },
);

it('what is the same for every studio has nothing raw in it', async () => {
  mkdirSync(join(base, 'empty'));
  for (const [name, words] of [
    ['man', []],
    ['help', []],
    ['help', ['add', 'sales']],
    ['completion', ['bash']],
    ['completion', ['zsh']],
  ] as const) {
    const { out } = await said(specOf(name), join(base, 'empty'), { words });
    expect(actingIn(out)).toEqual([]);
  }
});
