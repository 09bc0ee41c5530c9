import { describe, expect, it } from 'vitest';
import type { Kind } from '../../src/book.ts';
import { expandRecord } from '../../src/entry/expand.ts';
import type { RawMap } from '../../src/read/raw.ts';
import { smallLexicon, TODAY } from '../helpers/small-studio.ts';

const ground = { lexicon: smallLexicon(), day: TODAY };

function expand(kind: Kind, typed: RawMap): { fields: unknown; faults: unknown[] } {
  const { fields, faults } = expandRecord(kind, typed, ground);
  return { fields: JSON.parse(JSON.stringify(fields)), faults: [...faults] };
}

function keysOf(value: unknown): string[] {
  return Object.keys(value as object);
}

describe('a whole record', () => {
  it('has its fields in the order of the schema, unknown ones last', () => {
    const typed = {
      note: 'n',
      nonsense: 'x',
      lines: [{ price: '3', zzz: '1', count: '2', product: 'mug' }],
      channel: 'market',
      date: '2026-04-01',
    };
    const { fields } = expand('sales', typed);
    expect(keysOf(fields)).toEqual(['date', 'channel', 'lines', 'note', 'nonsense']);
    const [line] = (fields as { lines: unknown[] }).lines;
    expect(keysOf(line)).toEqual(['product', 'count', 'price', 'zzz']);
  });

  it('may say its days in words, also within a sentence', () => {
    // TODAY is 2026-05-01, a Friday.
    const { fields, faults } = expand('pieces', {
      date: 'monday',
      product: 'mug',
      made: '9',
      lost: ['1 cracked on 3 days ago', { date: 'yesterday', count: '1', why: 'other' }],
    });
    expect(faults).toEqual([]);
    expect(fields).toMatchObject({
      date: '2026-04-27',
      lost: [{ date: '2026-04-28' }, { date: '2026-04-30' }],
    });
    expect(expand('sales', { date: 'today', paid: 'yesterday' }).fields).toEqual({
      date: '2026-05-01',
      paid: '2026-04-30',
    });
    expect(expand('sales', { paid: 'no' }).fields).toMatchObject({ paid: 'no' });
  });

  it('may have sentences wherever its lists have records', () => {
    const { fields, faults } = expand('firings', {
      date: '2026-04-01',
      load: ['24 p260301ab', { lot: 'p260302cd', in: '6' }],
      supplies: '3 cone-6',
      'fuel-used': '12 lb propane',
    });
    expect(faults).toEqual([]);
    expect(fields).toEqual({
      date: '2026-04-01',
      'fuel-used': { material: 'propane', quantity: '12 lb' },
      supplies: [{ material: 'cone-6', quantity: '3' }],
      load: [
        { lot: 'p260301ab', in: '24' },
        { lot: 'p260302cd', in: '6' },
      ],
    });
  });

  it('has mappings from sentences, and each name once', () => {
    expect(expand('kilns', { duty: ['50% bisque', '40% glaze'] })).toEqual({
      fields: { duty: { bisque: '50%', glaze: '40%' } },
      faults: [],
    });
    const { faults } = expand('mixed', { lots: ['kaolin 1', 'kaolin 2'] });
    expect(faults).toMatchObject([{ path: ['lots', 1], message: '"kaolin" is given twice' }]);
  });

  it('keeps what is neither a record nor a sentence as it is', () => {
    const typed = { lines: { a: 'b' }, channel: ['x'], date: '' };
    expect(expand('sales', typed).fields).toEqual({ date: '', channel: ['x'], lines: { a: 'b' } });
    expect(expand('kilns', { duty: ['50% bisque', { a: 'b' }] }).fields).toEqual({
      duty: ['50% bisque', { a: 'b' }],
    });
    expect(expand('products', { clay: '1 lb kaolin' }).fields).toEqual({ clay: '1 lb kaolin' });
  });

  it('says at which line of which list a sentence is wrong', () => {
    const { faults } = expand('sales', { lines: ['1 mug at 3', '2 mugg at 3'] });
    expect(faults).toMatchObject([{ path: ['lines', 1], sentence: '2 mugg at 3', start: 2 }]);
  });
});

describe('what is filled in', () => {
  it('is the day, where a kind has a date and none is given', () => {
    expect(expand('spent', {}).fields).toEqual({ date: TODAY });
    expect(expand('spent', { date: '2026-01-01' }).fields).toEqual({ date: '2026-01-01' });
    expect(expand('channels', {}).fields).toEqual({});
    expect(expand('tariffs', {}).fields).toEqual({});
    expect(expand('recipes', { versions: [{ base: ['1 kaolin'] }] }).fields).toEqual({
      versions: [{ from: TODAY, base: [{ material: 'kaolin', parts: '1' }] }],
    });
  });

  it("is a lot's own day for what it lost", () => {
    const { fields } = expand('pieces', {
      date: '2026-03-03',
      lost: ['1 cracked', '1 warped on 2026-03-09'],
      gone: ['1 gift'],
    });
    expect(fields).toEqual({
      date: '2026-03-03',
      lost: [
        { date: '2026-03-03', count: '1', why: 'cracked' },
        { date: '2026-03-09', count: '1', why: 'warped' },
      ],
      gone: [{ date: '2026-03-03', count: '1', how: 'gift' }],
    });
  });

  it.each([
    ['market', '1 mug', '38.50'],
    ['market', '1 mug second', '24.00'],
    ['shop', '1 mug', '20'],
    ['shop', '1 mug second', '24.00'],
    ['market', '1 bowl lot p260302cd', '120.00'],
    ['market', '1 p260302cd', '120.00'],
    ['market', '1 p260301ab', '38.50'],
    ['market', '1 evening-class', '180.00'],
    ['market', '1 bowl at 3', '3'],
    ['market', '1 bowl second', undefined],
    ['shop', '1 bowl', undefined],
    ['market', '1 for repair', undefined],
    ['nowhere', '1 mug', '38.50'],
  ])('is the price on %s of "%s": %s', (channel, line, price) => {
    const { fields } = expand('sales', { channel, lines: [line] });
    const [sold] = (fields as { lines: Record<string, unknown>[] }).lines;
    expect(sold?.['price']).toBe(price);
  });

  it('is the same for a record as for a sentence', () => {
    const fromRecord = expand('sales', {
      channel: 'market',
      lines: [{ lot: 'p260302cd', count: '1' }],
    });
    expect(fromRecord).toEqual(expand('sales', { channel: 'market', lines: ['1 p260302cd'] }));
    const [line] = (fromRecord.fields as { lines: unknown[] }).lines;
    expect(keysOf(line)).toEqual(['product', 'lot', 'count', 'price']);
  });

  it("is the kiln's last reading of the meter before the firing", () => {
    const meter = (typed: RawMap): unknown =>
      (expand('firings', { kiln: 'rotunda', ...typed }).fields as RawMap)['meter'];
    expect(meter({ meter: { after: '250' } })).toEqual({ before: '200', after: '250' });
    expect(meter({ date: '2026-03-15', meter: { after: '250' } })).toEqual({
      before: '140.5',
      after: '250',
    });
    expect(meter({ date: '2026-01-15', meter: { after: '250' } })).toEqual({ after: '250' });
    expect(meter({ kiln: 'other', meter: { after: '250' } })).toEqual({ after: '250' });
    expect(meter({ meter: { before: '1', after: '2' } })).toEqual({ before: '1', after: '2' });
  });

  it('is nothing while a sentence is not understood', () => {
    expect(expand('sales', { lines: ['1 mugg'] }).fields).not.toHaveProperty('date');
  });
});
