/** Files that ask too much of a reader: told at their place, for little work and memory, and hiding nothing else. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { HEAVY } from '../helpers/heavy-texts.ts';
import { builtProgram, emptyFolder, PROGRAM, runSaggar, type Ran } from '../helpers/program.ts';
import { tempStudio } from '../helpers/temp-studio.ts';
import { some } from '../helpers/tier.ts';

const STUDIO = 'format: 1\nname: Hill Street\ncurrency: USD\n';
const OTHER = { 'products.yaml': 'mug:\n  name: Mug\n  prize: 1\n' };
const SAID_OF_OTHER = 'products.yaml:3:3: error: a product has no field "prize"';

/** How many times the processor's work for a small studio, in the same run. */
const MOST_WORK = 40;
// The peak is some 250, and up to 320 by the moment at which memory is collected.
const MOST_MEBIBYTES = 400;

const isMeasured = existsSync('/proc/self/status');

interface Measured extends Ran {
  readonly seconds: number;
  readonly mebibytes: number;
}

async function measured(args: readonly string[], folder: string, input = ''): Promise<Measured> {
  const usage = join(emptyFolder(), 'usage.json');
  const preload = resolve(import.meta.dirname, '../helpers/usage.js');
  const env = { NODE_OPTIONS: `--import=${preload}`, SAGGAR_TEST_USAGE: usage };
  const ran = await runSaggar(args, { folder, input, env });
  return { ...ran, ...(JSON.parse(readFileSync(usage, 'utf8')) as Omit<Measured, keyof Ran>) };
}

let small: Promise<Measured> | undefined;

async function expectLittle({ seconds, mebibytes }: Measured): Promise<void> {
  small ??= measured(CHECK, tempStudio({ 'studio.yaml': STUDIO }));
  expect(seconds / (await small).seconds).toBeLessThan(MOST_WORK);
  expect(mebibytes).toBeLessThan(MOST_MEBIBYTES);
}

const CHECK = ['check', '--as-of', '2026-06-30'];

describe.skipIf(!isMeasured)('a studio with files that ask too much', () => {
  test.each(some(Object.keys(HEAVY), 5))('%s', async (group) => {
    const heavy = Object.entries(HEAVY[group] ?? {});
    const files = heavy.map(([name, { text }]) => [`bought/${name}.yaml`, text()]);
    const folder = tempStudio({
      'studio.yaml': STUDIO,
      ...OTHER,
      ...(Object.fromEntries(files) as Record<string, string>),
    });
    const ran = await measured(CHECK, folder);
    expect(ran.status).toBe(1);
    const said = ran.out.replaceAll(/\s+/g, ' ');
    for (const [name, heavyText] of heavy)
      expect(said).toMatch(
        new RegExp(`bought/${name}\\.yaml(?::\\d+:\\d+: )?.{0,60}?${heavyText.said.source}`),
      );
    expect(ran.out).toContain(SAID_OF_OTHER);
    expect(ran.out.length).toBeLessThan(100_000);
    await expectLittle(ran);
  });
});

describe.skipIf(!isMeasured)('elsewhere than in a file of records', () => {
  const { brackets, items, unknown } = HEAVY;
  const texts = [brackets?.['brackets'], items?.['items'], unknown?.['fields']].map(
    (heavy) => heavy!,
  );

  test('the settings', async () => {
    for (const { text } of texts) {
      const ran = await measured(CHECK, tempStudio({ ...OTHER, 'studio.yaml': text() }));
      expect(ran.status).toBe(1);
      expect(ran.out).toMatch(/^studio\.yaml:\d+:\d+: error: .*\[(?:yaml-error|schema)\]$/m);
      expect(ran.out).toContain(SAID_OF_OTHER);
      await expectLittle(ran);
    }
  });

  test('a tax sheet of the studio', async () => {
    const settings = `${STUDIO}tax-sheet: own.yaml\n`;
    for (const { text } of texts) {
      const files = { ...OTHER, 'studio.yaml': settings, 'own.yaml': text() };
      const ran = await measured(CHECK, tempStudio(files));
      expect(ran.status).toBe(1);
      expect(ran.out).toMatch(/^own\.yaml:\d+:\d+: error: .*\[(?:yaml-error|tax-sheet)\]$/m);
      await expectLittle(ran);
    }
  });

  test('standard input', async () => {
    for (const { text } of texts.slice(0, 2)) {
      const folder = tempStudio({ 'studio.yaml': STUDIO });
      const ran = await measured(['add', 'bought', '-'], folder, text());
      expect(ran.status).toBe(1);
      expect(ran.err).toMatch(/standard input:1:\d+ yaml-error error: this/);
      await expectLittle(ran);
    }
  });

  test('a file that is to be changed', async () => {
    const text = 'mug:\n  name: Mug\nbowl:\n  name: Bowl\n  notes:\n';
    const folder = tempStudio({
      'studio.yaml': STUDIO,
      'products.yaml': `${text}${'    - a\n'.repeat(30_000)}`,
    });
    const ran = await measured(['remove', 'mug'], folder);
    expect(ran.status).toBe(1);
    expect(ran.err).toMatch(
      /products\.yaml was left as it is: line \d+ holds more than one record/,
    );
    await expectLittle(ran);
  });
});

describe('nesting that is too deep', () => {
  const lines = (levels: number): string =>
    Array.from({ length: levels }, (_, depth) => `${' '.repeat(depth)}a:\n`).join('');
  const deep = {
    'bought/lines.yaml': lines(3000),
    'bought/just.yaml': lines(66),
    'sales/dashes.yaml': `a:\n  ${'- '.repeat(40_000)}b\n`,
    'sales/brackets.yaml': `a: ${'['.repeat(1000)}${']'.repeat(1000)}\n`,
    'sales/pairs.yaml': `a: ${'[b: '.repeat(1000)}\n`,
    'spent/braces.yaml': `a: ${'{b: '.repeat(40_000)}\n`,
    'spent/questions.yaml': `${'? '.repeat(40_000)}b\n`,
  };

  test.each(['--stack-size=500', '--stack-size=984', '--stack-size=4000'])(
    'has one place with %s',
    async (size) => {
      await builtProgram();
      const folder = tempStudio({ 'studio.yaml': STUDIO, ...deep });
      const ran = spawnSync(process.execPath, [size, PROGRAM, ...CHECK], {
        cwd: folder,
        encoding: 'utf8',
      });
      expect(ran.status).toBe(1);
      const places = [...ran.stdout.matchAll(/^(\S+): error: this is nested deeper/gm)];
      expect(places.map(([, place]) => place)).toEqual([
        'bought/just.yaml:65:65',
        'bought/lines.yaml:65:65',
        'sales/brackets.yaml:1:67',
        'sales/dashes.yaml:2:129',
        'sales/pairs.yaml:1:129',
        'spent/braces.yaml:1:256',
        'spent/questions.yaml:1:129',
      ]);
    },
  );
});
