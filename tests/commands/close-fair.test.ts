/** The end of a fair day through the command, with what comes of it by hand. */
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { changes, filesIn, tempStudio } from '../helpers/temp-studio.ts';

const STUDIO = {
  'studio.yaml': 'format: 1\nname: Lane End\ncurrency: USD\n',
  'kilns.yaml': 'kiln: { name: Kiln, fuel: wood }\n',
  'channels.yaml': 'green: { name: Green, kind: fair, fee-percent: 1.69% }\n',
  'products.yaml':
    'mug: { name: Mug, fired: [once], price: 28, second: 18 }\nbowl: { name: Bowl, fired: [once], price: 40 }\njar: { name: Jar, fired: [once] }\n',
  'pieces.yaml': `p1:
  date: 2026-01-02
  product: mug
  made: 10
p2:
  date: 2026-01-03
  product: mug
  made: 20
p3:
  date: 2026-01-03
  product: bowl
  made: 8
p4:
  date: 2026-01-03
  product: jar
  made: 3
`,
  'firings.yaml':
    'f1: { date: 2026-02-01, kiln: kiln, kind: once, load: [{ lot: p1, in: 10, first: 8, second: 2 }, { lot: p2, in: 20, first: 20 }, { lot: p3, in: 8, first: 8 }, { lot: p4, in: 3, first: 3 }] }\n',
  'fairs.yaml': `k1:
  date: 2026-05-16
  last: 2026-05-17
  name: Green in May
  channel: green
  take:
    - { product: mug, count: 24 }
    - { product: mug, grade: second, count: 2 }
    - { product: bowl, count: 6 }
k2:
  date: 2026-06-06
  name: Green in June
  channel: green
`,
  'sales.yaml': `s1:
  date: 2026-05-16
  channel: green
  lines:
    - { product: mug, count: 3, price: 28 }
  card: 28
`,
};

function close(folder: string, words: readonly string[], day = '2026-05-16'): Promise<Said> {
  const dryRun = words.includes('--dry-run');
  const rest = words.filter((word) => word !== '--dry-run');
  const options = { closing: true, ...(dryRun ? { dryRun } : {}) };
  return run(add, folder, { words: ['sales', ...rest], options, today: day });
}

const BACK = ['--back', '9 mug', '--back', '1 mug second', '--back', '4 bowl'];
const MONEY = ['--cash', '300', '--float', '50', '--card', '260'];

