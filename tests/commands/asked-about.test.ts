/** What only asks about a figure, and what is answered, is no failure of a check. */
import { describe, expect, it } from 'vitest';
import { review } from '../../src/commands/review/review.ts';
import { check } from '../../src/commands/review/check.ts';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { run } from '../helpers/command-world.ts';
import { git, inGit } from '../helpers/git.ts';
import { small } from '../helpers/small-studio.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';

const SALES = 'sales/2026-05.yaml';

/** Mugs are 38 in the small studio. */
function sale(price: string, more = ''): string {
  return `s260501bb:\n  date: 2026-05-01\n  channel: market\n${more}  lines:\n    - { product: mug, count: 1, price: ${price} }\n`;
}

const strict = { options: { strict: true, asOf: '2026-06-30' } };

function withSale(text: string): string {
  return tempStudio({ ...filesIn(small()), [SALES]: text });
}

describe('a doubt', () => {
  it('is told by check --strict, and fails nothing', async () => {
    const { status, out } = await run(check, withSale(sale('380')), strict);
    expect(out).toContain('a price of 380.00 for mug is 9.9 times the usual');
    expect(status).toBe(0);
  });

  it('is told by review --strict, and fails nothing', async () => {
    const folder = inGit(small());
    git(folder, 'branch', '-M', 'main');
    await run(add, folder, {
      words: ['sales', '--channel', 'market', '--line', '1 mug at 380'],
    });
    const { status, out } = await run(review, folder, { words: ['main'], ...strict });
    expect(out).toContain('a price of 380.00 for mug is 9.9 times');
    expect(status).toBe(0);
  });
});

describe('another warning', () => {
  const LATER = { options: { strict: true, asOf: '2026-04-30' } };

  it('fails check --strict until the record answers it', async () => {
    const asked = await run(check, withSale(sale('38')), LATER);
    expect(asked.out).toContain('[future-date]');
    expect(asked.status).not.toBe(0);
    const answer = '  checked: { future-date: the order is fixed }\n';
    const answered = await run(check, withSale(sale('38', answer)), LATER);
    expect(answered).toMatchObject({ status: 0, out: 'No problems found.\n' });
  });

  it('is not quieted by an answer to another rule', async () => {
    const answer = '  checked: { price-slip: the big one }\n';
    const { out } = await run(check, withSale(sale('38', answer)), LATER);
    expect(out).toContain('[future-date]');
  });
});

describe('a date of a year ago', () => {
  const words = ['sales', '--channel', 'market', '--line', '1 mug at 38', '--date'];
  const options = { asOf: '2027-05-02', dryRun: true };

  it('is asked about as it is entered', async () => {
    const { status, err } = await run(add, small(), { words: [...words, '2026-05-01'], options });
    expect(err.replace(/\n */g, ' ')).toContain(
      'year-slip warning: the date is 2026-05-01, about a year before today, 2027-05-02',
    );
    expect(err).toContain('hint: write 2027-05-01, unless it was a year ago');
    expect(status).toBe(0);
  });

  it('is not, where it is nearer or further away, nor in a check', async () => {
    for (const day of ['2027-05-01', '2026-12-20', '2026-06-20', '2026-04-10']) {
      const { err } = await run(add, small(), { words: [...words, day], options });
      expect(err, day).not.toContain('year-slip');
    }
    const a = await run(check, withSale(sale('38')), { options: { asOf: '2027-05-02' } });
    expect(a.out).not.toContain('year-slip');
  });
});
