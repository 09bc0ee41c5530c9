import { appendFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { day } from '../../src/commands/reports/day.ts';
import { recordsOf } from '../../src/report/day/day-records.ts';
import { bookFrom } from '../helpers/book.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { HILL_STREET } from '../helpers/hill-street.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const TODAY = '2026-03-13';

function list(folder: string, options: Readonly<Record<string, string | boolean>>): Promise<Said> {
  return run(day, folder, { options, today: TODAY });
}

/** A studio whose commits are of the days that are told. */
function repository(): { folder: string; commit: (time: string) => void } {
  const folder = tempStudio({ ...HILL_STREET, '.gitignore': '.saggar/\n' });
  const git = (words: readonly string[], time = ''): void => {
    const who = ['-c', 'user.name=Test', '-c', 'user.email=test@example.org'];
    const env = { ...process.env, GIT_AUTHOR_DATE: time, GIT_COMMITTER_DATE: time };
    execFileSync('git', [...who, ...words], { cwd: folder, env });
  };
  git(['init', '-q']);
  return {
    folder,
    commit: (time) => {
      git(['add', '-A']);
      git(['commit', '-qm', 'Work'], time);
    },
  };
}

describe('the records of a day', () => {
  it('are listed with their ids, and how to show, correct and take one out', async () => {
    const { out, status } = await list(tempStudio(HILL_STREET), { date: 'yesterday' });
    expect(status).toBe(0);
    expect(out).toBe(`Records of Thursday 2026-03-12
Hill Street · as of 2026-03-13 · EUR

Record  Kind         What
────────────────────────────────────────
p3      lot          10 mug
s1      sale         door, 1 mug, 20.00
s2      sale         shop, 2 mug, 30.00
g1      consignment  gallery, sent 4 mug

Show one: saggar show ID
Correct one: saggar amend ID FIELD=VALUE
Take one out: saggar remove ID
`);
  });

  it.each(['2026-03-12', 'thursday', '1 day ago'])('of %s are those of that day', async (date) => {
    const { out } = await list(tempStudio(HILL_STREET), { date, as: 'json' });
    const { rows } = JSON.parse(out) as { rows: { record: string }[] };
    expect(rows.map(({ record }) => record)).toEqual(['p3', 's1', 's2', 'g1']);
  });

  it('are of another studio where one is named, and none where nothing is dated so', async () => {
    const folder = tempStudio(HILL_STREET);
    const there = await list(folder, { date: '2026-03-12', studio: folder });
    expect(there.out).toContain(`Show one: saggar show ID --studio ${folder}\n`);
    const none = await list(folder, { date: '2026-03-03' });
    expect(none.out).toBe(
      'Records of Tuesday 2026-03-03\nHill Street · as of 2026-03-13 · EUR\n\nNothing to show.\n',
    );
  });

  it('stand below the whole page with --long, and among its rows for programs', async () => {
    const folder = tempStudio(HILL_STREET);
    const asOf = '2026-03-12';
    const long = await list(folder, { long: true, asOf });
    expect(long.out).toMatch(/^Hill Street · Thursday 2026-03-12 · EUR\n\nNext {2}/);
    expect(long.out).toContain('\n\nRecords of Thursday 2026-03-12\n\nRecord  Kind         What\n');
    expect(long.out.match(/2026-03-12 · EUR/g)).toHaveLength(1);
    const rowsOf = async (options: Record<string, string | boolean>): Promise<unknown[]> => {
      const { out } = await list(folder, { ...options, asOf, as: 'json' });
      const { rows } = JSON.parse(out) as { rows: Record<string, unknown>[] };
      return rows.flatMap(({ section, what, says }) =>
        section === 'records' ? [`${String(what)} ${String(says)}`] : [],
      );
    };
    expect(await rowsOf({ long: true })).toEqual([
      'p3 10 mug',
      's1 door, 1 mug, 20.00',
      's2 shop, 2 mug, 30.00',
      'g1 gallery, sent 4 mug',
    ]);
    expect(await rowsOf({})).toEqual([]);
    const markdown = (await list(folder, { long: true, asOf, as: 'markdown' })).out;
    expect(markdown).toContain('\n## Records of Thursday 2026-03-12\n\n| Record | Kind | What |\n');
    const page = (await list(folder, { long: true, asOf, as: 'html' })).out;
    expect(page).toContain('<h2 id="table-2">Records of Thursday 2026-03-12</h2>');
    expect(page).toContain('<h3>Recorded today</h3>');
    expect(page).toContain('consigned.yaml');
  });

  it.each([
    [{ date: 'someday' }, '--date takes a day such as'],
    [{ date: '2026-02-30' }, '--date takes a day such as'],
    [{ date: 'yesterday', asOf: '2026-03-10' }, 'give only one of them'],
    [{ date: 'yesterday', long: true }, 'leave out --long, or --date'],
  ])('are not listed for %j', async (options, words) => {
    const { status, out, err } = await list(tempStudio(HILL_STREET), options);
    expect([status, out]).toEqual([2, '']);
    expect(err).toContain(words);
  });

  it('are also what happened to earlier ones, and definitions that change from the day on', () => {
    const book = bookFrom({
      products: 'mug: { name: Mug, price: 30, changes: [{ from: 2026-03-08, price: 32 }] }',
      channels: 'nord: { name: Nord, kind: consignment }\ndoor: { name: Door, kind: direct }',
      tariffs: 'power: { from: 2026-03-08, fuel: electricity, price: 0.3, per: kWh }',
      pieces: `
p1: { date: 2026-03-01, product: mug, made: 20, lost: [{ date: 2026-03-08, count: 2, why: cracked }, { date: 2026-03-07, count: 1, why: warped }], gone: [{ date: 2026-03-08, count: 1, how: gift }] }
`,
      firings:
        'f1: { date: 2026-03-07, kiln: kiln, kind: bisque, unloaded: 2026-03-08, load: [{ lot: p1, in: 4, first: 4 }] }',
      sales:
        's1: { date: 2026-03-02, channel: door, paid: 2026-03-08, lines: [{ product: mug, count: 1, price: 30 }] }',
      consigned:
        'k1: { date: 2026-03-03, channel: nord, missing: [{ product: mug, count: 1, owed: 18, paid: 2026-03-08 }] }',
      bought:
        'b1: { date: 2026-03-01, supplier: Pit, paid: 2026-03-08, lines: [{ material: clay, quantity: 1 kg, cost: 4 }] }',
      spent: 'e1: { date: 2026-03-01, to: Hall, for: rent-place, amount: 90, paid: 2026-03-08 }',
      advances:
        'a1: { date: 2026-03-01, for: deposit, buyer: A, amount: 40, refunded: [{ date: 2026-03-08, amount: 40 }] }',
    });
    expect(recordsOf(book, '2026-03-08').map(({ id, what }) => `${id} ${what}`)).toEqual([
      'p1 20 mug: 2 lost (cracked), 1 gone (gift)',
      'f1 bisque, kiln: unloaded',
      's1 door, 1 mug: paid, 30.00',
      'k1 nord, missing 1 mug: paid for missing pieces',
      'b1 Pit, 1 kg clay: paid, 4.00',
      'e1 Hall, rent-place, 90.00: paid, 90.00',
      'a1 deposit, A, 40.00: refunded',
      'mug Mug: from this day on',
      'power electricity, 0.3 per kWh: from this day on',
    ]);
    expect(
      recordsOf(book, '2026-03-01').map(({ id, amount }) => `${id} ${String(amount)}`),
    ).toEqual(['b1 400', 'p1 undefined', 'a1 4000', 'e1 9000']);
  });
});

describe('beside git', () => {
  /** What is said of each record of the day. */
  async function marks(folder: string, date: string): Promise<Record<string, string | null>> {
    const { out } = await list(folder, { date, as: 'json' });
    const { rows } = JSON.parse(out) as { rows: { record: string; commit: string | null }[] };
    return Object.fromEntries(rows.map(({ record, commit }) => [record, commit]));
  }

  const NEW =
    's4: { date: 2026-03-12, channel: door, lines: [{ product: mug, count: 1, price: 30 }] }\n';
  const ALL_IN_TIME = { p3: null, s1: null, s2: null, g1: null };

  it('says what is not committed, record by record', async () => {
    const { folder, commit } = repository();
    commit('2026-03-12T18:00:00+0100');
    expect(await marks(folder, '2026-03-12')).toEqual(ALL_IN_TIME);
    const sales = `${HILL_STREET['sales.yaml'] ?? ''}${NEW}`;
    // What is laid out otherwise is the same record.
    writeFileSync(
      join(folder, 'sales.yaml'),
      sales
        .replace('count: 2, price: 15', 'count: 3, price: 15')
        .replace('s1: { date', 's1: {   date'),
    );
    expect(await marks(folder, '2026-03-12')).toEqual({
      ...ALL_IN_TIME,
      s2: 'changed, not committed',
      s4: 'not committed',
    });
    const { out } = await list(folder, { date: '2026-03-12' });
    expect(out).toMatch(/^Record +Kind +What +Git$/m);
    expect(out).toMatch(/^s4 +sale +door, 1 mug, 30\.00 +not committed$/m);
    commit('2026-03-12T23:30:00+0100');
    expect(await marks(folder, '2026-03-12')).toEqual({ ...ALL_IN_TIME, s4: null });
  });

  it('says what came with a commit of a later day, by the clock of whoever made it', async () => {
    const { folder, commit } = repository();
    // It is already the 12th in Greenwich.
    commit('2026-03-11T23:30:00-0500');
    appendFileSync(join(folder, 'sales.yaml'), NEW);
    commit('2026-03-12T23:59:00-0800');
    appendFileSync(join(folder, 'sales.yaml'), NEW.replace('s4', 's5'));
    // The lots of the day were there, though their file is another now.
    appendFileSync(join(folder, 'pieces.yaml'), '# more\n');
    commit('2026-03-13T00:01:00+1300');
    expect(await marks(folder, '2026-03-12')).toEqual({
      ...ALL_IN_TIME,
      s4: null,
      s5: 'in a later commit',
    });
    // All the others came on the 11th or later, but no commit is earlier: nothing can be said.
    expect(await marks(folder, '2026-03-10')).toEqual({ p2: null });
  });

  it('finds a record that moved to another file', async () => {
    const { folder, commit } = repository();
    commit('2026-03-12T12:00:00+0000');
    const text = HILL_STREET['consigned.yaml'] ?? '';
    writeFileSync(join(folder, 'consigned.yaml'), '');
    execFileSync('mkdir', [join(folder, 'consigned')]);
    writeFileSync(join(folder, 'consigned', '2026.yaml'), text);
    expect(await marks(folder, '2026-03-12')).toEqual(ALL_IN_TIME);
    commit('2026-03-13T12:00:00+0000');
    expect(await marks(folder, '2026-03-12')).toEqual(ALL_IN_TIME);
  });

  it('is not spoken of without a repository, and marks all before the first commit', async () => {
    const { out } = await list(tempStudio(HILL_STREET), { date: '2026-03-12' });
    expect(out).not.toMatch(/Git|commit/);
    const { folder } = repository();
    expect(new Set(Object.values(await marks(folder, '2026-03-12')))).toEqual(
      new Set(['not committed']),
    );
  });
});
