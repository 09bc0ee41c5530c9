import { describe, expect, it } from 'vitest';
import { amend } from '../../src/commands/records/amend.ts';
import { revise } from '../../src/commands/records/revise.ts';
import { run } from '../helpers/command-world.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { filesIn } from '../helpers/temp-studio.ts';

const RECIPES = SMALL_STUDIO['recipes.yaml'] ?? '';

describe('revise', () => {
  it('adds a version, and shows each material before and after, in per cent too', async () => {
    const folder = small();
    const { status, out } = await run(revise, folder, {
      words: ['sea-green', 'kaolin 20', '1% cobalt'],
      options: { note: 'Glossier' },
    });
    expect(status).toBe(0);
    // 60 and 40 of 100 become 60 and 20 of 80: 75 and 25 per cent.
    expect(out).toContain(`Version from 2026-01-01 → version from 2026-05-01
  feldspar  60 (60%) → 60 (75%)
  kaolin    40 (40%) → 20 (25%)
  cobalt    (none) → 1% on top
`);
    expect(out).toContain('Undo: saggar amend sea-green versions.2=\n');
    expect(filesIn(folder)['recipes.yaml']).toContain(`
    - from: 2026-05-01
      note: Glossier
      base:
        - { material: feldspar, parts: 60 }
        - { material: kaolin, parts: 20 }
      additions:
        - { material: cobalt, percent: 1% }

celadon:`);
  });

  it('takes a material out, and a whole list', async () => {
    const folder = small();
    await run(revise, folder, { words: ['sea-green', 'without kaolin'] });
    expect(filesIn(folder)['recipes.yaml']).toContain(
      '    - from: 2026-05-01\n      base:\n        - { material: feldspar, parts: 60 }\n\n',
    );
    await run(revise, folder, {
      words: ['celadon'],
      options: { base: ['90 feldspar', '10 kaolin'], addition: ['cobalt 0.5'], from: 'tomorrow' },
    });
    expect(filesIn(folder)['recipes.yaml']).not.toContain('0.5%');
    await run(revise, folder, {
      words: ['celadon'],
      options: { base: ['90 feldspar', '10 kaolin'], addition: ['cobalt 0.5'] },
    });
    expect(filesIn(folder)['recipes.yaml']).toContain('- { material: cobalt, percent: 0.5% }');
  });

  it.each([
    [['sea-green'], {}, 2, 'say what changes, as in saggar revise sea-green'],
    [[], {}, 2, 'say which recipe'],
    [['sea-grean', 'kaolin 3'], {}, 2, 'did you mean sea-green?'],
    [['mug', 'kaolin 3'], {}, 2, 'mug is a product, not a recipe'],
    [['sea-green', 'kaolinn 3'], {}, 1, 'did you mean "kaolin"?'],
    [['sea-green', 'kaolin'], {}, 1, 'it has no amount'],
    [['sea-green', 'kaolin 3%'], {}, 1, 'kaolin is in the base, in parts'],
    [['sea-green', 'without cobalt'], {}, 1, 'cobalt is not in it'],
    [['sea-green', 'kaolin 40'], {}, 1, 'is so already from 2026-01-01 on'],
    [['sea-green', 'kaolin 3'], { from: '2026-01-01' }, 1, 'has a version from 2026-01-01 already'],
    [['sea-green', 'kaolin 3'], { from: 'May' }, 2, 'takes a day such as'],
    [
      ['sea-green', 'kaolin 3'],
      { from: '2026-01-05' },
      1,
      'would change what m260110ab of 2026-01-10 was made of',
    ],
  ])('refuses %j with %j', async (...[words, options, status, reason]) => {
    const folder = small();
    const said = await run(revise, folder, { words, options });
    expect([said.status, said.out]).toEqual([status, '']);
    expect(said.err.replace(/\s+/g, ' ')).toContain(reason);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });
});

describe('amend of a version that was mixed', () => {
  const words = ['sea-green', 'versions.1.base.2.parts=30'];

  it('is refused without consent, and points to the new version', async () => {
    const folder = small();
    const said = await run(amend, folder, { words });
    expect([said.status, said.out]).toEqual([1, '']);
    expect(said.err).toContain('would change what m260110ab of 2026-01-10 was made of');
    expect(said.err).toContain('saggar revise sea-green');
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('is made with it, and is undone with it', async () => {
    const folder = small();
    const { status, out } = await run(amend, folder, { words, options: { evenIfMixed: true } });
    expect(status).toBe(0);
    expect(out).toContain('versions.1.base.2.parts: 40 → 30\n');
    expect(out).toContain(
      'Undo: saggar amend sea-green versions.1.base.2.parts=40 --even-if-mixed\n',
    );
    expect(filesIn(folder)['recipes.yaml']).toBe(RECIPES.replace('parts: 40', 'parts: 30'));
  });

  it('needs none where no mix changes', async () => {
    const said = await run(amend, small(), { words: ['sea-green', 'versions.1.note=as ever'] });
    expect(said.status).toBe(0);
    const other = await run(amend, small(), { words: ['celadon', 'versions.1.base.1.parts=90'] });
    expect(other.status).toBe(0);
  });
});
