import { describe, expect, it } from 'vitest';
import { addTyped } from '../../src/commands/records/add-typed.ts';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { openFiles } from '../../src/commands/studio/open.ts';
import type { ChangeOptions } from '../../src/commands/options.ts';
import { isRefusal, type Command } from '../../src/commands/world.ts';
import { run, type Told } from '../helpers/command-world.ts';
import { inGit } from '../helpers/git.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { changes, filesIn } from '../helpers/temp-studio.ts';

const SALES = 'sales/2026-05.yaml';
const TWO_MUGS = ['sales', '--channel', 'market', '--line', '2 mug at 38'];

describe('add', () => {
  it('writes a record, shows it with its effect, and says how to undo it', async () => {
    const folder = inGit(small());
    const { status, out, err } = await run(add, folder, { words: TWO_MUGS });
    expect([status, err]).toEqual([0, '']);
    expect(out).toBe(`s260501bb:
  date: 2026-05-01
  channel: market
  lines:
    - { product: mug, count: 2, price: 38 }
  sale s260501bb 76.00 USD
  mug in the studio 11 → 9
Added s260501bb to sales/2026-05.yaml.
Undo: saggar remove s260501bb
`);
    expect(changes(folder, SMALL_STUDIO)).toEqual({
      [SALES]:
        's260501bb:\n  date: 2026-05-01\n  channel: market\n  lines:\n    - { product: mug, count: 2, price: 38 }\n',
    });
  });

  it('shows warnings and writes all the same', async () => {
    const folder = small();
    const words = [...TWO_MUGS, '--date', '2026-05-02'];
    const { status, err } = await run(add, folder, { words });
    expect(status).toBe(0);
    expect(err).toContain('sales/2026-05.yaml:2:9 future-date warning');
    expect(filesIn(folder)).toHaveProperty([SALES]);
  });

  it('takes a definition', async () => {
    const folder = small();
    const words = ['materials', '--name', 'Talc', '--kind', 'dry', '--unit', 'kg'];
    expect(await run(add, folder, { words })).toMatchObject({ status: 0 });
    expect(changes(folder, SMALL_STUDIO)).toEqual({
      'materials.yaml': `${SMALL_STUDIO['materials.yaml'] ?? ''}\ntalc:\n  name: Talc\n  kind: dry\n  unit: kg\n`,
    });
  });

  it('takes the day of the record from --as-of', async () => {
    const folder = small();
    const options = { asOf: '2026-04-15', dryRun: true };
    const { out } = await run(add, folder, { words: TWO_MUGS, options });
    expect(out).toContain('+s260415bb:\n+  date: 2026-04-15\n');
  });
});

