import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planAmend } from '../../src/entry/amend.ts';
import { readAmendment, type Amendment } from '../../src/entry/amendment.ts';
import { lexiconOf } from '../../src/entry/lexicon.ts';
import { holds } from '../helpers/law.ts';
import { SMALL_STUDIO, openFolder, smallLexicon } from '../helpers/small-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const ground = { lexicon: smallLexicon(), day: '2026-04-20' };

describe('reading a change', () => {
  it.each([
    ['note=a = b', { path: ['note'], value: 'a = b' }],
    ['lines.1.price= 40 ', { path: ['lines', 0, 'price'], value: '40' }],
    ['lines.2.discount=', { path: ['lines', 1, 'discount'] }],
    ['lines=', { path: ['lines'] }],
    [
      'lines.3=1 bowl at 44',
      { path: ['lines', 2], value: { product: 'bowl', count: '1', price: '44' } },
    ],
  ])('%s', (text, amendment) => {
    const read = readAmendment(text, 'sales', ground);
    expect(JSON.parse(JSON.stringify(read))).toEqual({ ...amendment, faults: [] });
  });

  it('takes words for a list of words, and a quantity of fuel or fuel from stock', () => {
    expect(readAmendment('care=food oven', 'products', ground)).toMatchObject({
      value: ['food', 'oven'],
    });
    expect(readAmendment('fuel-used=8 m3-gas', 'firings', ground)).toMatchObject({
      path: ['fuel-used'],
      value: '8 m3-gas',
    });
    expect(readAmendment('fuel-used=8 lb propane', 'firings', ground)).toMatchObject({
      value: { material: 'propane', quantity: '8 lb' },
    });
    expect(readAmendment('load.1.why.cracked=1', 'firings', ground)).toMatchObject({
      path: ['load', 0, 'why', 'cracked'],
    });
  });

  it.each([
    ['price', 'is not a change; write FIELD=VALUE'],
    ['=x', 'is not a change'],
    ['chanel=x', 'a sale has no field "chanel"; did you mean channel?'],
    ['zzz=x', 'a sale has no field "zzz"; it has date, channel'],
    ['lines.price=4', 'lines is a list: say which, counted from 1, as in lines.1=…'],
    ['lines=1 mug', 'lines is a list: say which'],
    ['lines.0.price=4', 'lists count from 1: the first of lines is lines.1'],
    ['lines.1.prise=4', 'lines.1 has no field "prise"; did you mean price?'],
    ['note.x=4', 'note is a single value and has no "x"'],
    ['lines.-1.price=4', 'lines is a list'],
    ['constructor=4', 'a sale has no field "constructor"'],
  ])('refuses %s', (text, reason) => {
    const read = readAmendment(text, 'sales', ground);
    expect(read).toEqual({ refused: expect.stringContaining(reason) as string });
  });

  it('refuses a whole record or mapping, and names its fields', () => {
    expect(readAmendment('meter=1', 'firings', ground)).toEqual({
      refused: 'meter has fields of its own: meter.before and meter.after',
    });
    expect(readAmendment('duty=1', 'kilns', ground)).toHaveProperty('refused');
  });
});

const SALES = SMALL_STUDIO['sales/2026-04.yaml'] ?? '';

async function amended(id: string, ...texts: string[]): Promise<string> {
  const opened = await openFolder(tempStudio(SMALL_STUDIO));
  const words = lexiconOf(opened.reading.files);
  const record = words.find(id);
  if (!record) throw new Error(id);
  const amendments = texts.map((text) => {
    const read = readAmendment(text, record.kind, { lexicon: words, day: opened.asOf });
    if ('refused' in read) throw new Error(read.refused);
    return read;
  });
  const plan = await planAmend(opened, record, amendments);
  return 'refused' in plan ? plan.refused : plan.text;
}

describe('a plan to amend', () => {
  it.each([
    [['lines.1.price=40'], 'price: 36', 'price: 40'],
    [['buyer=Bay: Coffee #2'], 'buyer: Puddle Coffee', "buyer: 'Bay: Coffee #2'"],
    [['discount='], '  discount: 10%\n', ''],
    [['buyer='], '  buyer: Puddle Coffee\n', ''],
    [['note=x'], '  discount: 10%\n', '  discount: 10%\n  note: x\n'],
    [
      ['lines.2=1 bowl'],
      '      price: 36\n',
      '      price: 36\n    - { product: bowl, count: 1, price: 44 }\n',
    ],
  ])('%j changes that and nothing else', async (texts, before, after) => {
    expect(SALES.split(before)).toHaveLength(2);
    expect(await amended('s260402cd', ...texts)).toBe(SALES.replace(before, after));
  });

  it('counts the items of a list as they stand before', async () => {
    const text = await amended('s260401ab', 'lines.1=', 'lines.2.price=25', 'lines.3=1 bowl at 4');
    const lines = [
      '    - { product: mug, count: 2, price: 38.50 }\n    - { product: mug, grade: second, count: 1, price: 24.00 }\n',
      '    - { product: mug, grade: second, count: 1, price: 25 }\n    - { product: bowl, count: 1, price: 4 }\n',
    ];
    expect(text).toBe(SALES.replace(lines[0] ?? '', lines[1] ?? ''));
  });

  it('takes a list away that would be left empty', async () => {
    const firing = SMALL_STUDIO['firings/f260320cd.yaml'] ?? '';
    expect(await amended('f260320cd', 'load.1.why.cracked=')).toBe(
      firing.replace(', why: { cracked: 1 }', ''),
    );
  });

  it('is refused where it would change nothing, or has no place', async () => {
    expect(await amended('s260402cd', 'lines.1.price=36')).toBe(
      's260402cd says all this already; nothing was changed',
    );
    expect(await amended('s260402cd', 'lines.4.price=36')).toContain('the list has no place');
    expect(await amended('s260402cd', 'statement=')).toContain('there is no s260402cd statement');
  });

  it('leaves every other line as it is, whatever the values', async () => {
    const opened = await openFolder(tempStudio(SMALL_STUDIO));
    const record = lexiconOf(opened.reading.files).find('s260402cd');
    if (!record) throw new Error('no record');
    const [head = ''] = SALES.split('s260402cd');
    const value = fc
      .string({ minLength: 1, unit: 'grapheme' })
      .filter((text) => text.trim() !== '');
    await holds(
      fc.asyncProperty(
        value,
        fc.constantFrom('note', 'buyer', 'statement'),
        async (text, field) => {
          const change: Amendment = { path: [field], value: text };
          const plan = await planAmend(opened, record, [change]);
          if ('refused' in plan) return;
          expect(plan.text.startsWith(head)).toBe(true);
          expect(plan.text).toContain('      count: 4 # all they had room for\n');
          const read = plan.sides.after.sales.get('s260402cd');
          expect(read?.[field]).toBe(text);
        },
      ),
      40,
    );
  });
});
