import { describe, expect, it } from 'vitest';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { runSaggar } from '../helpers/program.ts';
import { filesIn } from '../helpers/temp-studio.ts';
import { HAS_PYTHON, left, play, type Step } from './drive.ts';

const SALE = ['add', 'sales', '--as-of', '2026-05-01', '--id', 's260501aa'];
const ENTER = '\r';
const CONTROL_C = '\u0003';
const GIVEN_UP = 'Given up: nothing was written.\n';

/** Waits for a text, then types an answer. */
function answer(see: string, text: string): Step[] {
  return [{ see }, { send: text + ENTER }];
}

const THROUGH_A_SALE: readonly Step[] = [
  ...answer('Date [2026-05-01]', ''),
  ...answer('Channel [market]', ''),
  ...answer('before the first sale', '40'),
  ...answer('Lines', '2 mug'),
  ...answer('total 77.00 USD', '1 mug second'),
  ...answer('total 101.00 USD', ''),
  ...answer('Cash in the box now', '120'),
  ...answer('Taken by card', '20'),
  ...answer('1.00 short', ''),
  ...answer('Write it? [yes]', ''),
];

describe.skipIf(!HAS_PYTHON)('questions at a terminal', () => {
  it('write the same bytes as options', async () => {
    const [asked, byOptions] = [small(), small()];
    const played = await play(asked, SALE, { steps: THROUGH_A_SALE });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    expect(left(played)).toContain('Added s260501aa to sales/2026-05.yaml.\n');
    const line = ['--line', '2 mug', '--line', '1 mug second'];
    expect(
      await runSaggar([...SALE, '--channel', 'market', ...line], { folder: byOptions }),
    ).toMatchObject({ status: 0 });
    expect(filesIn(asked)).toEqual(filesIn(byOptions));
    expect(filesIn(asked)).not.toEqual(SMALL_STUDIO);
  });

  it('go back, and an answer is changed', async () => {
    const folder = small();
    const steps = [
      ...answer('Date [2026-05-01]', '2026-04-30'),
      ...answer('Channel [market]', '<'),
      ...answer('Date [2026-04-30]', '2026-04-29'),
      ...answer('Channel [market]', 'sho'),
      ...answer('Lines', '1 mugg'),
      { see: 'did you mean "mug"?' },
      { send: '\u0015' },
      ...answer('Lines', '1 mug at 50'),
      ...answer('total 50.00 USD', '<'),
      { see: '> 1 mug at 50' },
      { send: '\u007f\u007f41' + ENTER },
      ...answer('total 41.00 USD', ''),
      ...answer('a260308kt 41.00', ''),
      ...answer('Write it? [yes]', ''),
    ];
    const played = await play(folder, SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    expect(filesIn(folder)['sales/2026-04.yaml']).toContain(
      's260501aa:\n  date: 2026-04-29\n  channel: shop\n  lines:\n    - { product: mug, count: 1, price: 41 }\n',
    );
  });

  it.each([
    ['Ctrl-C', 'at once', [{ see: 'Date' }, { send: CONTROL_C }]],
    ['Escape', 'at once', [{ see: 'Date' }, { send: '\u001b' }]],
    ['Ctrl-C', 'at the last question', [...THROUGH_A_SALE.slice(0, -1), { send: CONTROL_C }]],
  ] as const)('%s %s leaves no trace', async (_key, _when, steps) => {
    const folder = small();
    const played = await play(folder, SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 130, restored: true });
    expect(left(played)).toBe(GIVEN_UP);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('leave the terminal as it was when the program is stopped', async () => {
    const steps = [{ see: 'Date' }, { stop: 'SIGTERM' }] as const;
    const played = await play(small(), SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 143, restored: true });
    expect(left(played)).toBe('');
  });

  it('fit the terminal when its size changes, and take a paste with line ends as one line', async () => {
    const folder = small();
    const steps: readonly Step[] = [
      ...answer('Date [2026-05-01]', ''),
      { see: 'Channel [market]' },
      { size: [40, 12] },
      { see: 'Channel [market]' },
      { send: '\u001b[200~mar\nket\r\u001b[201~' },
      { see: '> mar ket' },
      { size: [200, 50] },
      { see: '> mar ket' },
      { send: '\u0015陶器' },
      { see: '> 陶器' },
      { send: CONTROL_C },
    ];
    const played = await play(folder, SALE, { steps, size: [60, 20] });
    expect(played).toMatchObject({ fault: null, status: 130, restored: true });
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('are not asked with --no-input, which names all that is missing', async () => {
    const played = await play(small(), [...SALE, '--no-input', '--buyer', 'x'], { steps: [] });
    expect(played).toMatchObject({ status: 1, restored: true });
    expect(left(played)).toContain(
      'this sale has no channel and no lines; give --channel and --line\n',
    );
    const bare = await play(small(), [...SALE, '--no-input'], { steps: [] });
    expect(bare.status).toBe(2);
    expect(left(bare)).toContain('this sale has no channel and no lines');
  });

  it('are not asked on a terminal that nothing can be drawn on', async () => {
    const played = await play(small(), SALE, { steps: [], env: { TERM: 'dumb' } });
    expect(played.status).toBe(2);
    expect(left(played)).toContain('give --channel and --line');
  });

  it('end a day at a fair', async () => {
    const fair = `k260430mt:
  date: 2026-04-30
  name: May eve
  channel: fee-market
  take:
    - { product: mug, count: 6 }
    - { product: mug, grade: second, count: 1 }
`;
    const channel = 'fee-market:\n  name: Fee market\n  kind: fair\n  fee-percent: 1.69%\n';
    const more = {
      'fairs/2026.yaml': fair,
      'channels.yaml': `${SMALL_STUDIO['channels.yaml'] ?? ''}\n${channel}`,
    };
    const [asked, byOptions] = [small(more), small(more)];
    const words = ['add', 'sales', '--closing', '--as-of', '2026-04-30', '--id', 's260430aa'];
    const steps = [
      ...answer('mug: 6 taken; came back [0]', '7'),
      { see: '7 mug came back, but 6 were taken along' },
      { send: '\u0015' },
      ...answer('mug: 6 taken; came back [0]', '2'),
      ...answer('mug second: 1 taken; came back [0]', '1'),
      ...answer('Cash in the box now', '90'),
      ...answer('in the morning [0.00]', '20'),
      ...answer("reader's total of the day [0.00]", '40'),
      // 4 × 38.50 = 154.00; 90 − 20 + 40 = 110.00.
      { see: 'There should be 154.00, and there is 110.00: 44.00 short.' },
      ...answer('mug: 4 gone at 38.50; sold [4]', '3'),
      ...answer('mug: 1 gone; missing [1]', ''),
      ...answer('5.50 short; discount to write', '5.50'),
      { see: 'it fits' },
      ...answer('Write it? [yes]', ''),
    ];
    const played = await play(asked, words, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    const told = ['--back', '2 mug', '--back', '1 mug second', '--cash', '90', '--float', '20'];
    const fate = ['--card', '40', '--sold', '3 mug', '--missing', '1 mug', '--discount', '5.50'];
    expect(await runSaggar([...words, ...told, ...fate], { folder: byOptions })).toMatchObject({
      status: 0,
    });
    expect(filesIn(asked)).toEqual(filesIn(byOptions));
    expect(filesIn(asked)['sales/2026-04.yaml']).toContain('  discount: 5.50\n  card: 40.00\n');
    expect(filesIn(asked)['pieces/p260301ab.yaml']).toContain('how: missing, fair: k260430mt');
  });

  it('ask how much of a sale was by card where the channel takes a fee', async () => {
    const channel = 'fee-market:\n  name: Fee market\n  kind: fair\n  fee-percent: 1.69%\n';
    const folder = small({ 'channels.yaml': channel + (SMALL_STUDIO['channels.yaml'] ?? '') });
    const steps = [
      ...answer('Lines', '2 mug'),
      ...answer('total 77.00 USD', ''),
      ...answer('By card', '77.01'),
      { see: '77.01 went by card, but the sale comes to 77.00' },
      { send: '\u0015' },
      ...answer('By card', '40'),
      ...answer('Write it? [yes]', ''),
    ];
    const words = [...SALE, '--date', '2026-05-01', '--channel', 'fee-market'];
    const first = [...answer('before the first sale', ''), ...steps.slice(0, -2)];
    const last = [...answer('Cash in the box now', ''), ...steps.slice(-2)];
    const played = await play(folder, words, { steps: [...first, ...last] });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    expect(filesIn(folder)['sales/2026-05.yaml']).toContain('  card: 40\n');
  });

  it('empty a kiln lot by lot', async () => {
    const [asked, byOptions] = [small(), small()];
    const steps = [
      ...answer('6 bowl p260302cd: firsts [6]', '4'),
      ...answer('seconds [0]', '1'),
      ...answer('lost [1]', '2'),
      { see: '6 pieces went in, but 4 first + 1 second + 2 lost = 7 came out' },
      { send: '\u0015' },
      ...answer('lost [1]', ''),
      ...answer('2 left to explain', '1 warped'),
      ...answer('1 left to explain', ''),
      ...answer('5 evening-class: firsts [5]', ''),
      ...answer('3 a neighbour: firsts [3]', ''),
      ...answer('Write it? [yes]', ''),
    ];
    const words = ['unload', 'f260430ef', '--as-of', '2026-05-01'];
    const played = await play(asked, words, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    const lines = ['4 first 1 second 1 lost 1 warped', '5 first', '3 first'];
    const options = lines.flatMap((line) => ['--line', line]);
    expect(await runSaggar([...words, ...options], { folder: byOptions })).toMatchObject({
      status: 0,
    });
    expect(filesIn(asked)).toEqual(filesIn(byOptions));
    expect(filesIn(asked)).not.toEqual(SMALL_STUDIO);
  });

  it('offer a name that acts on a terminal in signs that do not', async () => {
    const name = 'name: "M\\e[5;31mine\\u202e\\u200b\\a"';
    const acting = (file: string, old: string): Record<string, string> => ({
      [file]: (SMALL_STUDIO[file] ?? '').replace(`name: ${old}`, name),
    });
    const folder = small({
      ...acting('channels.yaml', 'Market'),
      ...acting('products.yaml', 'Mug'),
    });
    const steps = [
      ...answer('Date [2026-05-01]', ''),
      { see: 'market   M\\u{1B}[5;31mine\\u{202E}\\u{200B}\\u{7}' },
      { send: ENTER },
      ...answer('before the first sale', '40'),
      { see: 'Lines' },
      { send: '1 m\u200b' },
      { see: '1 m\\u{200B}' },
      { send: CONTROL_C },
    ];
    const played = await play(folder, SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 130, restored: true });
    // eslint-disable-next-line no-control-regex -- they are what is looked for
    expect(played.output).not.toMatch(/\u001b\[5;31m|[\u0007\u202e\u200b]/);
  });
});

describe('without a terminal', () => {
  it('nothing is asked, and all that is missing is named', async () => {
    const folder = small();
    const { status, out, err } = await runSaggar([...SALE, '--buyer', 'x'], { folder });
    expect([status, out]).toEqual([1, '']);
    expect(err).toContain('this sale has no channel and no lines; give --channel and --line\n');
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });
});
