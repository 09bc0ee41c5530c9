/** A review of very many changes: what matters most is whole in a comment, and near the top of a text. */
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { review } from '../../src/commands/review/review.ts';
import { run } from '../helpers/command-world.ts';
import { commitAll, inGit } from '../helpers/git.ts';
import { small } from '../helpers/small-studio.ts';

const LONGEST_COMMENT = 65_536;

/** A studio whose working tree has 391 records of one mistake, one of another, and some with very long notes. */
function changed(): string {
  const folder = small();
  const expenses = (note: string): string =>
    Array.from({ length: 13 }, (_, index) => index + 1)
      .map(
        (number) =>
          `e${number}:\n  date: 2026-04-02\n  to: Pit ${number}\n  for: tools\n  amount: ${note === '' ? 2 : 1}.00\n${note}`,
      )
      .join('');
  writeFileSync(join(folder, 'spent.yaml'), expenses(''));
  inGit(folder);
  const numbers = Array.from({ length: 391 }, (_, index) => index + 1);
  const wrong = numbers.map(
    (number) =>
      `w${number}:\n  date: 2026-04-02\n  material: kaolin\n  quantity: ${number} nails\n`,
  );
  const other = 'x1:\n  date: 2026-04-02\n  material: koalin\n  quantity: 1 kg\n';
  writeFileSync(join(folder, 'used.yaml'), [...wrong, other].join(''));
  writeFileSync(join(folder, 'spent.yaml'), expenses(`  note: ${'clay '.repeat(1500)}\n`));
  return folder;
}

/** The text of the file with many records of one mistake, and how many those are. */
function wrongIn(folder: string): { all: number; text: string } {
  const text = readFileSync(join(folder, 'used.yaml'), 'utf8');
  return { all: text.match(/nails/g)?.length ?? 0, text };
}

function inOneLine(text: string): string {
  return text.replace(/\s+/g, ' ');
}

async function countsAfter(
  folder: string,
  text: string,
  file = 'used.yaml',
): Promise<string | undefined> {
  writeFileSync(join(folder, file), text);
  const { out } = await reviewed(folder, 'text');
  return /Problems: (.*) as before/.exec(out)?.[1];
}

function reviewed(folder: string, as: string) {
  return run(review, folder, { words: ['HEAD'], options: { as } });
}

const MANY = 5000;

/** A studio in which the amounts of so many expenses are twenty times what they were; one is larger. */
function muchDearer(): string {
  const folder = inGit(small());
  const record = (number: number, amount: string): string =>
    `e${number}:\n  date: 2026-04-02\n  to: Pit ${number}\n  for: tools\n  amount: ${amount}\n`;
  const all = Array.from({ length: MANY }, (_, index) => index + 1);
  const file = join(folder, 'spent.yaml');
  writeFileSync(file, all.map((number) => record(number, '1.00')).join(''));
  commitAll(folder, 'Spent');
  const dearer = all.map((number) => record(number, number === 4321 ? '777.00' : '20.00'));
  writeFileSync(file, dearer.join(''));
  return folder;
}

describe('a review of 5,000 changed records', () => {
  it('has the money on the first screen, folds what is alike, and keeps all for programs', async () => {
    const folder = muchDearer();
    const { out } = await reviewed(folder, 'text');
    const lines = out.split('\n');
    const at = (start: string): number => lines.findIndex((line) => line.startsWith(start));
    expect(at('Money: net profit changes by -95,757.00 in 2026-Q2.')).toBeGreaterThan(0);
    expect(at('Money: ')).toBeLessThan(24);
    expect(lines.length).toBeLessThan(100);
    expect(lines.filter((line) => line.length > 80)).toEqual([]);
    expect(inOneLine(out)).toMatch(
      /Look at these first .*expense e4321, .* and 4,995 more like these; --as json has them all What follows /,
    );
    expect(inOneLine(out)).toMatch(/Changes, field by field .* and 4,988 more like these; /);
    const { risks, changes } = JSON.parse((await reviewed(folder, 'json')).out) as Record<
      'risks' | 'changes',
      readonly unknown[]
    >;
    expect([risks.length, changes.length]).toEqual([MANY, MANY]);
    const comment = (await reviewed(folder, 'markdown')).out;
    expect(comment).toContain('and 4,995 more like these');
    expect(comment).not.toContain('do not fit into a comment');
  });
});

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
      const out = inOneLine((await reviewed(folder, as)).out);
      const told = new Set(out.match(/\d+\s+nails/g));
      expect(told.size).toBe(5);
      expect(out).toContain('error schema: 386 more, 391 in all');
      expect(out).toContain('; and 391 other new errors.');
      expect(out).toContain('Problems: 392 new errors, 0 new warnings, 0 gone, 0 as before.');
      expect(out).toContain('koalin');
    }
  });

  it('counts what is new, gone and as before where a file has more than are told one by one', async () => {
    const folder = changed();
    const { all, text } = wrongIn(folder);
    expect(all).toBe(391);
    commitAll(folder, 'Wrong');
    expect(await countsAfter(folder, text)).toBe('0 new errors, 0 new warnings, 0 gone, 392');
    const last = text.replace('391 nails', '391 kg');
    expect(await countsAfter(folder, last)).toBe('0 new errors, 0 new warnings, 1 gone, 391');
    const first = text.replace(' 1 nails', ' 1 kg');
    expect(await countsAfter(folder, first)).toBe('0 new errors, 0 new warnings, 1 gone, 391');
    const more = `${text}w392:\n  date: 2026-04-02\n  material: kaolin\n  quantity: 392 nails\n`;
    expect(await countsAfter(folder, more)).toBe('1 new error, 0 new warnings, 0 gone, 392');
    rmSync(join(folder, 'used.yaml'));
    mkdirSync(join(folder, 'used'));
    expect(await countsAfter(folder, text, 'used/2026-04.yaml')).toBe(
      '0 new errors, 0 new warnings, 0 gone, 392',
    );
    rmSync(join(folder, 'used'), { recursive: true });
    const before = `w0:\n  date: 2026-04-02\n  material: kaolin\n  quantity: 0.5 nails\n${text}`;
    expect(await countsAfter(folder, before)).toBe('1 new error, 0 new warnings, 0 gone, 392');
  });
});
