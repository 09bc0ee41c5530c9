import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { day } from '../../src/commands/reports/day.ts';
import { init } from '../../src/commands/studio/init.ts';
import { run } from '../helpers/command-world.ts';
import { git, inGit } from '../helpers/git.ts';
import { HILL_STREET, dayIn } from '../helpers/hill-street.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

async function page(asOf: string, files: Readonly<Record<string, string>> = {}): Promise<string> {
  const { out } = await dayIn(tempStudio({ ...HILL_STREET, ...files }), asOf);
  return out;
}

describe('the page of a day', () => {
  it('says what was recorded, what is where, what to order and who owes whom', async () => {
    expect(await page('2026-03-12')).toBe(`Hill Street · Thursday 2026-03-12 · EUR

Next            Order White clay today: 12 kg left, for 5 days.
                saggar materials

Recorded today  2 sales for 50.00; 1 lot of 10 pieces; 1 consignment of 4
                pieces.

Greenware       18 pieces in 2 lots: Bowl (8, for 2 days); Mug (10, since
                today).
Bisqueware      4 pieces waiting for glaze: Mug (4, for 1 day).
Ready to sell   6 firsts and 2 seconds: Mug (6, 2 seconds).

Next bisque     █████████████▉··  86% of Kiln (26 of 30).
Next glaze      ██▏·············  13% of Kiln (4 of 30).

To order now    White clay (12 kg, 5 days left).

At galleries    4 pieces: Gallery Nord.
Owed to you     30.00: Kitchen shop (since 2026-03-12).
You owe         40.00: Clay Co (since 2026-03-01).

The book        No problems.
`);
  });

  it('counts what is owed until the day it is paid, less what the gallery keeps', async () => {
    expect(await page('2026-03-13')).toContain(
      'Owed to you     51.00: Kitchen shop (30.00 since 2026-03-12); Gallery Nord\n' +
        '                (21.00 since 2026-03-13).\n',
    );
    expect(await page('2026-04-10')).toContain(
      'Recorded today  21.00 came in for 1 earlier sale.\n',
    );
    expect(await page('2026-04-10')).toContain(
      'Owed to you     30.00: Kitchen shop (since 2026-03-12).\n',
    );
  });

  it('says what is in the kiln since when, and asks what came out on the next day', async () => {
    const firings = `${HILL_STREET['firings.yaml'] ?? ''}
f3: { date: 2026-03-14, kiln: kiln, kind: bisque, energy: 40 kWh, load: [{ lot: p2, in: 8 }, { outside: The school, in: 5 }] }
`;
    const first = await page('2026-03-14', { 'firings.yaml': firings });
    expect(first).toContain('Recorded today  1 bisque firing of 13 pieces.\n');
    expect(first).toContain('In the kiln     13 pieces: Kiln (bisque, since 2026-03-14, f3).\n');
    expect(first).toMatch(/^Greenware +10 pieces in 1 lot: Mug \(10, for 2 days\)\.$/m);
    expect(first).not.toContain('unload');
    const second = await page('2026-03-15', { 'firings.yaml': firings });
    expect(second).toContain('Recorded today  Nothing on this day.\n');
    expect(second).toMatch(
      /^Next +Record what came out of Kiln: 13 pieces, since 2026-03-14\.\n +saggar unload f3 --line "…"$/m,
    );
  });

  it('tells ware that waits for a third firing apart', async () => {
    const products = `${HILL_STREET['products.yaml'] ?? ''}cup: { name: Cup, fired: [bisque, glaze, lustre], price: 9 }\n`;
    const pieces = 'p9: { date: 2026-03-01, product: cup, made: 6 }\n';
    const firings = `
f1: { date: 2026-03-08, kiln: kiln, kind: bisque, energy: 1 kWh, load: [{ lot: p9, in: 6, first: 6 }] }
f2: { date: 2026-03-11, kiln: kiln, kind: glaze, energy: 1 kWh, load: [{ lot: p9, in: 4, first: 4 }] }
`;
    const files = { 'products.yaml': products, 'pieces.yaml': pieces, 'firings.yaml': firings };
    const text = await page('2026-03-12', { ...files, 'sales.yaml': '', 'consigned.yaml': '' });
    expect(text).toContain('Bisqueware        2 pieces waiting for glaze: Cup (2, for 1 day).\n');
    expect(text).toContain('Glaze-fired ware  4 pieces waiting for lustre: Cup (4, for 1 day).\n');
    expect(text).toMatch(/^Next lustre .* 13% of Kiln \(4 of 30\)\.$/m);
  });

  it('says that a kiln is full, what is left over, and to fire it', async () => {
    const pieces = `${HILL_STREET['pieces.yaml'] ?? ''}p4: { date: 2026-03-13, product: mug, made: 9 }\n`;
    const bought = (HILL_STREET['bought.yaml'] ?? '').replace('35 kg', '3500 kg');
    const text = await page('2026-03-13', { 'pieces.yaml': pieces, 'bought.yaml': bought });
    expect(text).toContain('Next bisque     ████████████████  Kiln is full, 5 left over.\n');
    expect(text).toContain('To order now    Nothing.\n');
    expect(text).toContain(
      'Next            Fire Kiln: the bisque load is full, 5 left over.\n' +
        '                saggar add firings --help\n',
    );
  });

  it('does not nag about a material that was never there or was given up', async () => {
    const later = await page('2026-09-30', {
      'counted.yaml':
        'c1: { date: 2026-04-01, materials: [{ material: sand, quantity: 0 kg }, { material: clay, quantity: 0 kg }] }\n',
      'materials.yaml': `${HILL_STREET['materials.yaml'] ?? ''}gold: { name: Gold, kind: other, unit: g }\n`,
    });
    expect(later).toContain('To order now    White clay (out).\n');
  });

  it('says so when nothing happened yet', async () => {
    expect(await page('2026-02-28')).toBe(`Hill Street · Saturday 2026-02-28 · EUR

Next            Nothing more to do.

Recorded today  Nothing yet: the book begins on 2026-03-01.

Pieces          No pieces yet.

To order now    Nothing.

The book        No problems.
`);
  });

  it('is calm about a new studio, and says how to begin', async () => {
    const folder = tempStudio({});
    await run(init, folder, { words: ['.'], options: { name: 'New' } });
    expect((await dayIn(folder, '2026-05-01')).out).toBe(`New · Friday 2026-05-01 · USD

Next            Record your stock: the book is still empty.
                saggar add bought --help

Recorded today  Nothing yet.

Pieces          No pieces yet.

To order now    Nothing.

The book        No problems.
`);
  });
});