describe('what is not written', () => {
  const refusals: readonly (readonly [string, Told, number, string])[] = [
    ['no kind', { words: [] }, 2, 'say what to add: one of bought'],
    ['a kind that is none', { words: ['sale'] }, 2, 'did you mean sales?'],
    ['a kind by another name', { words: ['purchase'] }, 2, 'did you mean bought?'],
    ['nothing to write', { words: ['sales'] }, 2, 'saggar add sales --help shows how'],
    ['an option that is none', { words: ['sales', '--chanel', 'x'] }, 2, 'did you mean --channel?'],
    [
      'two sources',
      { words: ['sales', '-', ...TWO_MUGS.slice(1)], input: 'a: b\n' },
      2,
      'give the fields as options or on standard input, not both',
    ],
    [
      'a file',
      { words: ['sales', 'x.yaml'] },
      2,
      'to take a file, write saggar add sales - < x.yaml',
    ],
    ['an empty input', { words: ['sales'], input: '' }, 2, 'there is no record on standard input'],
    ['no YAML', { words: ['sales'], input: 'date: *x\n' }, 1, 'standard input:1:7 yaml-error'],
    ['no text', { words: ['sales'], input: 'a\0b: c\n' }, 1, 'standard input:1:2 yaml-error'],
    [
      'one id for two',
      { words: ['used'], options: { id: 'x' }, input: 'a: { note: n }\nb: { note: n }\n' },
      2,
      '--id is for a single record',
    ],
    [
      'an id that is taken',
      { words: TWO_MUGS, options: { id: 'mug' } },
      1,
      'there is a record mug already',
    ],
    ['an id of no form', { words: TWO_MUGS, options: { id: '../x' } }, 1, '"../x" is not an id'],
    [
      'a day that is none',
      { words: TWO_MUGS, options: { asOf: '2026-02-30' } },
      2,
      '--as-of takes a day',
    ],
    ['a field that is missing', { words: ['used', '--material', 'kaolin'] }, 1, 'has no quantity'],
    ['a field of another kind', { words: ['used'], input: 'materal: x\n' }, 1, 'material'],
    [
      'more than there is',
      { words: ['sales', '--channel', 'market', '--line', '200 mug'] },
      1,
      'sold-more-than-finished error',
    ],
    ['no studio', { words: TWO_MUGS, from: '/' }, 2, 'there is no studio.yaml'],
  ];

  it.each(refusals)('%s', async (...[, told, status, reason]) => {
    const folder = small();
    const said = await run(add, folder, told);
    expect(said.err.replace(/\s+/g, ' ')).toContain(reason);
    expect([said.status, said.out]).toEqual([status, '']);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it.each([
    ['a word', [...TWO_MUGS, '--line', '1 mugg at 4'], 'mugg', 'mug', '--line:2:3'],
    [
      'a price',
      ['sales', '--channel', 'market', '--line', '1 mug at 3,50'],
      '3,50',
      '3.50',
      `${SALES}:5:`,
    ],
    [
      'a channel',
      ['sales', '--channel', 'markt', '--line', '1 mug'],
      'markt',
      'market',
      `${SALES}:3:12`,
    ],
  ])(
    '%s that is wrong is given back to be corrected and fed in',
    async (...[, words, wrong, right, place]) => {
      const folder = small();
      const refused = await run(add, folder, { words });
      expect([refused.status, refused.out]).toEqual([1, '']);
      expect(refused.err).toContain(place);
      const typed = refused.err.slice(refused.err.indexOf('# Not saved'));
      const again = await run(add, folder, {
        words: ['sales'],
        input: typed.replace(wrong, right),
      });
      const mended = words.map((word) => word.replace(wrong, right));
      const straight = await run(add, small(), { words: mended });
      expect(again).toEqual(straight);
      expect(again.status).toBe(0);
    },
  );

  it('shows a wrong word on standard input where it stands', async () => {
    const input = 'channel: market\nlines:\n  - 2 mug at 3\n  - "1 bowll at 4"\n';
    const { err } = await run(add, small(), { words: ['sales'], input });
    expect(err).toContain('standard input:4:8 unknown-reference error');
  });

  it('writes none of several where one is wrong', async () => {
    const folder = small();
    const input = `u1: { material: kaolin, quantity: 1 kg }\nu2: { material: kaolin, quantity: 1 L }\n`;
    const { status, err } = await run(add, folder, { words: ['used'], input });
    expect(status).toBe(1);
    expect(err).toContain('used/2026-05.yaml:');
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('says why a file that may not be written was left alone', async () => {
    const folder = small({ 'used/2026-05.yaml': '{ u1: &a { material: kaolin } }\n' });
    const words = ['used', '--material', 'kaolin', '--quantity', '1 kg'];
    const { status, err } = await run(add, folder, { words });
    expect(status).toBe(1);
    expect(err).toContain('used/2026-05.yaml was left as it is');
    expect(err).toContain('# Not saved');
  });
});

describe('a question before writing', () => {
  async function asked(
    answer: boolean,
  ): Promise<{ said: string[]; status: number; folder: string }> {
    const folder = small();
    const said: string[] = [];
    const asking: Command<ChangeOptions> = async (told, world) => {
      const opened = await openFiles(told, world);
      if (isRefusal(opened)) throw new Error(opened.refused);
      const fields = { channel: 'market', lines: ['2 mug at 38'] };
      return addTyped(
        { asked: told, world, opened },
        {
          kind: 'sales',
          records: [{ id: 's1', fields }],
          problems: [],
          agreed: () => {
            said.push('asked');
            return Promise.resolve(answer);
          },
        },
      );
    };
    const { status, out, err } = await run(asking, folder);
    said.push(out, err);
    return { said, status, folder };
  }

  it('comes when all is shown, and a no leaves everything as it was', async () => {
    const { said, status, folder } = await asked(false);
    expect([said[0], status]).toEqual(['asked', 1]);
    expect(said[1]).toMatch(/^s1:\n[^]*mug in the studio 11 → 9\n$/);
    expect(said[2]).toContain('# Not saved.');
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('lets a yes write', async () => {
    const { status, folder } = await asked(true);
    expect(status).toBe(0);
    expect(filesIn(folder)).toHaveProperty([SALES]);
  });
});
