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

describe.skipIf(!HAS_PYTHON)('what is being done', () => {
  /** What takes less than a second is not told, so the program begins by waiting that long. */
  const wait = 'Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 1100)';
  const slow = { NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(wait)}` };
  const report = ['materials', '--as-of', '2026-05-01'];

  it('is told on a terminal that may draw', async () => {
    const { output } = await play(small(), report, { steps: [], env: slow });
    expect(output).toContain('\rMaking the report…\u001b[K');
  });

  it.each([
    ['TERM=dumb', report, { TERM: 'dumb' }],
    ['no TERM', report, { TERM: '' }],
    ['SAGGAR_PLAIN=1', report, { SAGGAR_PLAIN: '1' }],
    ['--plain', [...SALE, '--plain', '--no-input', '--channel', 'shop', '--line', '1 mug'], {}],
  ] as const)('is not told where nothing is to be drawn: %s', async (_how, words, env) => {
    const { output, status } = await play(small(), words, { steps: [], env: { ...slow, ...env } });
    expect(status).toBe(0);
    expect(output).not.toMatch(/\r(?!\n)/);
  });
});

describe.skipIf(!HAS_PYTHON)('a terminal that does not say how large it is', () => {
  it('counts as one of 80 columns and 24 rows', async () => {
    const report = ['materials', '--as-of', '2026-05-01'];
    const [unsaid, said] = await Promise.all(
      ([[0, 0], undefined] as const).map((size) =>
        play(small(), report, { steps: [], ...(size ? { size } : {}) }),
      ),
    );
    expect(unsaid?.output).toBe(said?.output);
    const steps = [
      { see: 'date: usual: 2026-05-01' },
      { see: '─'.repeat(79) },
      { send: CONTROL_C },
    ];
    const played = await play(small(), SALE, { steps, size: [0, 0], env: { LANG: 'C.UTF-8' } });
    expect(played).toMatchObject({ fault: null, status: 130 });
  });
});
