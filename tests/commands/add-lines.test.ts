/** A record whose lines stand in a file, or come on standard input. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { changes } from '../helpers/temp-studio.ts';

function withLines(folder: string, words: readonly string[], text: string): Promise<Said> {
  writeFileSync(join(folder, 'notes.txt'), text);
  return run(add, folder, { words, options: { lines: 'notes.txt' } });
}

describe('add --lines', () => {
  it('takes a sentence a line, and passes over remarks and empty lines', async () => {
    const folder = small();
    const text = '# Saturday, dry\n\n2 mug at 38\r\n  mug 36.50\n';
    const { status, err } = await withLines(folder, ['sales', '--channel', 'market'], text);
    expect([status, err]).toEqual([0, '']);
    expect(changes(folder, SMALL_STUDIO)['sales/2026-05.yaml']).toContain(
      '    - { product: mug, count: 2, price: 38 }\n    - { product: mug, count: 1, price: 36.50 }\n',
    );
  });

  it('takes them from standard input', async () => {
    const words = ['bought', '--supplier', 'Pit'];
    const { status, out } = await run(add, small(), {
      words,
      input: '2 x 25 lb buff-stoneware 46\n',
      options: { lines: '-', dryRun: true },
    });
    expect(status).toBe(0);
    expect(out).toContain('{ material: buff-stoneware, quantity: 2 x 25 lb, cost: 46 }');
  });

  it.each([
    [
      'firings',
      ['--kiln', 'rotunda', '--kind', 'glaze', '--cone', '6'],
      '3 p260301ab\nsupply 2 cone-6',
      'material: cone-6',
    ],
    // A stocktake's lines are told apart by what they name.
    ['counted', [], '12 kg kaolin\n9 mug', 'pieces:\n+    - { product: mug, count: 9 }'],
    [
      'consigned',
      ['--channel', 'gallery'],
      '2 mug at 40',
      'sent:\n+    - { product: mug, count: 2, price: 40 }',
    ],
    [
      'recipes',
      ['--name', 'Fog', '--kind', 'glaze', '--cone', '6'],
      '60 feldspar\n40 kaolin\naddition: 2% cobalt',
      'percent: 2%',
    ],
    [
      'mixed',
      ['--recipe', 'sea-green', '--base-weight', '1 kg'],
      'kaolin b260105ab',
      'kaolin: b260105ab',
    ],
    [
      'pieces',
      ['--product', 'mug', '--made', '9', '--date', '2026-04-30'],
      'lost 1 cracked on yesterday',
      'date: 2026-04-30, count: 1',
    ],
  ])('takes the lists of %s', async (...[kind, words, text, part]) => {
    const folder = small();
    writeFileSync(join(folder, 'notes.txt'), text);
    const said = await run(add, folder, {
      words: [kind, ...words],
      options: { lines: 'notes.txt', dryRun: true },
    });
    expect(said).toMatchObject({ status: 0 });
    expect(said.out).toContain(part);
  });

  it('says each refused line once, with its place, and writes nothing', async () => {
    const folder = small();
    const text = '2 mug at 38\n  2 mugg secnd at 38\nmug 25\n\n200 mug\n1 bowl zz\n';
    const { status, err } = await withLines(folder, ['sales', '--channel', 'market'], text);
    expect(status).toBe(1);
    expect(err.split('\n').filter((line) => line.startsWith('notes.txt:'))).toEqual([
      expect.stringMatching(/^notes\.txt:2:5 unknown-reference error: "mugg"/),
      expect.stringMatching(/^notes\.txt:3:5 schema error: "25" may be a count or a price/),
      expect.stringMatching(/^notes\.txt:5:1 sold-more-than-finished error: not enough of mug/),
      expect.stringMatching(/^notes\.txt:6:8 unknown-reference error: "zz"/),
    ]);
    expect(err).toContain('4 errors.');
    expect(Object.keys(changes(folder, SMALL_STUDIO))).toEqual(['notes.txt']);
  });

  it('is refused beside a record, for no file and for no lines', async () => {
    const words = ['sales', '--channel', 'market'];
    const said = async (
      options: Readonly<Record<string, unknown>>,
      more = words,
    ): Promise<string> =>
      (await run(add, small(), { words: more, input: '# none\n', options })).err;
    expect(await said({ lines: '-' }, ['sales', '-'])).toContain('not both');
    expect(await said({ lines: 'gone.txt' })).toContain('there is no file gone.txt');
    expect(await said({ lines: '-' })).toContain('standard input has no lines');
  });
});
