import { describe, expect, it } from 'vitest';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { runSaggar } from '../helpers/program.ts';
import { filesIn } from '../helpers/temp-studio.ts';
import {
  CONTROL_C,
  CONTROL_U,
  ENTER,
  HAS_PYTHON,
  answer,
  left,
  play,
  type Played,
  type Step,
} from './drive.ts';

const SALE = ['add', 'sales', '--as-of', '2026-05-01', '--id', 's260501aa'];
const ESCAPE = '\u001b';
const SHIFT_TAB = '\u001b[Z';
const BACKSPACE = '\u007f';
const DOWN = '\u001b[B';
const DISCARDED = 'Discarded. Nothing was saved.\n';

function pasted(text: string): Step {
  return { send: `\u001b[200~${text}\u001b[201~` };
}

/** A sale in the shop, which nobody pays by card or in advance for. */
const TO_LINES = answer('date: usual: 2026-05-01', '').concat(
  answer('channel: usual: market', 'shop'),
);
const IN_SHOP: readonly Step[] = [
  ...TO_LINES,
  ...answer('    - ', '2 mug'),
  ...answer('this sale 40.00 USD', '1 mug second'),
  ...answer('this sale 64.00 USD', ''),
  ...answer('Advances', ''),
  ...answer('Paid', ''),
];

const THROUGH_A_SALE: readonly Step[] = [
  ...answer('date: usual: 2026-05-01', ''),
  ...answer('channel: usual: market', ''),
  ...answer('before the first sale: ', '40'),
  ...answer('    - ', '2 mug'),
  ...answer('this sale 77.00 USD', '1 mug second'),
  ...answer('this sale 101.00 USD', ''),
  ...answer('Cash in the box now', '120'),
  ...answer('Taken by card', '20'),
  ...answer('1.00 short', ''),
  ...answer('Save, change or discard?', ''),
];

/** Whether the terminal is told to mark no paste any more. */
function marksNoPaste({ output }: Played): boolean {
  return output.lastIndexOf('\u001b[?2004l') > output.lastIndexOf('\u001b[?2004h');
}

