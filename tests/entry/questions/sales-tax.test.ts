/** What is asked about sales tax follows from the settings. */
import { describe, expect, it } from 'vitest';
import type { Kind } from '../../../src/book.ts';
import type { Ground } from '../../../src/entry/questions/ground.ts';
import { asksForTax, taxPlaces } from '../../../src/entry/questions/usual.ts';
import type { RawMap } from '../../../src/read/raw.ts';
import { bookFrom } from '../../helpers/book.ts';

const SETTINGS = 'format: 1\nname: Test studio\ncurrency: USD\n';
const TAXES = 'taxes: [{ place: County, percent: 6.5%, from: 2026-01-01 }]\n';
const CHANNELS =
  'door: { name: Door, kind: direct, tax-place: County }\npost: { name: Post, kind: online }\nfair: { name: Fair, kind: fair, tax-place: Town }';

function asks([kind, name]: readonly [Kind, string], fields: RawMap, settings = ''): boolean {
  const book = bookFrom({
    studio: SETTINGS + settings,
    channels: CHANNELS,
    products: 'mug: { name: Mug }',
  });
  return asksForTax({ kind, opened: { book } } as unknown as Ground, name, fields);
}

function saleAt(channel: string): RawMap {
  return { date: '2026-03-02', channel, lines: [{ product: 'mug', count: '1', price: '32' }] };
}

describe('the tax of a sale', () => {
  it('is asked where it does not follow from a rate', () => {
    expect(asks(['sales', 'tax'], saleAt('door'))).toBe(true);
    expect(asks(['sales', 'tax'], saleAt('post'), TAXES)).toBe(true);
    expect(asks(['sales', 'tax'], saleAt('door'), TAXES)).toBe(false);
  });

  it('is never asked where the studio is not registered', () => {
    expect(asks(['sales', 'tax'], saleAt('post'), 'sales-tax: none\n')).toBe(false);
    expect(asks(['sales', 'shipping'], saleAt('post'), 'sales-tax: none\n')).toBe(true);
  });
});

describe('the place of a payment', () => {
  it('is asked of sales tax alone, and the places are offered', () => {
    expect(asks(['spent', 'tax-place'], { for: 'sales-tax' })).toBe(true);
    expect(asks(['spent', 'tax-place'], { for: 'licences' })).toBe(false);
    expect(asks(['spent', 'tax-place'], {})).toBe(false);
    expect(
      asks(['spent', 'tax-place'], { for: 'sales-tax' }, 'categories: { sales-tax: other }\n'),
    ).toBe(false);
    const book = bookFrom({ studio: SETTINGS + TAXES, channels: CHANNELS });
    expect(taxPlaces(book)).toEqual(['County', 'Town']);
  });
});
