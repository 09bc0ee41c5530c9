import { describe, expect, it } from 'vitest';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { runSaggar } from '../helpers/program.ts';
import { filesIn } from '../helpers/temp-studio.ts';
import { HAS_PYTHON, left, play, type Played, type Step } from './drive.ts';

const SALE = ['add', 'sales', '--as-of', '2026-05-01', '--id', 's260501aa'];
const ENTER = '\r';
const ESCAPE = '\u001b';
const SHIFT_TAB = '\u001b[Z';
const BACKSPACE = '\u007f';
const DOWN = '\u001b[B';
const CONTROL_C = '\u0003';
const CONTROL_U = '\u0015';
const DISCARDED = 'Discarded. Nothing was saved.\n';

/** Waits for a text, then types an answer. */
function answer(see: string, text: string): Step[] {
  return [{ see }, { send: text + ENTER }];
}

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
      ...answer('Save, change or discard?', ''),
    ];
    const played = await play(folder, SALE, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    expect(filesIn(folder)['sales/2026-04.yaml']).toContain(
      's260501aa:\n  date: 2026-04-29\n  channel: shop\n  lines:\n    - { product: mug, count: 1, price: 41 }\n',
    );
  });

  it('takes an arrow for no Escape, also where its signs come one by one', async () => {
    const steps: readonly Step[] = [
      ...answer('date: usual: 2026-05-01', ''),
      { see: 'channel: usual: market' },
      { send: ESCAPE },
      { send: '[' },
      { send: 'B' },
      { see: '> market' },
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

  it('ends a day at a fair', async () => {
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
      ...answer('mug: 6 taken; came back: usual: 0', '7'),
      { see: '7 mug came back, but 6 were taken along' },
      { send: CONTROL_U },
      ...answer('mug: 6 taken; came back: usual: 0', '2'),
      ...answer('mug second: 1 taken; came back: usual: 0', '1'),
      ...answer('Cash in the box now', '90'),
      ...answer('in the morning: usual: 0.00', '20'),
      ...answer("reader's total of the day: usual: 0.00", '40'),
      // 4 × 38.50 = 154.00; 90 − 20 + 40 = 110.00.
      { see: 'There should be 154.00, and there is 110.00: 44.00' },
      ...answer('mug: 4 gone at 38.50; sold: usual: 4', '3'),
      { see: '- { product: mug, count: 3, price: 38.50 }' },
      ...answer('mug: 1 gone; missing: usual: 1', ''),
      ...answer('5.50 short; discount to write', '5.50'),
      ...answer('Save, change or discard?', ''),
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

  it('asks how much of a sale was by card where the channel takes a fee', async () => {
    const channel = 'fee-market:\n  name: Fee market\n  kind: fair\n  fee-percent: 1.69%\n';
    const folder = small({ 'channels.yaml': channel + (SMALL_STUDIO['channels.yaml'] ?? '') });
    const steps = [
      ...answer('before the first sale', ''),
      ...answer('    - ', '2 mug'),
      ...answer('this sale 77.00 USD', ''),
      ...answer('By card', '77.01'),
      { see: '77.01 went by card, but the sale comes to 77.00' },
      { send: CONTROL_U },
      ...answer('By card', '40'),
      ...answer('Cash in the box now', ''),
      ...answer('Save, change or discard?', ''),
    ];
    const words = [...SALE, '--date', '2026-05-01', '--channel', 'fee-market'];
    const played = await play(folder, words, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    expect(filesIn(folder)['sales/2026-05.yaml']).toContain('  card: 40\n');
  });

  it('empties a kiln lot by lot', async () => {
    const [asked, byOptions] = [small(), small()];
    const steps = [
      ...answer('6 bowl p260302cd: firsts', '4'),
      ...answer('seconds', '1'),
      ...answer('lost', '2'),
      { see: '6 pieces went in, but 4 first + 1 second + 2 lost = 7 came out' },
      { send: CONTROL_U },
      ...answer('usual: 1', ''),
      ...answer('2 left to explain', '1 warped'),
      ...answer('1 left to explain', ''),
      ...answer('5 evening-class: firsts', ''),
      ...answer('3 a neighbour: firsts', ''),
      ...answer('Save, change or discard?', ''),
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

  it('offers a name that acts on a terminal in signs that do not', async () => {
    const name = 'name: "M\\e[5;31mine\\u202e\\u200b\\a"';
    const acting = (file: string, old: string): Record<string, string> => ({
      [file]: (SMALL_STUDIO[file] ?? '').replace(`name: ${old}`, name),
    });
    const folder = small({
      ...acting('channels.yaml', 'Market'),
      ...acting('products.yaml', 'Mug'),
    });
    const steps = [
      ...answer('date: usual: 2026-05-01', ''),
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

describe.skipIf(!HAS_PYTHON)('an entry in plain lines', () => {
  /** What the terminal sends for Enter, it hands on as the end of a line. */
  const steps: readonly Step[] = [
    ...answer('Date: ', ''),
    // The second of market, shop, gallery.
    ...answer('Channel: ', '2'),
    ...answer('Lines: ', '200 mug\r1 mug second'),
    { see: '! not enough of mug' },
    { see: 'These lines wait until that is answered:' },
    ...answer('  1 mug second', '2 mug'),
    { see: 'total 64.00 USD' },
    { send: '/back\r' },
    ...answer('Now: 1 mug second. Enter keeps it', ''),
    ...answer('total 64.00 USD', ''),
    ...answer('Advances: ', ''),
    { see: '  lines:\r\n    - { product: mug, count: 2, price: 20 }\r\n' },
    ...answer('Save, change or discard: ', ''),
  ];

  it.each([
    ['TERM=dumb', [], { TERM: 'dumb' }],
    ['no TERM', [], { TERM: '' }],
    ['--plain', ['--plain'], {}],
    ['SAGGAR_PLAIN=1', [], { SAGGAR_PLAIN: '1' }],
  ] as const)('asks one after the other and draws nothing: %s', async (_how, words, env) => {
    const folder = small();
    const played = await play(folder, [...SALE, ...words], { steps, env });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    // eslint-disable-next-line no-control-regex -- they are what is looked for
    expect(played.output).not.toMatch(/[\u001b\u2500]/);
    expect(filesIn(folder)['sales/2026-05.yaml']).toContain(
      '    - { product: mug, count: 2, price: 20 }\n    - { product: mug, grade: second, count: 1, price: 24.00 }\n',
    );
  });

  it.each([
    ['Ctrl-C', CONTROL_C],
    ['the end of what is typed', '\u0004'],
  ])('%s leaves no trace, and says so', async (_how, send) => {
    const folder = small();
    const played = await play(folder, [...SALE, '--plain'], {
      steps: [...answer('Date: ', ''), { see: 'Channel: ' }, { send }],
    });
    expect(played).toMatchObject({ fault: null, status: 130, restored: true });
    expect(played.output).toContain('Discarded. Nothing was saved.');
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('leaves a usual value out, changes a line, and discards', async () => {
    const folder = small();
    const played = await play(
      folder,
      [...SALE, '--plain', '--channel', 'shop', '--date', '2026-05-01'],
      {
        steps: [
          ...answer('Lines: ', '2 mug'),
          ...answer('total 40.00 USD', ''),
          ...answer('Advances: ', ''),
          ...answer('Save, change or discard: ', 'change'),
          ...answer('Which one to change: ', '1'),
          ...answer('Now: 2 mug.', '3 mug'),
          ...answer('sale s260501aa 60.00 USD', 'discard'),
        ],
      },
    );
    expect(played).toMatchObject({ fault: null, status: 130, restored: true });
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
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
