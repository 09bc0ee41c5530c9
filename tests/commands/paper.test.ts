/** Papers that leave the studio: what is on each, in whose words, and when one can't be made. */
import { describe, expect, it } from 'vitest';
import { displayWidth } from '../../src/render/terminal/width.ts';
import { SHOP, SHOP_SALES, numbered, said, shop } from '../helpers/paper-studio.ts';
import type { Said } from '../helpers/command-world.ts';
import { runCommand } from '../helpers/studio-commands.ts';

const MAIL_WIDTH = 72;

const PAPERS = [
  ['paper-invoice', ['invoice', 's260617ku']],
  ['paper-gallery-invoice', ['invoice', 's260630db']],
  ['paper-receipt', ['receipt', 's260628ce']],
  ['paper-order', ['order', 'o260624of']],
  ['paper-sent', ['sent', 'c260520fj']],
  ['paper-owed', ['owed', 'hobbin-lane']],
  ['paper-labels', ['labels', '12 mug oatmeal', 'p260519dg']],
  ['paper-care', ['care', 'mug']],
] as const;

describe('as text', () => {
  it.each(PAPERS)('%s is as kept, no line over 72 cells', async (name, [argument, ...more]) => {
    const { out, status } = await runCommand('paper', {}, { argument, more });
    expect(status).toBe(0);
    expect(out.split('\n').filter((line) => displayWidth(line) > MAIL_WIDTH)).toEqual([]);
    await expect(out).toMatchFileSnapshot(`../golden/${name}.txt`);
  });

  it('folds words that are too long, and keeps every figure whole', async () => {
    const name = 'A very long name of a platter '.repeat(6).trim();
    const folder = shop({
      [SHOP_SALES]: `s1:
  date: 2026-04-10
  channel: shop
  buyer: ${'Somebody with a name '.repeat(8).trim()}
  lines:
    - { for: ${name}, count: 123456, price: 9999999.99 }
`,
    });
    const { out } = await said(folder, ['paper', 'invoice', 's1']);
    expect(out.split('\n').filter((line) => displayWidth(line) > MAIL_WIDTH)).toEqual([]);
    expect(out).toContain('1,234,559,998,765.44');
  });

  it('says a price as it is on the record, with a tax that is in it, and the sums of both', async () => {
    const folder = shop({
      'channels.yaml':
        'market:\n  name: Market\n  kind: fair\n  tax-included: 20%\nshop:\n  name: Shop\n  kind: wholesale\ngallery:\n  name: Gallery\n  kind: consignment\n',
      [SHOP_SALES]:
        's1:\n  date: 2026-04-10\n  channel: market\n  discount: 10%\n  lines:\n    - { for: platter, count: 3, price: 40.00, discount: 5.00 }\n',
    });
    const { out } = await said(folder, ['paper', 'receipt', 's1']);
    // 120 − 5 = 115; a tenth of it 11.50; 103.50 × 20 ÷ 120 = 17.25 (the VAT fraction of HMRC's VAT guide).
    expect(out).toMatch(/platter +40\.00 +120\.00\n +less +-5\.00\n/);
    expect(out).toMatch(/Subtotal +115\.00\n +Discount 10% +-11\.50\n +Total USD +103\.50\n/);
    expect(out).toMatch(/of which sales tax 20% +17\.25\n/);
  });

  it('says nothing of tax where none is collected', async () => {
    const { out } = await said(shop(), ['paper', 'invoice', 's260410aa']);
    expect(out).not.toMatch(/tax/i);
  });
});

describe('a studio that prints in its own language', () => {
  const own = {
    'studio.yaml': SHOP['studio.yaml'].replace('papers: {', 'papers: { phrases: worte.yaml,'),
    'worte.yaml':
      'language: de\ninvoice: Rechnung\ndecimal-mark: ","\nthousands-mark: "."\nday-form: DD.MM.YYYY\nto-pay: Zu zahlen\n',
  };

  it('has its words, marks and days, and says its language to a screen reader', async () => {
    const folder = shop(own);
    const { out } = await said(folder, ['paper', 'invoice', 's260410aa']);
    expect(out).toContain('RECHNUNG');
    expect(out).toContain('10.04.2026');
    expect(out).toMatch(/Zu zahlen +60,00/);
    const page = await said(folder, ['paper', 'invoice', 's260410aa'], { as: 'html' });
    expect(page.out).toContain('<html lang="de">');
  });

  it('has no stray file in it', async () => {
    const { out } = await said(shop(own), ['check']);
    expect(out).not.toContain('worte.yaml');
  });

  it.each([
    ['invoise: Rechnung\n', 'there is no phrase "invoise"; did you mean invoice?'],
    ['language: Deutsch!\n', '"Deutsch!" is not a language: write a code such as de or pt-BR'],
    ['decimal-mark: ",,"\n', 'decimal-mark takes one sign'],
    ['invoice: [a]\n', 'invoice takes words on one line'],
  ])('is told what is wrong with %j', async (text, words) => {
    const { err, status } = await said(shop({ ...own, 'worte.yaml': text }), [
      'paper',
      'invoice',
      's260410aa',
    ]);
    expect(status).toBe(2);
    expect(err).toContain(words);
  });
});

