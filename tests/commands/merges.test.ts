/** What is left of a book when two branches of it come together: in real git, by real merges. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { amend } from '../../src/commands/records/amend.ts';
import { check } from '../../src/commands/review/check.ts';
import { remove } from '../../src/commands/records/remove.ts';
import { tidy } from '../../src/commands/records/tidy.ts';
import type { Command } from '../../src/commands/world.ts';
import { run } from '../helpers/command-world.ts';
import { git, inGit, mergeBranches, type Work } from '../helpers/git.ts';
import { small } from '../helpers/small-studio.ts';
import { filesIn } from '../helpers/temp-studio.ts';

interface Row {
  readonly file: string;
  readonly rule: string;
  readonly severity: string;
  readonly message: string;
}

/** All errors of a check, as `file rule message`. */
async function errorsIn(folder: string): Promise<string[]> {
  const { out } = await run(check, folder, { options: { as: 'json' } });
  const { rows } = JSON.parse(out) as { rows: readonly Row[] };
  return rows
    .filter(({ severity }) => severity === 'error')
    .map(({ file, rule, message }) => `${file} ${rule} ${message}`);
}

/** Every error and warning that one merge brought in. */
async function warningsIn(folder: string): Promise<string[]> {
  const { out } = await run(check, folder, { options: { as: 'json' } });
  const { rows } = JSON.parse(out) as { rows: readonly Row[] };
  return rows.map(({ file, rule }) => `${file} ${rule}`);
}

/** Adds a record by the program itself. */
function adds(kind: string, id: string, record: string): Work {
  return async (folder) => {
    const { status, err } = await run(add, folder, {
      words: [kind, '-'],
      options: { id },
      input: record,
    });
    expect(err).toBe('');
    expect(status).toBe(0);
  };
}

function writes(file: string, text: string): Work {
  return (folder) => {
    writeFileSync(join(folder, file), text);
    return Promise.resolve();
  };
}

/** A one-off that is finished. */
const ONE_OFF = {
  'pieces/p260401jar.yaml':
    'p260401jar:\n  date: 2026-04-01\n  product: bowl\n  made: 1\n  title: The moon jar\n  price: 400\n',
  'firings/f260410ja.yaml':
    'f260410ja:\n  date: 2026-04-10\n  kiln: rotunda\n  kind: bisque\n  energy: 30 kWh\n  load:\n    - { lot: p260401jar, in: 1, first: 1 }\n',
  'firings/f260420ja.yaml':
    'f260420ja:\n  date: 2026-04-20\n  kiln: rotunda\n  kind: glaze\n  energy: 30 kWh\n  load:\n    - { lot: p260401jar, in: 1, first: 1 }\n',
};

const FIRED = (id: string, day: string, count: number): Work =>
  adds(
    'firings',
    id,
    `date: ${day}\nkiln: rotunda\nkind: bisque\nenergy: 30 kWh\nload: [{ lot: p260410ab, in: ${count}, first: ${count} }]\n`,
  );

