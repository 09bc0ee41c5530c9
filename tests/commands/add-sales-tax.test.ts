/** Sales tax is written with a new sale, by whatever way it is added, and by amend only where one says so. */
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { amend } from '../../src/commands/records/amend.ts';
import { check } from '../../src/commands/review/check.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';

const FILES = {
  'studio.yaml': [
    'format: 1\nname: Test studio\ncurrency: USD\ntaxes:',
    '  - { place: County, percent: 6.5%, from: 2026-01-01 }',
    '  - { place: County, percent: 7%, from: 2026-04-01, by: line }\n',
  ].join('\n'),
  'channels.yaml': [
    'door: { name: Door, kind: direct, tax-place: County }',
    'shop: { name: Shop, kind: wholesale, tax-place: County, taxed: no }\n',
  ].join('\n'),
  'products.yaml': 'mug: { name: Mug, price: 32, wholesale: 16 }\n',
  'kilns.yaml': 'kiln: { name: Kiln, fuel: wood }\n',
  'pieces.yaml': 'p260101aa: { date: 2026-01-01, product: mug, made: 60 }\n',
  'firings.yaml': [
    'f1: { date: 2026-01-02, kiln: kiln, kind: bisque, load: [{ lot: p260101aa, in: 60, first: 60 }] }',
    'f2: { date: 2026-01-04, kiln: kiln, kind: glaze, load: [{ lot: p260101aa, in: 60, first: 60 }] }\n',
  ].join('\n'),
};

const AT_DOOR = ['--channel', 'door', '--date', '2026-03-02'];

function added(folder: string, ...words: readonly string[]): Promise<Said> {
  return run(add, folder, { words: ['sales', ...words] });
}

/** The lines of what was said that speak of tax. */
function onTax({ out }: Said): string[] {
  return out
    .split('\n')
    .filter((line) => /\btax\b/.test(line))
    .map((line) => line.trim());
}

describe('a new sale', () => {
  const WRITTEN = ['tax: 8.32', 'tax 6.5% of 128.00: 8.32'];

  it('has its tax written and explained, by options and from standard input', async () => {
    const folder = tempStudio(FILES);
    expect(onTax(await added(folder, ...AT_DOOR, '--line', '4 mug'))).toEqual(WRITTEN);
    const input =
      'date: 2026-03-02\nchannel: door\nlines: [{ product: mug, count: 4, price: 32 }]\n';
    expect(onTax(await run(add, folder, { words: ['sales'], input }))).toEqual(WRITTEN);
    expect(filesIn(folder)['sales/2026-03.yaml']?.match(/^ {2}tax: 8.32$/gm)).toHaveLength(2);
    expect((await run(check, folder, { options: { strict: true } })).status).toBe(0);
  });

  it('is written the same way by what is kept of the studio as after a look at all of it', async () => {
    const [one, other] = [tempStudio(FILES), tempStudio(FILES)];
    const words = ['--channel', 'door', '--line', '3 mug at 1.50', '--line', '1 mug taxed no'];
    await added(one, '--channel', 'shop', '--line', '1 mug');
    await added(other, '--channel', 'shop', '--line', '1 mug');
    const quick = await added(one, ...words);
    const whole = await run(add, other, { words: ['sales', ...words], options: { id: 's1' } });
    expect(onTax(quick)).toEqual(onTax(whole));
    // By line: 4.50 × .07 is .315.
    expect(onTax(quick)).toEqual(['tax: 0.32', 'tax 7% of 4.50 by line: 0.32']);
  });

  it('keeps a tax that is given, and gets none where nothing is taxed', async () => {
    const folder = tempStudio(FILES);
    expect(onTax(await added(folder, ...AT_DOOR, '--line', '4 mug', '--tax', '0'))).toEqual([
      'tax: 0',
    ]);
    const shop = ['--channel', 'shop', '--date', '2026-03-02'];
    expect(onTax(await added(folder, ...shop, '--line', '4 mug'))).toEqual([]);
    const typed = await added(folder, ...AT_DOOR, '--line', '4 mug', '--tax', '9');
    expect(typed.err.replace(/\s+/g, ' ')).toContain(
      'the tax is 9.00, but 6.5% of the taxed 128.00 is 8.32',
    );
    expect(onTax(typed)).toEqual(['tax: 9']);
  });

  it('is given back without the tax where it is refused, since a corrected price has another', async () => {
    const refused = await added(tempStudio(FILES), ...AT_DOOR, '--line', '99 mug');
    expect(refused.status).toBe(1);
    expect(refused.err).toContain('count: 99');
    expect(refused.err).not.toContain('tax');
  });
});

describe('a later rate', () => {
  it('moves no record', async () => {
    const folder = tempStudio(FILES);
    await added(folder, ...AT_DOOR, '--line', '4 mug');
    const before = filesIn(folder)['sales/2026-03.yaml'];
    const later = await added(
      folder,
      '--channel',
      'door',
      '--date',
      '2026-04-01',
      '--line',
      '4 mug',
    );
    expect(onTax(later)).toEqual(['tax: 8.96', 'tax 7% of 128.00 by line: 8.96']);
    expect(filesIn(folder)['sales/2026-03.yaml']).toBe(before);
  });
});

describe('an amended sale', () => {
  const AMENDED = {
    ...FILES,
    'sales.yaml': [
      's1: { date: 2026-03-02, channel: door, lines: [{ product: mug, count: 4, price: 32 }] }',
      's2: { date: 2026-03-03, channel: door, tax: 6.24, lines: [{ product: mug, count: 4, price: 32 }, { product: mug, count: 1, price: 32, returned: yes }] }\n',
    ].join('\n'),
  };

  it('keeps the tax that it has, or has not, and says what the rate gives now', async () => {
    const folder = tempStudio(AMENDED);
    const amended = (...words: string[]): Promise<Said> => run(amend, folder, { words });
    expect(onTax(await amended('s1', 'note=for the shelf'))).toEqual([]);
    // 5 × 32 × .065 = 10.40; 5 × 32 less 32 is 128 and 8.32.
    expect(onTax(await amended('s1', 'lines.1.count=5'))).toEqual([
      'no tax is written; 6.5% of 160.00: 10.40; to write that: saggar amend s1 tax=10.40',
    ]);
    expect(onTax(await amended('s2', 'lines.1.count=5')).at(-1)).toBe(
      'tax stays 6.24; 6.5% of 160.00 sold and 32.00 back: 8.32; to write that: saggar amend s2 tax=8.32',
    );
    expect(filesIn(folder)['sales.yaml']).toContain('tax: 6.24');
  });
});