describe('a paper that can not be made', () => {
  it.each([
    [['receipt', 's260410aa'], {}, 's260410aa is not paid by 2026-05-01'],
    [['credit', 's260410aa'], {}, 's260410aa sells something'],
    [['invoice'], {}, 'say which sale'],
    [['invoice', 'nope'], {}, 'there is no sale "nope"'],
    [['bill', 's260410aa'], {}, '"bill" is not a choice for paper'],
    [['invoice', 's260410aa'], { dryRun: true }, '--dry-run goes with --number'],
    [['receipt', 's260410aa'], { number: true }, '--number is for invoice and credit only'],
    [['invoice', 's260410aa'], { labelSheet: 'A4-3x8' }, '--label-sheet goes with labels only'],
    [['care', 'mug'], {}, 'mug claims nothing about its care'],
    [['labels', '3 nothing'], {}, '"3 nothing"'],
    [['labels', '12 mug'], { labelSheet: 'A5' }, '"A5" is not a choice for --label-sheet'],
    [['labels', '12 mug'], { start: '31' }, '--start takes a label of the sheet, from 1 to 30'],
    [['labels', '999999 mug'], {}, '999999 labels are too many'],
    [['labels', '2 bowl lot p260301ab'], {}, 'p260301ab is a lot of mug'],
  ])('%j %j is told why', async (words, options, why) => {
    const { err, status, out } = await said(shop(), ['paper', ...words], options);
    expect([status, out]).toEqual([2, '']);
    expect(err).toContain(why);
  });

  it('is not one buyer’s account with what others owe on it', async () => {
    const folder = shop({
      [SHOP_SALES]: SHOP[SHOP_SALES].replace('Puddle Coffee', 'Kelp Kitchen'),
    });
    const { err } = await said(folder, ['paper', 'owed', 'shop']);
    expect(err).toContain('Kelp Kitchen and Puddle Coffee owe something of shop');
    const { out } = await said(folder, ['paper', 'owed', 'shop'], { buyer: 'Kelp Kitchen' });
    expect(out).toContain('s260410aa');
    expect(out).not.toMatch(/Puddle|s260411bb/);
  });
});

describe('words on care', () => {
  const caring = (more: string): string =>
    shop({
      'products.yaml':
        'mug:\n  name: Mug\n  price: 38.50\n  care: [food, oven, dishwasher]\nbowl:\n  name: Bowl\n  price: 44\n  care: [ornamental]\n',
      'tests/2026-04.yaml': `t260402aa:\n  date: 2026-04-02\n  kind: dishwasher\n  lot: p260301ab\n${more}`,
    });
  const label = async (folder: string): Promise<Said> =>
    said(folder, ['paper', 'labels', '1 mug'], { labelSheet: 'A4-3x8' });

  it('are those that a test on record is behind, and no more', async () => {
    const folder = caring('  result: no change\n');
    const card = await said(folder, ['paper', 'care', 'mug']);
    expect(card.out).toMatch(/Dishwasher +test on record, 2026-04-02\n/);
    expect(card.out).toMatch(/Oven +no test on record\n/);
    expect(card.out).toMatch(/Food +no test on record\n/);
    const { out, err } = await label(folder);
    expect(out).toContain('Dishwasher: test on record, 2026-04-02');
    expect(out).not.toMatch(/Oven|Food/);
    expect(err).toContain('food and oven (mug)');
    for (const text of [card.out, out])
      expect(text.replace('the ware is\nsafe', '')).not.toMatch(/safe/);
  });

  it('leave out what failed its test, and lead to who has it', async () => {
    const folder = caring('  verdict: no\n');
    const card = await said(folder, ['paper', 'care', 'mug']);
    expect(card.out).not.toContain('Dishwasher');
    expect(card.err).toContain('left out, for a test failed: dishwasher');
    expect(card.err).toContain('saggar claims mug');
    expect((await label(folder)).out).not.toContain('Dishwasher');
  });

  it('say on every label that ware is not for food, of whatever size', async () => {
    for (const labelSheet of ['A4-5x13', 'Letter-4x20', 'A4-2x7']) {
      const { out } = await said(caring(''), ['paper', 'labels', '1 bowl'], { labelSheet });
      expect(out).toContain('Not for food or drink');
    }
  });
});

describe('from the pot to the account', () => {
  it('each paper has the number that the next one is followed by', async () => {
    const folder = shop({
      'pieces/p260301ab.yaml':
        'p260301ab:\n  date: 2026-03-01\n  product: mug\n  made: 24\n  mark: SF 7\n',
      'consigned/2026-04.yaml':
        'c260412ga:\n  date: 2026-04-12\n  channel: gallery\n  sent:\n    - { product: mug, lot: p260301ab, count: 2, price: 40.00 }\n',
    });
    await numbered(folder, 's260410aa');
    const paper = async (...words: string[]): Promise<string> =>
      (await said(folder, ['paper', ...words])).out;
    const pot = 'p260301ab (SF 7)';
    expect(await paper('labels', 'p260301ab')).toContain(pot);
    const list = await paper('sent', 'c260412ga');
    expect(list).toContain(pot);
    expect(list).toContain('c260412ga');
    const invoice = await paper('invoice', 's260410aa');
    expect(invoice).toContain(pot);
    expect(invoice).toContain('A0001');
    expect(await paper('invoice', 'A0001')).toBe(invoice);
    expect(await paper('owed', 'shop')).toMatch(/A0001 +Invoice +60\.00/);
    expect((await said(folder, ['trace', 'SF 7'])).out).toContain('s260410aa');
    await said(folder, ['amend', 's260410aa', 'paid=2026-04-30'], { input: false });
    const taxes = await said(folder, ['quarter', '2026-Q2'], { as: 'html', sheet: 'plain' });
    expect(taxes.out).toMatch(/invoice A0001/);
  });
});