describe('a clean merge', () => {
  it('of two branches that are right by themselves is right', async () => {
    const folder = inGit(small());
    const clean = await mergeBranches(folder, {
      ours: adds('used', 'u1', 'date: 2026-05-01\nmaterial: kaolin\nquantity: 1 kg\n'),
      theirs: adds('spent', 'e1', 'date: 2026-05-01\nto: Pit\nfor: tools\namount: 5\n'),
    });
    expect(clean).toBe(true);
    expect(await errorsIn(folder)).toEqual([]);
  });

  it('in which a one-off was sold twice is told', async () => {
    const sale = (day: string) =>
      `date: ${day}\nchannel: market\nlines: [{ product: bowl, lot: p260401jar, count: 1, price: 400 }]\n`;
    const folder = inGit(small(ONE_OFF));
    expect(await errorsIn(folder)).toEqual([]);
    const clean = await mergeBranches(folder, {
      ours: adds('sales', 's260430aa', sale('2026-04-30')),
      theirs: adds('sales', 's260501aa', sale('2026-05-01')),
    });
    expect(clean).toBe(true);
    expect(await warningsIn(folder)).toContain('sales/2026-05.yaml sold-more-than-finished');
  });

  it('in which a lot was fired twice is told', async () => {
    const folder = inGit(
      small({
        'pieces/p260410ab.yaml': 'p260410ab:\n  date: 2026-04-10\n  product: mug\n  made: 10\n',
      }),
    );
    const clean = await mergeBranches(folder, {
      ours: FIRED('f260428aa', '2026-04-28', 10),
      theirs: FIRED('f260429aa', '2026-04-29', 4),
    });
    expect(clean).toBe(true);
    expect(await errorsIn(folder)).toEqual([
      expect.stringMatching(
        /^firings\/f260429aa\.yaml fired-out-of-turn .* p260410ab is bisqueware/,
      ),
    ]);
  });

  it('in which more of a lot was fired than there was is told', async () => {
    const folder = inGit(
      small({
        'pieces/p260410ab.yaml': 'p260410ab:\n  date: 2026-04-10\n  product: mug\n  made: 10\n',
      }),
    );
    const clean = await mergeBranches(folder, {
      ours: FIRED('f260428aa', '2026-04-28', 6),
      theirs: FIRED('f260429aa', '2026-04-29', 6),
    });
    expect(clean).toBe(true);
    expect(await errorsIn(folder)).toEqual([
      expect.stringMatching(/^firings\/f260429aa\.yaml lot-overdrawn /),
    ]);
  });

  it('in which an id came to be in two files is told', async () => {
    const folder = inGit(small());
    const clean = await mergeBranches(folder, {
      ours: adds('used', 'x1', 'date: 2026-05-01\nmaterial: kaolin\nquantity: 1 kg\n'),
      theirs: adds('spent', 'X1', 'date: 2026-05-01\nto: Pit\nfor: tools\namount: 5\n'),
    });
    expect(clean).toBe(true);
    expect(await errorsIn(folder)).toEqual(
      [
        'used/2026-05.yaml duplicate-id "x1" is already the id of an expense in spent/2026-05.yaml',
      ].map((line) => expect.stringContaining(line.split(' ')[1] ?? '') as string),
    );
  });

  it('in which an id came to be twice in one file is told', async () => {
    const lines = (id: string) =>
      `${id}:\n  date: 2026-04-10\n  material: kaolin\n  quantity: 1 kg\n`;
    const [first, middle, last] = ['u1', 'u2', 'u3'].map(lines);
    const folder = inGit(small());
    writeFileSync(join(folder, 'used.yaml'), `${first}${middle}${last}`);
    git(folder, 'add', '-A');
    git(folder, 'commit', '-qm', 'Use');
    const clean = await mergeBranches(folder, {
      ours: writes('used.yaml', `${lines('u9')}${first}${middle}${last}`),
      theirs: writes('used.yaml', `${first}${middle}${last}${lines('u9')}`),
    });
    expect(clean).toBe(true);
    expect(await errorsIn(folder)).toEqual([
      'used.yaml duplicate-id "u9" is used twice in this file',
    ]);
  });

  it('in which a material was used below nothing is told', async () => {
    const use = (day: string) => `date: ${day}\nmaterial: cobalt\nquantity: 300 g\n`;
    const folder = inGit(small());
    const clean = await mergeBranches(folder, {
      ours: adds('used', 'u260430aa', use('2026-04-30')),
      theirs: adds('used', 'u260501aa', use('2026-05-01')),
    });
    expect(clean).toBe(true);
    expect(await warningsIn(folder)).toContain('used/2026-05.yaml stock-below-zero');
  });

  it('in which a deposit was used twice is told', async () => {
    const deposit = 'a1:\n  date: 2026-04-01\n  for: deposit\n  amount: 50\n';
    const sale = (day: string) =>
      `date: ${day}\nchannel: market\nlines: [{ for: tea set, count: 1, price: 90 }]\nadvances: [{ advance: a1, amount: 50 }]\n`;
    const folder = inGit(small({ 'advances.yaml': deposit }));
    const clean = await mergeBranches(folder, {
      ours: adds('sales', 's260430aa', sale('2026-04-30')),
      theirs: adds('sales', 's260501aa', sale('2026-05-01')),
    });
    expect(clean).toBe(true);
    expect(await errorsIn(folder)).toEqual([
      expect.stringMatching(/^sales\/2026-05\.yaml advance-overdrawn 100.00 of a1 is used/),
    ]);
  });

  it('in which one side used what the other took away is told', async () => {
    const folder = inGit(small());
    const clean = await mergeBranches(folder, {
      ours: writes(
        'used.yaml',
        'u260501aa:\n  date: 2026-05-01\n  material: propane\n  quantity: 1 lb\n',
      ),
      theirs: async (studio) => {
        const { status } = await run(remove, studio, { words: ['propane'] });
        expect(status).toBe(0);
      },
    });
    expect(clean).toBe(true);
    expect(await errorsIn(folder)).toEqual([
      expect.stringMatching(/^used\.yaml unknown-reference /),
    ]);
  });
});

