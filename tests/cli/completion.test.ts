import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/commands/catalogue.ts';
import { flagOf } from '../../src/commands/spec.ts';
import { EVERYWHERE } from '../../src/commands/options.ts';
import { EXAMPLE, emptyFolder } from '../helpers/program.ts';
import { bash, inBash } from '../helpers/shell-completion.ts';

const NAMES = COMMANDS.map(({ name }) => name);

describe('bash', () => {
  it('completes commands', async () => {
    expect(await bash('saggar ')).toEqual(NAMES);
    expect(await bash('saggar mat')).toEqual(['materials', 'match']);
    expect(await bash('saggar zzz')).toEqual([]);
  });

  it('completes options, each once', async () => {
    const spec = COMMANDS.find(({ options }) => options.some((each) => flagOf(each) === '--where'));
    const flags = [...(spec?.options ?? []), ...EVERYWHERE].map(flagOf);
    expect(await bash(`saggar ${spec?.name ?? ''} --`)).toEqual(flags);
    const left = await bash(`saggar ${spec?.name ?? ''} --where --`);
    expect(left).toEqual(flags.filter((flag) => flag !== '--where'));
  });

  it('completes the choices of an option, also behind =', async () => {
    expect(await bash('saggar pieces --by ')).toEqual(['product', 'place']);
    expect(await inBash(['saggar', 'pieces', '--by', '='], 'saggar pieces --by=')).toEqual([
      'product',
      'place',
    ]);
    expect(await inBash(['saggar', 'pieces', '--by', '=', 'pr'], 'saggar pieces --by=pr')).toEqual([
      'product',
    ]);
  });

  it('completes the periods and the sheets of quarter', async () => {
    expect(await bash('saggar quarter 2026')).toEqual(['2026', '2026-Q2', '2026-Q1']);
    expect(await bash('saggar quarter --sheet uk')).toEqual([
      ...['uk-sa103s', 'uk-sa103s-2024', 'uk-sa103s-2025', 'uk-sa103s-2026'],
    ]);
  });

  it('completes papers and what each may be of, and the maps of a studio', async () => {
    expect(await bash('saggar paper re')).toEqual(['receipt']);
    expect(await bash('saggar paper owed h')).toEqual(['hobbin-lane']);
    expect(await bash('saggar paper invoice s260630')).toEqual(['s260630db']);
    expect(await bash('saggar paper invoice s260630db s260628')).toEqual([]);
    expect(await bash('saggar paper care moon')).toEqual(['moon-jar']);
    expect(await bash('saggar paper labels c260520fj p260519')).toEqual(['p260519dg']);
    const folder = emptyFolder();
    mkdirSync(join(folder, 'lists'));
    writeFileSync(join(folder, 'studio.yaml'), 'format: 1\nname: A\ncurrency: USD\n');
    for (const name of ['shop', 'bank', 'a b'])
      writeFileSync(join(folder, `lists/${name}.yaml`), '');
    expect(await bash('saggar match bank.csv --by ', { folder })).toEqual(['bank', 'shop']);
    expect(await bash('saggar take-in shop.csv --by s', { folder })).toEqual(['shop']);
  });

  it('completes no days', async () => {
    expect(await bash('saggar check --as-of ')).toEqual([]);
  });

  it('completes ids of the book of the right kinds', async () => {
    expect(await bash('saggar materials s')).toEqual([
      ...['stoneware-buff', 'stoneware-dark', 'silica', 'ship-box', 'sea-green'],
    ]);
    expect(await bash('saggar firings f2606')).toEqual([
      ...['f260629gs', 'f260618kg', 'f260615gb', 'f260605gr', 'f260602xp'],
    ]);
    expect(await bash('saggar remove ferry')).toEqual(['ferry-fair']);
    expect(await bash('saggar remove s260630')).toEqual(['s260630db']);
  });

  it('completes kinds, fields and what may stand in them', async () => {
    expect(await bash('saggar add sal')).toEqual(['sales']);
    expect(await bash('saggar add sales --chan')).toEqual(['--channel']);
    expect(await bash('saggar add sales --channel h')).toEqual(['hobbin-lane']);
    expect(await bash('saggar add pieces --product mo')).toEqual(['moon-jar']);
    expect(await bash('saggar add firings --kind b')).toEqual(['bisque']);
  });

  it('completes the words of a line within its quotes, and sets blanks off without them', async () => {
    const at = async (typed: string): Promise<string[]> =>
      inBash(['saggar', 'add', 'sales', '--line', typed], `saggar add sales --line ${typed}`);
    expect(await at('"2 tum')).toEqual(['2 tumbler']);
    expect(await at("'2 mug oat")).toEqual(['2 mug oatmeal']);
    expect(await at('2\\ tum')).toEqual(['2\\ tumbler']);
    expect(await at('"2 mug at 4')).toEqual([]);
    const parts = ['saggar', 'add', 'firings', '--in', '=', '"4 p2606'];
    expect(await inBash(parts, 'saggar add firings --in="4 p2606')).toContain('4 p260617gd');
  });

  it.each([
    [['gone'], '"1 tum', '1 tumbler'],
    [['gone'], '"1 mug oat', '1 mug oatmeal'],
    [['gone', '"1 mug"'], '"1 mug oatmeal bro', '1 mug oatmeal broken'],
    [['gone'], '"1 mug at gal', '1 mug at gallery'],
    [['revise', 'sea-green'], '"without kao', 'without kaolin'],
    [['revise', 'sea-green', '"kaolin 12"'], '"12 ruti', '12 rutile'],
    [['revise', 'sea-green', '--base'], '"27 neph', '27 nepheline'],
  ])('completes the lines of %j from %s', async (words, typed, whole) => {
    const parts = ['saggar', ...words, typed];
    expect(await inBash(parts, parts.join(' '))).toEqual([whole]);
  });

  it('completes the fields of a record that is to be changed', async () => {
    expect(await bash('saggar amend s260630db pa')).toEqual(['paid=']);
    const parts = ['saggar', 'amend', 's260630db', 'channel', '=', 'h'];
    expect(await inBash(parts, 'saggar amend s260630db channel=h')).toEqual(['hobbin-lane']);
  });

  it('takes the word up to the cursor, quoted or not', async () => {
    expect(await bash("saggar materials 'kao")).toEqual(['kaolin']);
    expect(await inBash(['saggar', 'materials', 'kaoxyz'], 'saggar materials kao')).toEqual([
      'kaolin',
    ]);
  });

  it('finds the studio that is named', async () => {
    const folder = emptyFolder();
    expect(await bash('saggar materials kao', { folder })).toEqual([]);
    expect(await bash(`saggar materials --studio ${EXAMPLE} kao`, { folder })).toEqual(['kaolin']);
    const line = `saggar materials --studio=${EXAMPLE} kao`;
    const parts = ['saggar', 'materials', '--studio', '=', EXAMPLE, 'kao'];
    expect(await inBash(parts, line, { folder })).toEqual(['kaolin']);
  });

  it('finds it below the home folder and with spaces in its name', async () => {
    const home = emptyFolder();
    mkdirSync(join(home, 'my pots'));
    writeFileSync(join(home, 'my pots/studio.yaml'), 'format: 1\nname: A\ncurrency: USD\n');
    writeFileSync(join(home, 'my pots/kilns.yaml'), 'k1:\n  name: K\n  fuel: wood\n');
    const options = { folder: emptyFolder(), env: { HOME: home } };
    const parts = ['saggar', 'remove', '--studio', '~/my\\ pots', 'k'];
    expect(await inBash(parts, 'saggar remove --studio ~/my\\ pots k', options)).toEqual(['k1']);
  });

  it('completes folders, and no files', async () => {
    const folder = emptyFolder();
    for (const name of ['pots', 'pots and pans', 'other']) mkdirSync(join(folder, name));
    writeFileSync(join(folder, 'potsherd'), '');
    expect((await bash('saggar init po', { folder })).sort()).toEqual(['pots', 'pots and pans']);
    expect(await bash('saggar check --studio o', { folder })).toEqual(['other']);
    const parts = ['saggar', 'check', '--studio', '=', 'o'];
    expect(await inBash(parts, 'saggar check --studio=o', { folder })).toEqual(['other']);
  });

  it('describes what it lists, and never what it types', async () => {
    const listed = await bash('saggar firings f26060', { type: 63 });
    expect(listed).toEqual([
      'f260605gr  2026-06-05 glaze 6 big-kiln',
      'f260602xp  2026-06-02 bisque 05 big-kiln',
    ]);
    expect(await bash('saggar firings f260605', { type: 63 })).toEqual(['f260605gr']);
    expect(await bash('saggar firings f26060', { type: 37 })).toEqual(['f260605gr', 'f260602xp']);
  });
});