describe('the end of a fair day', () => {
  it('reckons with the sales tax of its place, and writes it', async () => {
    const folder = tempStudio({
      ...STUDIO,
      'studio.yaml': `${STUDIO['studio.yaml']}taxes: [{ place: Tansy, percent: 6.5%, from: 2026-01-01 }]\n`,
      'channels.yaml': 'green: { name: Green, kind: fair, fee-percent: 1.69%, tax-place: Tansy }\n',
    });
    // 2 mugs gone of 3: 56.00, and 6.5 % of it 3.64: 59.64, with 14.64 in cash and 45.00 by card.
    const back = ['--took', '3 mug', '--back', '1 mug'];
    const money = ['--cash', '24.64', '--float', '10', '--card', '45'];
    const { out, err } = await close(
      folder,
      ['--fair', 'k2', ...back, ...money, '--sold', 'all'],
      '2026-06-06',
    );
    expect(err).toBe('');
    expect(out).toMatch(/Tax on top +3\.64\n/);
    expect(out).toContain('there should be 59.64, and there is 59.64: it fits.');
    expect(filesIn(folder)['sales.yaml']).toMatch(
      /count: 2, price: 28 \}\n {2}tax: 3\.64\n {2}card: 45/,
    );
  });

  it('asks for the card total from the day on that its channel has a reader', async () => {
    const folder = tempStudio({
      ...STUDIO,
      'channels.yaml':
        'green: { name: Green, kind: fair, changes: [{ from: 2026-06-01, fee-percent: 2% }] }\n',
    });
    const told = [...BACK, '--cash', '300'];
    // 16 May is before the change, 6 June after it.
    expect((await close(folder, ['--fair', 'k1', ...told])).err).toBe('');
    const june = await close(
      folder,
      ['--fair', 'k2', '--took', '30 mug', ...told.slice(0, 2), '--cash', '300'],
      '2026-06-06',
    );
    expect(june.err).toContain('say what went through the card reader all day with --card');
  });

  it('shows what is gone and the money, and writes nothing that is not said', async () => {
    const folder = tempStudio(STUDIO);
    const { status, out, err } = await close(folder, ['--fair', 'k1', ...BACK, ...MONEY]);
    expect([status, err]).toEqual([0, '']);
    // 24 − 9 − 3 sold = 12 mugs at 28, 1 second at 18, 2 bowls at 40: 336 + 18 + 80 = 434.
    // 3 × 28 = 84 on record: 518 should be there; 300 − 50 + 260 = 510 is.
    expect(out).toBe(`Green in May (k1), 2026-05-16
              taken  back  on record  gone  price  come to
  mug            24     9          3    12  28.00   336.00
  mug second      2     1          0     1  18.00    18.00
  bowl            6     4          0     2  40.00    80.00
  Gone pieces at their usual prices                          434.00
  Came in by the records of the day                           84.00
  There should be                                            518.00
  Cash 300.00 less 50.00 in the morning, and 260.00 by card  510.00
  Short                                                        8.00
Nothing was written. Say what became of the gone pieces: --sold all, --missing all, or piece by piece, as in --sold "12 mug".
`);
    expect(filesIn(folder)).toEqual(STUDIO);
  });

  it('writes one sale and what is missing, the oldest lots first, and takes it back', async () => {
    const folder = tempStudio(STUDIO);
    const fate = ['--missing', '6 mug', '--sold', '1 mug at 20', '--sold', 'all'];
    const { status, out, err } = await close(folder, ['--fair', 'k1', ...BACK, ...MONEY, ...fate]);
    expect([status, err]).toEqual([0, '']);
    // Of the 8 firsts of p1 the fair sold 3, so 5 are left of it; 260 − 28 by card go with the sale,
    // which comes to 20 + 5 × 28 + 18 + 80 = 258. 84 + 258 = 342, 168 less than there is.
    expect(changes(folder, STUDIO)).toEqual({
      'sales.yaml': `${STUDIO['sales.yaml']}
s260516bb:
  date: 2026-05-16
  channel: green
  fair: k1
  lines:
    - { product: mug, count: 1, price: 20 }
    - { product: mug, count: 5, price: 28 }
    - { product: mug, grade: second, count: 1, price: 18 }
    - { product: bowl, count: 2, price: 40 }
  card: 232.00
`,
      'pieces.yaml': STUDIO['pieces.yaml']
        .replace(
          '  made: 10\n',
          '  made: 10\n  gone:\n    - { date: 2026-05-16, count: 5, how: missing, fair: k1 }\n',
        )
        .replace(
          '  made: 20\n',
          '  made: 20\n  gone:\n    - { date: 2026-05-16, count: 1, how: missing, fair: k1 }\n',
        ),
    });
    expect(out).toContain('there should be 342.00, and there is 510.00: 168.00 over.\n');
    expect(out).toContain('The difference is not written anywhere.\n');
    // 232 × 1.69 % = 3.9208.
    expect(out).toContain('  sale s260516bb 258.00 USD, fee 3.92\n');
    expect(out).toContain(
      'Undo: saggar remove s260516bb && saggar amend p1 gone.1= && saggar amend p2 gone.1=\n',
    );
  });

  it('writes a discount only where it is said', async () => {
    const folder = tempStudio(STUDIO);
    const words = ['--fair', 'k1', ...BACK, ...MONEY, '--sold', 'all', '--discount', '8'];
    const { out } = await close(folder, [...words, '--dry-run']);
    expect(out).toContain('there should be 510.00, and there is 510.00: it fits.');
    expect(out).toContain('+  discount: 8\n+  card: 232.00\n');
    expect(filesIn(folder)).toEqual(STUDIO);
  });

  it('ends the second day with what the first left', async () => {
    const folder = tempStudio(STUDIO);
    await close(folder, ['--fair', 'k1', ...BACK, ...MONEY, '--sold', 'all']);
    const back = ['--back', '7 mug', '--back', '1 mug second', '--back', '4 bowl'];
    const money = ['--cash', '56', '--card', '0', '--sold', 'all'];
    const { status, out } = await close(folder, ['--fair', 'k1', ...back, ...money], '2026-05-17');
    // 24 were taken, 15 are sold on the first day, 7 came back: 2 at 28 are gone.
    expect(status).toBe(0);
    expect(out).toContain('  mug     24     7         15     2  28.00    56.00\n');
    expect(out).toContain('there should be 56.00, and there is 56.00: it fits.');
    expect(filesIn(folder)['sales.yaml']).toContain(
      '  date: 2026-05-17\n  channel: green\n  fair: k1\n  lines:\n    - { product: mug, count: 2, price: 28 }\n  card: 0.00\n',
    );
  });

  it('says so where nothing is gone and no money differs', async () => {
    const folder = tempStudio(STUDIO);
    const back = ['--back', '21 mug', '--back', '2 mug second', '--back', '6 bowl'];
    const money = ['--cash', '56', '--card', '28', '--sold', 'all'];
    const { status, out } = await close(folder, ['--fair', 'k1', ...back, ...money]);
    expect(status).toBe(0);
    expect(out).toContain('Nothing is gone beside what is on record.\n');
    expect(out).toContain('It fits');
    expect(out.endsWith('There is nothing to write.\n')).toBe(true);
    expect(filesIn(folder)).toEqual(STUDIO);
  });

  it('closes a fair of 30 lines by count', async () => {
    // Of product i (1 to 30), at 10 + i, 3 were taken and i mod 4 came back, at most 3: gone are 3 less
    // that. Over a turn of four 2 + 1 + 0 + 3 are gone; 7 turns and then 2 (i = 29) and 1 (i = 30).
    const each = Array.from({ length: 30 }, (_, at) => at + 1);
    const lines = (of: (i: number) => string): string => each.map(of).join('');
    const folder = tempStudio({
      ...STUDIO,
      'products.yaml': lines((i) => `w${i}: { name: W, fired: [once], price: ${10 + i} }\n`),
      'pieces.yaml': lines((i) => `q${i}: { date: 2026-01-02, product: w${i}, made: 3 }\n`),
      'firings.yaml': `f1:\n  date: 2026-02-01\n  kiln: kiln\n  kind: once\n  load:\n${lines((i) => `    - { lot: q${i}, in: 3, first: 3 }\n`)}`,
      'fairs.yaml': `k1:\n  date: 2026-05-16\n  name: May\n  channel: green\n  take:\n${lines((i) => `    - { product: w${i}, count: 3 }\n`)}`,
      'sales.yaml': '',
    });
    const back = each.flatMap((i) => ['--back', `${i % 4} w${i}`]);
    const { status, out } = await close(folder, [
      ...back,
      '--card',
      '460',
      '--cash',
      '800',
      '--sold',
      'all',
    ]);
    // Gone pieces: 7 × 6 + 3 = 45, so 450 and Σ i × gone. Of turn t (i from 4t + 1 to 4t + 4):
    // 2(4t+1) + 1(4t+2) + 0(4t+3) + 3(4t+4) = 24t + 16; t from 0 to 6: 24 × 21 + 112 = 616.
    // And 29 × 2 + 30 × 1 = 88. In all 450 + 616 + 88 = 1,154.
    expect(status).toBe(0);
    expect(out).toMatch(/Gone pieces at their usual prices +1,154\.00\n/);
    expect(out).toContain('there should be 1,154.00, and there is 1,260.00: 106.00 over.');
    // 460 × 1.69 % = 7.774.
    expect(out).toContain('1,154.00 USD, fee 7.77\n');
  });

  it.each([
    [['--fair', 'k3', '--back', 'none'], 'there is no fair "k3" in this studio; did you mean k1?'],
    [['--fair', 'mug', '--back', 'none'], 'mug is a product, not a fair'],
    [['--back', '9 mug', '--card', '260', '--flaot', '1'], 'did you mean --float?'],
    [
      ['--back', '22 mug', '--card', '260'],
      '22 mug came back, but 24 were taken along and 3 are sold',
    ],
    [['--back', '1 jar', '--card', '260'], '1 jar came back, but none was taken along'],
    [['--back', '9 mugg', '--card', '260'], 'did you mean "mug"?'],
    [
      ['--back', 'none', '--card', '27.99'],
      '--card: 27.99 by card is less than the 28.00 of the sales',
    ],
    [
      ['--back', 'none', '--card', '260', '--cash', '10', '--float', '-5'],
      '--float: "-5" is not an amount',
    ],
    [
      ['--back', 'none', '--card', '260', '--cash', '10.005'],
      '--cash: 10.005 has more decimals than USD',
    ],
    [['--back', 'none'], 'say what went through the card reader all day with --card'],
    [['--card', '260'], 'say what came back with --back'],
    [
      ['--took', '2 jar', '--back', 'none', '--card', '28', '--sold', 'all'],
      'jar has no price; write --sold "2 jar at PRICE"',
    ],
    [
      ['--back', 'none', '--card', '260', '--sold', '22 mug'],
      '--sold: 22 mug, but 21 are gone and not spoken for',
    ],
    [
      ['--back', 'none', '--card', '260', '--sold', 'all', '--missing', 'all'],
      'sold or missing, not both',
    ],
    [['--back', 'none', '--card', '260', '--discount', '5'], '--discount is of the sale'],
    [['--date', '2026-05-20', '--fair', 'k1', '--back', 'none'], 'k1 is 2026-05-16 to 2026-05-17'],
    [['--fair', 'k2', '--back', 'none'], 'k2 on 2026-06-06 is still to come'],
  ])('refuses %j', async (words, reason) => {
    const folder = tempStudio(STUDIO);
    const said = await close(folder, words);
    expect(said.status).not.toBe(0);
    expect(said.err.replace(/\s+/g, ' ')).toContain(reason);
    expect(filesIn(folder)).toEqual(STUDIO);
  });

  it('takes what came back, was sold or is missing from a list of lines', async () => {
    const folder = tempStudio(STUDIO);
    const input =
      '# what came back\n14 mug\n2 mug second\nback: 5 bowl\nsold 7 mug\nmissing bowl\n';
    const words = ['sales', '--card', '224'];
    const options = { closing: true, lines: '-' };
    const said = await run(add, folder, { words, options, input, today: '2026-05-16' });
    // Of 24 mugs 3 are sold on record and 14 came back, so 7 are gone; of 6 bowls one.
    expect(said.err).toBe('');
    expect(filesIn(folder)['sales.yaml']).toContain('{ product: mug, count: 7, price: 28 }');
    expect(filesIn(folder)['pieces.yaml']).toContain('how: missing');
    const wrong = { words, options, input: 'none\nsold 7 mugg\n', today: '2026-05-16' };
    expect((await run(add, tempStudio(STUDIO), wrong)).err).toContain('standard input:2:8');
  });
});
