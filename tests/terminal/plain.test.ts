import { describe, expect, it } from 'vitest';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { filesIn } from '../helpers/temp-studio.ts';
import { CONTROL_C, HAS_PYTHON, answer, play, type Step } from './drive.ts';

const SALE = ['add', 'sales', '--as-of', '2026-05-01', '--id', 's260501aa'];

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
    ...answer('Paid', ''),
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
          ...answer('Paid', ''),
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