describe.skipIf(!HAS_PYTHON)('an entry at a terminal', () => {
  it('writes the same bytes as options', async () => {
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

  it.each([
    [40, 24],
    [80, 24],
    [120, 40],
    [40, 8],
  ] as const)(
    'shows what it will write, and what that changes, on %i columns and %i rows',
    async (...size) => {
      const folder = small();
      // On few rows there is none for what it changes.
      const isRoomy = size[1] > 8;
      const [first, second] = isRoomy ? ['this sale 40', 'this sale 64'] : ['20 }', '24.00 }'];
      const steps: readonly Step[] = [
        ...TO_LINES,
        ...(isRoomy ? [{ see: 'sales/2026-05.yaml (new file)' }, { see: '  s260501aa:' }] : []),
        ...answer('    - ', '2 mug'),
        ...answer(first, '1 mug second'),
        ...answer(second, ''),
        ...answer('Advances', ''),
        ...answer('Paid', ''),
        ...answer('Save, change or discard?', ''),
      ];
      const played = await play(folder, SALE, { steps, size });
      expect(played).toMatchObject({ fault: null, status: 0, restored: true });
      expect(filesIn(folder)['sales/2026-05.yaml']).toContain(
        '    - { product: mug, grade: second, count: 1, price: 24.00 }\n',
      );
    },
  );

  it('goes back by Escape and Shift-Tab, and an answer is changed', async () => {
    const folder = small();
    const steps = [
      ...answer('date: usual: 2026-05-01', '2026-04-30'),
      { see: 'channel: usual: market' },
      { send: ESCAPE },
      ...answer('date: 2026-04-30', '2026-04-29'),
      ...answer('channel: usual: market', 'sho'),
      ...answer('    - ', '1 mugg'),
      { see: '! "mugg" is neither' },
      { send: CONTROL_U },
      ...answer('    - ', '1 mug at 50'),
      { see: 'this sale 50.00 USD' },
      { send: SHIFT_TAB },
      { see: '- 1 mug at 50' },
      { send: BACKSPACE + BACKSPACE + '41' + ENTER },
      ...answer('this sale 41.00 USD', ''),
      ...answer('a260308kt 41.00', ''),
      ...answer('paid: usual: no', ''),
      ...answer('Save, change or discard?', ''),
    ];
    const played = await play(folder, SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    expect(filesIn(folder)['sales/2026-04.yaml']).toContain(
      's260501aa:\n  date: 2026-04-29\n  channel: shop\n  paid: no\n  lines:\n    - { product: mug, count: 1, price: 41 }\n',
    );
  });

  it('takes an arrow for no Escape, also where its signs come one by one', async () => {
    const steps: readonly Step[] = [
      ...answer('date: usual: 2026-05-01', ''),
      { see: 'channel: usual: market' },
      { send: ESCAPE },
      { send: '[' },
      { send: 'B' },
      { see: '* market' },
      { send: DOWN + ENTER },
      { see: 'channel: shop' },
      { send: CONTROL_C },
    ];
    const played = await play(small(), SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 130, restored: true });
  });

  it('changes a field, takes a line out and adds one, and saves that', async () => {
    const folder = small();
    const steps: readonly Step[] = [
      ...IN_SHOP,
      ...answer('Save, change or discard?', 'c'),
      { see: 'Which one to change?' },
      { send: DOWN },
      { see: '>   channel: shop' },
      { send: ENTER },
      ...answer('channel: shop', 'market'),
      ...answer('before the first sale', ''),
      ...answer('Cash in the box now', ''),
      ...answer('Taken by card', ''),
      ...answer('sale s260501aa 101.00 USD', 'change'),
      { see: 'Which one to change?' },
      { send: DOWN + DOWN + DOWN },
      { see: '>     - { product: mug, count: 2' },
      { send: ENTER },
      { see: '- 2 mug' },
      { send: CONTROL_U + ENTER },
      ...answer('sale s260501aa 24.00 USD', ''),
    ];
    const played = await play(folder, SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    expect(filesIn(folder)['sales/2026-05.yaml']).toContain(
      's260501aa:\n  date: 2026-05-01\n  channel: market\n  lines:\n    - { product: mug, grade: second, count: 1, price: 24.00 }\n',
    );
  });

  it('leads to the field with the problem where the whole record is refused', async () => {
    const folder = small();
    const steps: readonly Step[] = [
      ...IN_SHOP,
      ...answer('Save, change or discard?', 'c'),
      { see: 'Which one to change?' },
      { send: ENTER },
      // The mugs came out of the kiln on the 20th.
      ...answer('date: 2026-05-01', '2026-03-15'),
      { see: '! not enough of mug' },
      { see: 'Which one to change?' },
      { send: CONTROL_C },
    ];
    const played = await play(folder, SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 130, restored: true });
    expect(left(played)).toBe(DISCARDED);
  });

  it.each([
    ['Ctrl-C at once', [{ see: 'date' }, { send: CONTROL_C }]],
    ['Ctrl-C at the end', [...THROUGH_A_SALE.slice(0, -1), { send: CONTROL_C }]],
    ['Discard', [...THROUGH_A_SALE.slice(0, -1), { send: `d${ENTER}` }]],
  ] as const)('%s leaves no trace', async (_how, steps) => {
    const folder = small();
    const played = await play(folder, SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 130, restored: true });
    expect(left(played)).toBe(DISCARDED);
    expect(marksNoPaste(played)).toBe(true);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('leaves the terminal as it was when the program is stopped', async () => {
    const steps = [{ see: 'date' }, { stop: 'SIGTERM' }] as const;
    const played = await play(small(), SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 143, restored: true });
    expect(left(played)).toBe('');
    expect(marksNoPaste(played)).toBe(true);
  });

  it('fits the terminal when its size changes', async () => {
    const folder = small();
    const steps: readonly Step[] = [
      ...answer('date: usual: 2026-05-01', ''),
      { see: 'channel: usual: market' },
      { size: [40, 12] },
      { see: 'channel: usual: market' },
      { send: '陶器' },
      { see: '>   channel: 陶器' },
      { size: [200, 50] },
      { see: '>   channel: 陶器' },
      { send: CONTROL_C },
    ];
    const played = await play(folder, SALE, { steps, size: [60, 20] });
    expect(played).toMatchObject({ fault: null, status: 130, restored: true });
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('takes each line of a paste as an answer, and holds the rest where one is refused', async () => {
    const folder = small();
    const steps: readonly Step[] = [
      { see: 'date: usual: 2026-05-01' },
      pasted('2026-05-01\nshop\n1 mug at 30\n2 mugg\n1 mug second\n'),
      { see: '+ 1 mug second' },
      { see: '! "mugg" is neither' },
      { send: CONTROL_U + '2 mug at 31' + ENTER },
      // 30.00 + 2 × 31.00 + 24.00
      ...answer('this sale 116.00 USD', ''),
      ...answer('Advances', ''),
      ...answer('Paid', ''),
      ...answer('Save, change or discard?', ''),
    ];
    const played = await play(folder, SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    expect(filesIn(folder)['sales/2026-05.yaml']).toContain(
      '    - { product: mug, count: 1, price: 30 }\n    - { product: mug, count: 2, price: 31 }\n    - { product: mug, grade: second, count: 1, price: 24.00 }\n',
    );
  });

  it('is not asked for with --no-input, which names all that is missing', async () => {
    const played = await play(small(), [...SALE, '--no-input', '--buyer', 'x'], { steps: [] });
    expect(played).toMatchObject({ status: 1, restored: true });
    expect(left(played)).toContain(
      'this sale has no channel and no lines; give --channel and --line\n',
    );
    const bare = await play(small(), [...SALE, '--no-input'], { steps: [] });
    expect(bare.status).toBe(2);
    expect(left(bare)).toContain('this sale has no channel and no lines');
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
