/** Numbers of invoices: one after the other, kept once they are given, on branches that merge too. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { SHOP, SHOP_SALES, numbered, numbersIn, said, shop } from '../helpers/paper-studio.ts';

describe('the number of an invoice', () => {
  it('is the next of the series, written into the sale and on the paper', async () => {
    const folder = shop();
    const first = await numbered(folder, 's260411bb');
    expect(first.out).toContain('Numbered s260411bb as A0001');
    await numbered(folder, 's260410aa');
    expect(numbersIn(folder)).toEqual(['A0002', 'A0001']);
    const { out, err } = await said(folder, ['paper', 'invoice', 's260410aa']);
    expect(out).toContain('INVOICE A0002');
    expect(err).not.toContain('no number yet');
  });

  it('goes on from a number that was written by hand, with as many digits', async () => {
    const folder = shop();
    await said(folder, ['amend', 's260410aa', 'number=A017']);
    await numbered(folder, 's260411bb');
    expect(numbersIn(folder)).toEqual(['A017', 'A018']);
  });

  it('is not given twice to a sale, nor with --dry-run', async () => {
    const folder = shop();
    await numbered(folder, 's260410aa', { dryRun: true });
    expect(numbersIn(folder)).toEqual([]);
    await numbered(folder, 's260410aa');
    const again = await numbered(folder, 's260410aa');
    expect(again.err).toContain('s260410aa has the number A0001 already');
    expect(numbersIn(folder)).toEqual(['A0001']);
  });

  it('can be taken out again while it is the last', async () => {
    const folder = shop();
    const before = readFileSync(join(folder, SHOP_SALES), 'utf8');
    await numbered(folder, 's260410aa');
    await said(folder, ['amend', 's260410aa', 'number=']);
    expect(readFileSync(join(folder, SHOP_SALES), 'utf8')).toBe(before);
  });

  it('keeps what is on the invoice as it went out, and lets what is not on it change', async () => {
    const folder = shop();
    await numbered(folder, 's260410aa');
    await numbered(folder, 's260411bb');
    const text = readFileSync(join(folder, SHOP_SALES), 'utf8');
    const tries: [string, string[], object?][] = [
      ['amend', ['s260410aa', 'lines.1.count=2']],
      ['amend', ['s260410aa', 'lines.1.price=21']],
      ['amend', ['s260410aa', 'date=2026-04-09']],
      ['amend', ['s260410aa', 'shipping=5']],
      ['amend', ['s260410aa', 'number=']],
      ['amend', ['s260410aa', 'number=A0009']],
      ['amend', ['shop', 'tax-included=10%']],
      ['remove', ['s260411bb'], { evenIfUsed: true }],
    ];
    for (const [command, words, options] of tries) {
      const { err, status } = await said(folder, [command, ...words], { input: false, ...options });
      expect([words, status]).toEqual([words, 1]);
      expect(err).toContain('a sale of returns');
    }
    expect(readFileSync(join(folder, SHOP_SALES), 'utf8')).toBe(text);
    const paid = await said(folder, ['amend', 's260410aa', 'paid=2026-04-30'], { input: false });
    expect(paid.status).toBe(0);
  });

  it('is credited by a sale of returns, which has a number of its own and names the invoice', async () => {
    const folder = shop({
      'sales/back.yaml':
        's260420cc:\n  date: 2026-04-20\n  channel: shop\n  buyer: Puddle Coffee\n  lines:\n    - { product: mug, count: 1, price: 20.00, returned: yes }\n',
    });
    await numbered(folder, 's260410aa');
    const early = await said(folder, ['paper', 'credit', 's260420cc'], { number: true });
    expect(early.err).toContain('say first which sale it credits');
    await said(folder, ['amend', 's260420cc', 'credits=s260410aa']);
    await said(folder, ['paper', 'credit', 's260420cc'], { number: true });
    const { out } = await said(folder, ['paper', 'credit', 's260420cc']);
    expect(out).toContain('CREDIT NOTE A0002');
    expect(out).toMatch(/For invoice +A0001, 2026-04-10/);
    expect(out).toMatch(/Given back +20\.00/);
    expect(out).not.toContain('-20.00');
  });
});

describe('on branches of git', () => {
  function onBranch(name: string, more: Readonly<Record<string, string>> = {}): string {
    const folder = inGit(shop(more));
    git(folder, 'branch', '-M', 'main');
    if (name !== 'main') git(folder, 'checkout', '-qb', name);
    return folder;
  }

  it('another one has to name a series', async () => {
    const folder = onBranch('fair');
    const { err, status } = await numbered(folder, 's260410aa');
    expect(status).toBe(2);
    expect(err).toContain('this is the branch fair');
    await numbered(folder, 's260410aa', { series: 'B' });
    expect(numbersIn(folder)).toEqual(['B0001']);
  });

  it('no branch at all has to name one too, and another home may be set', async () => {
    const folder = onBranch('main');
    git(folder, 'checkout', '-q', '--detach');
    expect((await numbered(folder, 's260410aa')).err).toContain('no branch is checked out');
    const home = onBranch('fair', {
      'studio.yaml': SHOP['studio.yaml'].replace('series: A', 'series: A, branch: fair'),
    });
    expect((await numbered(home, 's260410aa')).status).toBe(0);
  });

  it('two that gave one number each are found out once they are merged, and by review before', async () => {
    const folder = onBranch('main');
    git(folder, 'checkout', '-qb', 'fair');
    await numbered(folder, 's260410aa', { series: 'A' });
    commitAll(folder, 'Fair');
    git(folder, 'checkout', '-q', 'main');
    // Kept apart by lines, so that git merges it without asking.
    await numbered(folder, 's260411bb');
    commitAll(folder, 'Main');
    const review = await said(folder, ['review', 'main', 'fair'], { as: 'json' });
    expect(review.out).toContain('number-twice');
    git(folder, 'merge', '-q', '--no-edit', 'fair');
    const { out, status } = await said(folder, ['check']);
    expect(status).toBe(1);
    expect(out).toContain('A0001 is already the number of');
    // Whoever has not gone out yet gets the next one.
    await said(folder, ['amend', 's260411bb', 'number=A0002'], { input: false });
    expect((await said(folder, ['check'])).out).not.toContain('number-');
  });

  it('two series merge without a fault', async () => {
    const folder = onBranch('main');
    git(folder, 'checkout', '-qb', 'fair');
    await numbered(folder, 's260410aa', { series: 'B' });
    commitAll(folder, 'Fair');
    git(folder, 'checkout', '-q', 'main');
    await numbered(folder, 's260411bb');
    commitAll(folder, 'Main');
    git(folder, 'merge', '-q', '--no-edit', 'fair');
    const { out } = await said(folder, ['check']);
    expect(out).not.toContain('number-');
    expect(numbersIn(folder)).toEqual(['B0001', 'A0001']);
  });

  it('review says where an invoice that went out is another on a branch', async () => {
    const folder = onBranch('main');
    await numbered(folder, 's260410aa');
    await numbered(folder, 's260411bb');
    commitAll(folder, 'Numbered');
    git(folder, 'checkout', '-qb', 'slip');
    const file = join(folder, SHOP_SALES);
    writeFileSync(file, readFileSync(file, 'utf8').replace('count: 3', 'count: 30'));
    commitAll(folder, 'Slip');
    const { out } = await said(folder, ['review', 'main'], { as: 'text' });
    expect(out).toContain('its invoice A0001 has gone out, and is changed');
  });
});