describe('errors', () => {
  const broken = { 'spent.yaml': 'e1: { date: 2026-03-12, to: A, for: booth }\n' };

  it('are counted on the page and below it, and come first', async () => {
    const said = await dayIn(tempStudio({ ...HILL_STREET, ...broken }), '2026-03-12');
    expect(said.status).toBe(1);
    expect(said.out).toContain('The book        1 error.\n');
    expect(said.out).toMatch(
      /^Next +Fix 1 error: its record is left out of every figure\.\n +saggar check$/m,
    );
    expect(said.err).toMatch(/^saggar: 1 error: records with errors are left out/);
  });

  it('of the day itself are told, those of days to come are not, looking back', async () => {
    const folder = tempStudio(HILL_STREET);
    const back = await run(day, folder, { options: { asOf: '2026-03-11' }, today: '2026-04-30' });
    expect(back.out).toContain('The book        No problems.\n');
    const now = await run(day, folder, { today: '2026-03-11' });
    // Three sales, a lot and a consignment are dated later, and one of the sales is paid later.
    expect(now.out).toContain('The book        6 warnings.\n');
  });

  it('of the day that is asked for are told like those of any option', async () => {
    const said = await dayIn(tempStudio(HILL_STREET), '2026-02-30');
    expect(said).toMatchObject({ status: 2, out: '' });
    expect(said.err).toContain('--as-of takes a day');
  });
});

describe('git', () => {
  it('is not spoken of outside a repository', async () => {
    expect(await page('2026-03-12')).not.toMatch(/commit|git/);
  });

  it('is asked what is not committed; the command that is told commits it', async () => {
    const ordered = {
      'bought.yaml': (HILL_STREET['bought.yaml'] ?? '').replace('35 kg', '3500 kg'),
    };
    const folder = inGit(tempStudio({ ...HILL_STREET, ...ordered, '.gitignore': '.saggar/\n' }));
    const clean = await dayIn(folder, '2026-03-12');
    expect(clean.out).toContain('The book        No problems; everything is committed.\n');
    expect(clean.out).toContain('Next            Nothing more to do.\n');
    writeFileSync(
      join(folder, 'spent.yaml'),
      'e1: { date: 2026-03-12, to: A, for: booth, amount: 9 }\n',
    );
    const changed = await dayIn(folder, '2026-03-12');
    expect(changed.out).toContain('The book        No problems; 1 file not committed.\n');
    const command = 'git add . && git commit -m "Day of 2026-03-12"';
    expect(changed.out).toContain(
      `Next            Keep the day: 1 file is not committed.\n                ${command}\n`,
    );
    git(folder, 'add', '.');
    git(folder, 'commit', '-q', '-m', 'Day of 2026-03-12');
    expect((await dayIn(folder, '2026-03-12')).out).toContain('everything is committed');
  });

  it('is told where the studio is, when that is not here', async () => {
    const folder = inGit(tempStudio(HILL_STREET));
    writeFileSync(join(folder, 'tests.yaml'), '');
    const said = await dayIn(folder, '2026-03-12', { studio: folder, as: 'json' });
    const { rows } = JSON.parse(said.out) as { rows: object[] };
    expect(rows.at(-1)).toMatchObject({
      section: 'next',
      what: `git -C ${folder} add . && git -C ${folder} commit -m "Day of 2026-03-12"`,
    });
  });
});

describe('a record that is added', () => {
  it('is on the page at once, and what it sold is no longer on the shelf', async () => {
    const folder = tempStudio(HILL_STREET);
    const before = (await dayIn(folder, '2026-03-20')).out;
    expect(before).toContain('Recorded today  Nothing on this day.\n');
    expect(before).toContain('Ready to sell   6 firsts and 2 seconds: Mug (6, 2 seconds).\n');
    const words = ['sales', '--channel', 'door', '--line', '2 mug at 30', '--date', '2026-03-20'];
    const added = await run(add, folder, { words });
    expect(added.err).toBe('');
    const after = (await dayIn(folder, '2026-03-20')).out;
    expect(after).toContain('Recorded today  1 sale for 60.00.\n');
    expect(after).toContain('Ready to sell   4 firsts and 2 seconds: Mug (4, 2 seconds).\n');
  });
});
