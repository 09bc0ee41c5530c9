import { describe, expect, it } from 'vitest';
import { gone } from '../../src/commands/records/gone.ts';
import { run } from '../helpers/command-world.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { changes, filesIn } from '../helpers/temp-studio.ts';

// Of the lot 17 firsts and 2 seconds came out; 6 firsts and 1 second are sold: 11 and 1 are left.
const LOT = SMALL_STUDIO['pieces/p260301ab.yaml'] ?? '';

describe('gone', () => {
  it('writes into the lot what left, today, and says how to undo it', async () => {
    const folder = small();
    const options = { why: 'gift', note: 'For the neighbours' };
    const { status, out } = await run(gone, folder, { words: ['3 mug'], options });
    expect(status).toBe(0);
    expect(out).toContain('  mug in the studio 11 → 8\n');
    expect(out).toContain('Recorded 3 gone: 3 of p260301ab in pieces/p260301ab.yaml.\n');
    expect(out).toContain('Undo: saggar amend p260301ab gone.1=\n');
    expect(changes(folder, SMALL_STUDIO)).toEqual({
      'pieces/p260301ab.yaml': `${LOT}  gone:
    - { date: 2026-05-01, count: 3, how: gift, note: For the neighbours }
`,
    });
  });

  it('takes the day, the reason and the grade from the line too', async () => {
    const folder = small();
    const words = ['mug broken on yesterday', '1 mug second given away'];
    expect(await run(gone, folder, { words })).toMatchObject({ status: 0 });
    expect(filesIn(folder)['pieces/p260301ab.yaml']).toBe(`${LOT}  gone:
    - { date: 2026-04-30, count: 1, how: broken }
    - { date: 2026-05-01, count: 1, how: given-away, grade: second }
`);
  });

  // The first lot has 2 bisqued and glazed, the next one 3: of four, two are of each.
  const TWO_LOTS = {
    'pieces/p260401aa.yaml': 'p260401aa:\n  date: 2026-04-01\n  product: bowl\n  made: 2\n',
    'pieces/p260402aa.yaml': 'p260402aa:\n  date: 2026-04-02\n  product: bowl\n  made: 3\n',
    'firings/f260410aa.yaml': `f260410aa:
  date: 2026-04-10
  kiln: rotunda
  kind: bisque
  energy: 1 kWh
  load:
    - { lot: p260401aa, in: 2, first: 2 }
    - { lot: p260402aa, in: 3, first: 3 }
`,
    'firings/f260411aa.yaml': `f260411aa:
  date: 2026-04-11
  kiln: rotunda
  kind: glaze
  cone: "6"
  energy: 1 kWh
  load:
    - { lot: p260401aa, in: 2, first: 2 }
    - { lot: p260402aa, in: 3, first: 3 }
`,
  };

  it('takes the oldest lot first, then the next', async () => {
    const folder = small(TWO_LOTS);
    const { out } = await run(gone, folder, { words: ['4 bowl'], options: { why: 'kept' } });
    expect(out).toContain(
      'Recorded 4 gone: 2 of p260401aa in pieces/p260401aa.yaml and 2 of p260402aa',
    );
    expect(out).toContain(
      'Undo: saggar amend p260401aa gone.1= && saggar amend p260402aa gone.1=\n',
    );
  });

  it('takes the lot that is named', async () => {
    const folder = small(TWO_LOTS);
    const options = { why: 'kept', lot: 'p260402aa' };
    const { out } = await run(gone, folder, { words: ['1 bowl'], options });
    expect(out).toContain('Recorded 1 gone: 1 of p260402aa in');
  });

  it('takes from the gallery that is named', async () => {
    const folder = small({
      'consigned/2026-04.yaml':
        'c1:\n  date: 2026-04-20\n  channel: gallery\n  sent:\n    - { product: mug, count: 2, price: 40 }\n',
    });
    const { status } = await run(gone, folder, { words: ['1 mug missing at gallery'] });
    expect(status).toBe(0);
    expect(filesIn(folder)['pieces/p260301ab.yaml']).toContain('how: missing, channel: gallery }');
  });

  it.each([
    [['mug'], {}, 1, 'it does not say why the mug left'],
    [['12 mug kept'], {}, 1, '12 mug left, but in the studio on 2026-05-01 are 11'],
    [['12 mug kept'], {}, 1, 'of mug there are 11 sea-green in the studio and 1 second sea-green'],
    [['1 mug kept at gallery'], {}, 1, 'but at gallery on 2026-05-01 are 0'],
    [['1 mugg kept'], {}, 1, 'did you mean "mug"?'],
    [['1 mug kept on 2026-05-02'], {}, 1, '2026-05-02 is still to come'],
    [['1 mug'], { why: 'kept', date: 'someday' }, 1, '"someday" is not a day'],
    [['kept'], {}, 1, 'it does not say what left'],
    [['0 mug kept'], {}, 1, '"0" is not a count of pieces'],
    [['1 mug kept'], { channel: 'galery' }, 2, 'did you mean gallery?'],
    [[], {}, 2, 'say what left'],
  ])('refuses %j with %j', async (...[words, options, status, reason]) => {
    const folder = small();
    const said = await run(gone, folder, { words, options });
    expect([said.status, said.out]).toEqual([status, '']);
    expect(said.err.replace(/\s+/g, ' ')).toContain(reason);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('asks which, where several glazes stand and none is named', async () => {
    const glazed = (name: string, recipe: string): string =>
      `${name}:\n  date: 2026-04-01\n  product: bowl\n  made: 2\n  glazes:\n    - { recipe: ${recipe}, each: 9 g }\n`;
    const folder = small({
      ...TWO_LOTS,
      'mixed/m1.yaml': 'm1:\n  date: 2026-04-01\n  recipe: celadon\n  base-weight: 2 kg\n',
      'pieces/p260401aa.yaml': glazed('p260401aa', 'celadon'),
      'pieces/p260402aa.yaml': glazed('p260402aa', 'sea-green').replace('made: 2', 'made: 3'),
    });
    const said = await run(gone, folder, { words: ['1 bowl gift'] });
    expect(said).toMatchObject({ status: 1, out: '' });
    expect(said.err.replace(/\s+/g, ' ')).toContain(
      'which bowl is not said: in the studio are 2 celadon and 3 sea-green',
    );
    expect(await run(gone, folder, { words: ['1 bowl celadon gift'] })).toMatchObject({
      status: 0,
    });
  });

  it('writes nothing with --dry-run', async () => {
    const folder = small();
    const { out } = await run(gone, folder, { words: ['1 mug kept'], options: { dryRun: true } });
    expect(out).toContain('+    - { date: 2026-05-01, count: 1, how: kept }');
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });
});
