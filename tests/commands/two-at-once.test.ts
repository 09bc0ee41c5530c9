/** Two that sell the last mug at the same moment: one does, and the other is told that it is gone. */
import { chmodSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runSaggar } from '../helpers/program.ts';
import { small } from '../helpers/small-studio.ts';
import { filesIn } from '../helpers/temp-studio.ts';
import { HAS_PYTHON, left, play, type Step } from '../terminal/drive.ts';

const PROGRAM = resolve(import.meta.dirname, '../../bin/saggar.js');
const SALE = [
  'add',
  'sales',
  '--as-of',
  '2026-05-01',
  '--channel',
  'shop',
  '--line',
  '1 mug at 40',
];
const MOST = `s260420ef:
  date: 2026-04-20
  channel: shop
  lines:
    - { product: mug, count: 10, price: 36 }
`;

/** A studio with a single mug left. */
function lastMug(): string {
  return small({ 'sales/2026-03.yaml': MOST.replaceAll('04-20', '04-21') });
}

describe('the last mug', () => {
  it.each([1, 2, 3, 4])('is sold once, at whichever moment two sell it (%i)', async () => {
    const folder = lastMug();
    const record = ['add', 'sales', '-', '--as-of', '2026-05-01'];
    const input = 'channel: shop\nlines: [1 mug at 40]\n';
    const ran = await Promise.all([
      runSaggar(SALE, { folder }),
      runSaggar(record, { folder, input }),
    ]);
    expect(ran.map(({ status }) => status).sort()).toEqual([0, 1]);
    const refused = ran.find(({ status }) => status === 1)!;
    expect(refused.err).toMatch(/sold-more-than-finished|no firsts of/);
    expect(refused.err).toContain('# Not saved');
    expect(Object.values(filesIn(folder)).join('').split('price: 40').length - 1).toBe(1);
    expect((await runSaggar(['check'], { folder })).status).toBe(0);
  });
});

/** The questions for a sale of a mug, up to the last one. */
const ASKED = ['add', 'sales', '--as-of', '2026-05-01', '--id', 's260501aa'];
const ANSWERS: readonly Step[] = [
  ['date: usual: 2026-05-01', ''],
  ['Channel', 'shop'],
  ['    - ', '1 mug at 41'],
  ['this sale 41.00 USD', ''],
  ['a260308kt', ''],
  ['usual: no', ''],
].flatMap(([see = '', text = '']) => [{ see }, { send: `${text}\r` }]);
const CHANGED = 'The studio has changed since you were shown this.';

/** Another process that adds a sale while the question is on the screen. */
function meanwhile(words: readonly string[]): readonly Step[] {
  return [{ see: 'Save, change or discard?' }, { run: [process.execPath, PROGRAM, ...words] }];
}

describe.skipIf(!HAS_PYTHON)('a sale that is agreed to at a terminal', () => {
  it('is looked at again where another sold the last one meanwhile, and not written', async () => {
    const folder = lastMug();
    const steps = [
      ...ANSWERS,
      ...meanwhile(SALE),
      { send: '\r' },
      { see: 'Which one to change?' },
      { send: '\u0003' },
    ];
    const played = await play(folder, ASKED, { steps });
    expect(played).toMatchObject({ fault: null, status: 130 });
    expect(played.output).toContain(CHANGED);
    expect(played.output).toMatch(/sold-more-than-finished|no firsts of/);
    expect(Object.values(filesIn(folder)).join('')).not.toContain('s260501aa');
  });

  it('is shown again where it still can be, and written once it is agreed to', async () => {
    const folder = small();
    const steps = [
      ...ANSWERS,
      ...meanwhile(SALE),
      { send: '\r' },
      { see: CHANGED },
      { see: 'Save, change or discard?' },
      { send: '\r' },
    ];
    const played = await play(folder, ASKED, { steps });
    expect(played).toMatchObject({ fault: null, status: 0 });
    expect(left(played)).toContain('mug in the studio 10 → 9');
    expect(filesIn(folder)['sales/2026-05.yaml']).toContain('s260501aa:');
    expect((await runSaggar(['check'], { folder })).status).toBe(0);
  });

  it('is written at once where nothing moved, and holds no lock while somebody thinks', async () => {
    const folder = small();
    const remove = ['remove', 's260401ab', '--dry-run'];
    const played = await play(folder, ASKED, {
      steps: [...ANSWERS, ...meanwhile(remove), { send: '\r' }],
    });
    expect(played).toMatchObject({ fault: null, status: 0 });
    expect(played.output).not.toContain(CHANGED);
  });
});

it('a dry run takes no lock, and waits for none', async () => {
  const folder = small();
  writeFileSync(
    join(folder, '.saggar-lock'),
    JSON.stringify({ pid: 7, host: 'elsewhere', started: '' }),
  );
  chmodSync(folder, 0o555);
  const ran = await runSaggar([...SALE, '--dry-run'], { folder });
  chmodSync(folder, 0o755);
  expect(ran).toMatchObject({ status: 0, err: '' });
  expect(ran.out).toContain('+    - { product: mug, count: 1, price: 40 }');
});
