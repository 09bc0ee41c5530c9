/** A review of very many changes: what matters most is whole in a comment, and near the top of a text. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { review } from '../../src/commands/review/review.ts';
import { run } from '../helpers/command-world.ts';
import { inGit } from '../helpers/git.ts';
import { small } from '../helpers/small-studio.ts';

const LONGEST_COMMENT = 65_536;

/** A studio whose working tree has 391 records of one mistake, one of another, and many right ones. */
function changed(): string {
  const folder = inGit(small());
  const numbers = Array.from({ length: 391 }, (_, index) => index + 1);
  const wrong = numbers.map(
    (number) =>
      `w${number}:\n  date: 2026-04-02\n  material: kaolin\n  quantity: ${number} nails\n`,
  );
  const right = Array.from({ length: 1500 }, (_, index) => index + 1).map(
    (number) =>
      `e${number}:\n  date: 2026-04-02\n  to: Pit ${number}\n  for: tools\n  amount: 1.00\n  note: ${'clay '.repeat(50)}\n`,
  );
  const other = 'x1:\n  date: 2026-04-02\n  material: koalin\n  quantity: 1 kg\n';
  writeFileSync(join(folder, 'used.yaml'), [...wrong, other].join(''));
  writeFileSync(join(folder, 'spent.yaml'), right.join(''));
  return folder;
}

function reviewed(folder: string, as: string) {
  return run(review, folder, { words: ['HEAD'], options: { as } });
}

describe('a review of very many changes', () => {
  it('is a comment that has room for it, with verdict, risks and money whole', async () => {
    const folder = changed();
    const { out, status } = await reviewed(folder, 'markdown');
    expect(status).toBe(1);
    expect(out.length).toBeLessThanOrEqual(LONGEST_COMMENT);
    expect(out).toMatch(/Not fit to merge/);
    expect(out).toContain('more do not fit into a comment');
    const document = JSON.parse((await reviewed(folder, 'json')).out) as {
      readonly consequences: readonly unknown[];
    };
    const [, follows = ''] = /What follows[^\n]*\n\n([\s\S]*?)\n\n/.exec(out) ?? [];
    expect(document.consequences.length).toBeGreaterThan(0);
    // A line for each figure below the two of the head.
    expect(follows.split('\n').length - 2).toBe(document.consequences.length);
  });

  it('tells the first five problems of a rule and the number of the others', async () => {
    const folder = changed();
    for (const as of ['text', 'markdown']) {
      const { out } = await reviewed(folder, as);
      const told = new Set(out.match(/\d+\s+nails/g));
      expect(told.size).toBe(5);
      expect(out).toMatch(/error schema: \d+ more, \d+ in all/);
      expect(out).toContain('koalin');
    }
  });
});
