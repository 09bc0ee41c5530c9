import { describe, expect, it } from 'vitest';
import { EXAMPLE, EXAMPLE_DAY } from '../helpers/studio-commands.ts';
import { displayWidth } from '../../src/render/terminal/width.ts';
import { HAS_PYTHON, left, play, type Played } from './drive.ts';

const ORDER = 'Order Calcium borate frit now: it lasts to 2026-07-17';
const FIRED = 'the glaze firing of 2026-02-16 is out of line (30 of 68 lost)';

function shown(words: readonly string[], size: [number, number]): Promise<Played> {
  return play(EXAMPLE, [...words, '--as-of', EXAMPLE_DAY], { steps: [], size });
}

function plain(text: string): string {
  // eslint-disable-next-line no-control-regex -- what paints
  return text.replace(/\u001b\[\d+m/g, '');
}

describe.skipIf(!HAS_PYTHON)('a report at a terminal', () => {
  it.each([80, 120])(
    'leads and ends with what matters where it is taller: %d columns',
    async (columns) => {
      const played = await shown(['materials'], [columns, 24]);
      expect(played).toMatchObject({ fault: null, status: 0 });
      const lines = plain(left(played)).trimEnd().split('\n');
      expect(lines[3]).toMatch(ORDER);
      expect(lines.slice(-2).join(' ')).toMatch(ORDER);
      expect(Math.max(...lines.map(displayWidth))).toBeLessThanOrEqual(columns);
    },
  );

  it('says it once where all of it is seen', async () => {
    const text = plain(left(await shown(['materials'], [80, 200])));
    expect(text.split(ORDER)).toHaveLength(2);
  });

  it('sets off the word, in colours that go without saying anything else', async () => {
    const text = left(await shown(['materials'], [80, 200]));
    expect(text).toContain('\u001b[1mboron-frit\u001b[22m');
    expect(text).toContain('\u001b[1m\u001b[31morder-now\u001b[39m\u001b[22m');
    const without = left(await shown(['materials', '--no-colour'], [80, 200]));
    expect(plain(text)).toBe(without);
  });

  it('sets off the firing that is out of line, below its row or in it', async () => {
    const word = '30 of 68 lost\u001b[39m\u001b[22m';
    const [narrow, wide] = [
      await shown(['firings'], [80, 24]),
      await shown(['firings'], [160, 24]),
    ];
    expect(left(narrow)).toContain(`\u001b[1m\u001b[31mOut of line ${word}`);
    expect(left(wide)).toContain(`\u001b[1m\u001b[31m${word}`);
    const told = plain(left(narrow)).replaceAll('\n', ' ');
    expect(told.split(FIRED)).toHaveLength(3);
  });
});
