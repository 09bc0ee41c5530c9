import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { demoCopy, EXAMPLE, runSaggar } from '../helpers/program.ts';

const TODAY = ['--as-of', '2026-06-30'];

const general = await runSaggar(['--help']);

describe('help', () => {
  it.each([[['-h']], [['help']], [['help', '--quiet']]])(
    '%j is the help on everything',
    async (args) => {
      expect(await runSaggar(args)).toEqual(general);
    },
  );

  it.each([
    [
      ['help', 'losses'],
      ['losses', '--help'],
    ],
    [
      ['losses', '-h'],
      ['losses', '--help'],
    ],
    [
      ['help', 'add'],
      ['add', '--help'],
    ],
    [
      ['help', 'add', 'sales'],
      ['add', 'sales', '--help'],
    ],
    [
      ['add', 'sales', '-h'],
      ['add', 'sales', '--help'],
    ],
  ])('%j is the same as %j', async (args, other) => {
    const [one, two] = [await runSaggar(args), await runSaggar(other)];
    expect(one).toEqual(two);
    expect(one).toMatchObject({ status: 0, err: '' });
  });

  it.each([
    [['help', 'lossses'], 'there is no command "lossses"; did you mean losses?'],
    [['help', 'losses', 'mug'], 'losses has no help on "mug"; saggar help losses shows all of it'],
  ])('%j says what there is', async (args, message) => {
    expect(await runSaggar(args)).toEqual({ status: 2, out: '', err: `saggar: ${message}\n` });
  });

  it('-V is the version', async () => {
    const version = await runSaggar(['--version']);
    expect(version.out).toMatch(/^\d+\.\d+\.\d+\n$/);
    expect(await runSaggar(['-V'])).toEqual(version);
  });
});

describe('options before the command', () => {
  it.each([
    [['--studio', EXAMPLE, ...TODAY, 'fairs', '--as', 'csv']],
    [['--as', 'csv', 'fairs', '--studio', EXAMPLE, ...TODAY]],
    [['--as=csv', ...TODAY, '--quiet', '--no-color', 'fairs', `--studio=${EXAMPLE}`]],
  ])('%j are those after it', async (args) => {
    const after = await runSaggar(['fairs', '--studio', EXAMPLE, ...TODAY, '--as', 'csv']);
    expect(after.status).toBe(0);
    expect(await runSaggar(args)).toEqual(after);
  });

  it.each([
    [['--studio', EXAMPLE, 'man'], 'man has no option --studio; saggar help man lists the options'],
    [
      ['--as', 'cvs', 'fairs'],
      '"cvs" is not a choice for --as: use text, json, csv, markdown, html; did you mean csv?',
    ],
    [
      ['--width', 'wide', 'fairs'],
      '"wide" is not a width; write a whole number of columns, as in --width 100',
    ],
    [['fairs', '--year'], '--year needs a year: the business year, such as 2026'],
  ])('%j are refused where the command is', async (args, message) => {
    expect(await runSaggar(args)).toEqual({ status: 2, out: '', err: `saggar: ${message}\n` });
  });
});

describe('how the output looks', () => {
  const widest = (text: string): number => Math.max(...text.split('\n').map((line) => line.length));
  const fairs = (args: readonly string[], env = {}): ReturnType<typeof runSaggar> =>
    runSaggar(['fairs', ...TODAY, ...args], { folder: EXAMPLE, env });

  it('is 80 columns wide in a pipe, or as wide as COLUMNS or --width says', async () => {
    const usual = await fairs([]);
    expect(widest(usual.out)).toBeLessThanOrEqual(80);
    expect(widest((await fairs([], { COLUMNS: '50' })).out)).toBeLessThanOrEqual(50);
    const wide = await fairs(['--width', '200'], { COLUMNS: '50' });
    expect(wide.out).toContain('Takings  Discounts  Returns');
    expect(await fairs([], { COLUMNS: 'x' })).toEqual(usual);
  });

  it('is coloured with --color, and never with --no-color', async () => {
    expect((await fairs(['--color'], { NO_COLOR: '1' })).out).toContain('\u001b[1mFairs');
    expect((await fairs(['--no-color'], { FORCE_COLOR: '1' })).out).not.toContain('\u001b');
  });

  it('leaves out notes with --quiet', async () => {
    const [told, quiet] = [await fairs([]), await fairs(['--quiet'])];
    expect(told.out.startsWith(quiet.out.trimEnd())).toBe(true);
    expect(told.out).toContain('All that was sold there');
    expect(quiet.out).not.toContain('All that was sold there');
  });
});

describe('--quiet', () => {
  const SALE = ['--channel', 'door', '--line', '1 mug oatmeal at 38'];

  it('leaves a command that writes only the id of what is new', async () => {
    const folder = demoCopy();
    const added = await runSaggar(['add', 'sales', ...SALE, '--id', 's1', '--quiet', ...TODAY], {
      folder,
    });
    expect(added).toEqual({ status: 0, out: 's1\n', err: '' });
    const words = ['s1', 'note=late', '--quiet', ...TODAY];
    expect(await runSaggar(['amend', ...words], { folder })).toEqual({
      status: 0,
      out: '',
      err: '',
    });
    expect(await runSaggar(['remove', 's1', '--quiet', ...TODAY], { folder })).toEqual({
      status: 0,
      out: '',
      err: '',
    });
  });

  it('leaves check its errors alone, and nothing where there are none', async () => {
    const folder = demoCopy();
    const quiet = ['check', '--quiet', ...TODAY];
    expect(await runSaggar(quiet, { folder })).toEqual({ status: 0, out: '', err: '' });
    writeFileSync(join(folder, 'tests.yaml'), 't9: { date: 2026-06-01, kind: tile, shade: red }\n');
    const { status, out, err } = await runSaggar(quiet, { folder });
    expect({ status, err }).toEqual({ status: 1, err: '' });
    expect(out).toContain('tests.yaml:1');
    expect(out).toContain('error');
    expect(out).not.toContain('warning');
  });
});

describe('a hyphen', () => {
  it('takes a record from standard input', async () => {
    const folder = demoCopy();
    const input =
      'channel: door\nlines:\n  - product: mug\n    count: 1\n    glaze: oatmeal\n    price: 38\n';
    const args = ['add', 'sales', '-', '--quiet', '--id', 's2', ...TODAY];
    expect(await runSaggar(args, { folder, input })).toEqual({ status: 0, out: 's2\n', err: '' });
  });

  it('sends an archive to standard output', async () => {
    const { status, out, err } = await runSaggar(['export', '-', ...TODAY], { folder: EXAMPLE });
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out.slice(0, 2)).toBe('PK');
  });
});