const SALE =
  'date: 2026-04-29\nchannel: market\nlines: [{ product: mug, count: 1, price: 38.50 }]\n';

async function conflicting(style: string): Promise<string> {
  const folder = inGit(small());
  git(folder, 'config', 'merge.conflictStyle', style);
  const clean = await mergeBranches(folder, {
    ours: async (studio) => {
      await run(amend, studio, { words: ['s260401ab', 'note=ours'] });
      await adds('sales', 's260429aa', SALE)(studio);
    },
    theirs: async (studio) => {
      await run(amend, studio, { words: ['s260401ab', 'note=theirs'] });
      await adds('sales', 's260429zz', SALE.replace('market', 'shop'))(studio);
    },
  });
  expect(clean).toBe(false);
  return folder;
}

describe.each(['merge', 'diff3', 'zdiff3'])('a merge that conflicts, shown as %s', (style) => {
  it('is told conflict by conflict, with both records', async () => {
    const folder = await conflicting(style);
    const { status, out } = await run(check, folder);
    expect(status).toBe(1);
    expect(await errorsIn(folder)).toEqual([
      'sales/2026-04.yaml merge-conflict two versions of s260401ab meet here and differ in note',
      'sales/2026-04.yaml merge-conflict HEAD has s260429aa here, and other has s260429zz',
    ]);
    const flat = out.replaceAll(/\s+/g, ' ');
    expect(flat).toContain('HEAD has s260401ab with note: ours');
    expect(flat).toContain('other has s260401ab with note: theirs');
    expect(flat).toContain('HEAD has s260429aa with channel: market');
    expect(flat).toContain('other has s260429zz with channel: shop');
  });

  it.each<[string, Command<never>, readonly string[]]>([
    ['add', add, ['sales', '--channel', 'market', '--line', '1 mug', '--date', '2026-04-30']],
    ['amend', amend, ['s260402cd', 'buyer=X']],
    ['remove', remove, ['s260402cd']],
  ])('%s does not touch the file, and says why', async (_, command, words) => {
    const folder = await conflicting(style);
    const before = filesIn(folder);
    const { status, err } = await run(command, folder, { words });
    expect(status).toBe(1);
    expect(err).toMatch(
      /sales\/2026-04\.yaml was left as it is: a merge is not settled at line \d+: settle it first/,
    );
    expect(filesIn(folder)).toEqual(before);
  });

  it('tidy leaves the file, and mends others', async () => {
    const folder = await conflicting(style);
    const file = join(folder, 'sales/2026-04.yaml');
    const merged = filesIn(folder)['sales/2026-04.yaml'] ?? '';
    writeFileSync(file, merged.replace('Puddle Coffee', '0800'));
    writeFileSync(
      join(folder, 'spent.yaml'),
      'e1:\n  date: 2026-05-01\n  to: 0800\n  for: tools\n  amount: 5\n',
    );
    const { status, err, out } = await run(tidy, folder);
    expect(status).toBe(1);
    expect(err).toContain('sales/2026-04.yaml was left as it is: a merge is not settled');
    expect(out).toContain('Put quotes round 1 value in spent.yaml');
    expect(filesIn(folder)['sales/2026-04.yaml']).toBe(merged.replace('Puddle Coffee', '0800'));
  });

  it('is settled as the hint says', async () => {
    const folder = await conflicting(style);
    const file = join(folder, 'sales/2026-04.yaml');
    // Without this, lines that both records share stand outside the markers.
    if (style !== 'diff3') {
      const { out } = await run(check, folder);
      const flat = out.replaceAll(/\s+/g, ' ');
      expect(flat).toContain('git checkout --conflict=diff3 -- "sales/2026-04.yaml"');
      git(folder, 'checkout', '-q', '--conflict=diff3', '--', 'sales/2026-04.yaml');
    }
    const conflict =
      /<{7}.*\n((?:(?!\|{7}).*\n)*)\|{7}.*\n(?:(?!={7}).*\n)*={7}\n((?:(?!>{7}).*\n)*)>{7}.*\n/;
    const settled = (filesIn(folder)['sales/2026-04.yaml'] ?? '')
      .replace(conflict, '$1')
      .replace(conflict, '$1$2');
    writeFileSync(file, settled);
    expect(await errorsIn(folder)).toEqual([]);
    expect(Object.keys(filesIn(folder))).toContain('sales/2026-04.yaml');
    expect(settled).toMatch(/s260429aa:[^]*s260429zz:/);
    expect(spawnSync('git', ['diff', '--check'], { cwd: folder }).status).toBe(0);
  });
});
