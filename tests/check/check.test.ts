import { describe, expect, test } from 'vitest';
import type { Kind } from '../../src/book.ts';
import type { Finding } from '../../src/problem.ts';
import type { Raw, RawMap } from '../../src/read/raw.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { type ReadingToCheck, takeIn } from '../../src/check/taken.ts';

const DAY = '2026-06-30';
const STUDIO = { format: '1', name: 'Lane End Pottery', currency: 'USD' };

type Roots = Readonly<Partial<Record<Kind | 'studio', Readonly<Record<string, Raw>>>>>;

function reading(roots: Roots, findings: readonly Finding[] = []): ReadingToCheck {
  const all = Object.entries({ studio: STUDIO, ...roots });
  const files = all.map(([kind, root]) => ({
    file: `${kind}.yaml`,
    kind: kind as Kind | 'studio',
    root: root,
    odd: false,
  }));
  return { files, findings, coreOf: () => undefined };
}

function rulesAt(roots: Roots, findings: readonly Finding[] = []): string[] {
  return checkStudio(reading(roots, findings), DAY).findings.map(
    ({ rule, at }) => `${rule} ${at.file} ${'path' in at ? at.path.join('/') : ''}`,
  );
}

const BOWL = { name: 'Bowl', price: '28.00' };
const SHED = { name: 'Kiln in the shed', fuel: 'wood' };
const LOT = { date: '2026-03-01', product: 'bowl', made: '12' };

function firing(date: string, kind: string, line: RawMap): RawMap {
  return { date, kiln: 'shed', kind, load: [line] };
}

describe('the book', () => {
  test('has every sound record, typed', () => {
    const { book, findings } = checkStudio(reading({ products: { bowl: BOWL } }), DAY);
    expect(findings).toEqual([]);
    expect(book.studio.name).toBe('Lane End Pottery');
    expect(book.products.get('bowl')?.price?.toFixed(2)).toBe('28.00');
    expect(book.products.get('bowl')?.file).toBe('products.yaml');
  });

  test('has the first of two records with one id', () => {
    const base = reading({ products: { bowl: BOWL } });
    const second = {
      ...base.files[1]!,
      file: 'products/more.yaml',
      root: { bowl: { name: 'Dish' } },
    };
    const { book, findings } = checkStudio({ ...base, files: [...base.files, second] }, DAY);
    expect(findings.map(({ rule, at }) => `${rule} ${at.file}`)).toEqual([
      'duplicate-id products/more.yaml',
    ]);
    expect(book.products.get('bowl')?.name).toBe('Bowl');
  });

  test('leaves out a record with a fault of its own and keeps the others', () => {
    const products = { bowl: { ...BOWL, price: 'a lot' }, jar: BOWL };
    const { book, findings } = checkStudio(reading({ products }), DAY);
    expect(findings.map(({ rule }) => rule)).toEqual(['schema']);
    expect([...book.products.keys()]).toEqual(['jar']);
  });

  test('tells which files are clean', () => {
    const base = reading({ products: { bowl: { ...BOWL, price: 'a lot' } }, channels: {} });
    expect(takeIn(base).clean.map(({ file }) => file)).toEqual(['studio.yaml', 'channels.yaml']);
  });

  test('keeps the settings that have no fault', () => {
    const studio = { ...STUDIO, currency: 'JPY', basis: 'guess' };
    const { book, findings } = checkStudio(reading({ studio, products: { bowl: BOWL } }), DAY);
    expect(findings.map(({ rule }) => rule)).toEqual(['schema']);
    expect(book.studio.currency).toBe('JPY');
    expect(book.studio.basis).toBeUndefined();
  });

  test('of a studio without settings says nothing of a currency', () => {
    expect(checkStudio({ ...reading({}), files: [] }, DAY).findings).toEqual([]);
  });
});

describe('what is unsound is not held against sound records', () => {
  test('a product with a fault is no unknown product', () => {
    const roots = { products: { bowl: { ...BOWL, price: 'a lot' } }, pieces: { p1: LOT } };
    expect(rulesAt(roots)).toEqual(['schema products.yaml bowl/price']);
  });

  test('a file that could not be read may have what is named', () => {
    const unread: Finding = {
      rule: 'yaml-error',
      severity: 'error',
      at: { file: 'products/ware.yaml', path: [] },
      message: 'a tab',
      hint: 'use spaces',
    };
    expect(rulesAt({ pieces: { p1: LOT } })).toEqual(['unknown-reference pieces.yaml p1/product']);
    expect(rulesAt({ pieces: { p1: LOT } }, [unread])).toEqual(['yaml-error products/ware.yaml ']);
    expect(rulesAt({ pieces: { p1: LOT } }, [{ ...unread, rule: 'duplicate-id' }])).toEqual([
      'duplicate-id products/ware.yaml ',
      'unknown-reference pieces.yaml p1/product',
    ]);
  });

  test('a firing with a fault may have fired the lots that it names, but no others', () => {
    const bisque = firing('2026-03-10', 'bisque', { lot: 'p1', in: '12', first: '12' });
    const roots = {
      products: { bowl: BOWL },
      kilns: { shed: SHED },
      pieces: { p1: LOT, p2: LOT },
      firings: {
        f1: { ...bisque, hours: 'seven' },
        f2: firing('2026-03-20', 'glaze', { lot: 'p1', in: '12', first: '12' }),
        f3: firing('2026-03-21', 'glaze', { lot: 'p2', in: '12', first: '12' }),
      },
    };
    expect(rulesAt(roots)).toEqual([
      'schema firings.yaml f1/hours',
      'fired-out-of-turn firings.yaml f3/load/0/lot',
    ]);
  });

  test('a lot with a fault may have finished what was sold of its product', () => {
    const sale = { date: '2026-05-02', channel: 'market' };
    const line = { product: 'bowl', count: '1', price: '28.00' };
    const roots = {
      products: { bowl: BOWL, jar: BOWL },
      channels: { market: { name: 'Saturday market', kind: 'fair' } },
      pieces: { p1: { ...LOT, made: 'a dozen' } },
      sales: {
        s1: { ...sale, lines: [line] },
        s2: { ...sale, lines: [{ ...line, product: 'jar' }] },
      },
    };
    expect(rulesAt(roots)).toEqual([
      'schema pieces.yaml p1/made',
      'sold-more-than-finished sales.yaml s2/lines/0/count',
    ]);
  });

  test('a bag of a purchase with a fault, and a category of faulty settings, may be there', () => {
    const feldspar = { name: 'Feldspar', kind: 'dry', unit: 'kg' };
    const line = { material: 'feldspar', quantity: '5 kg', cost: '12.00', lot: 'A4471' };
    const version = { from: '2026-01-01', base: [{ material: 'feldspar', parts: '100' }] };
    const roots = {
      studio: { ...STUDIO, basis: 'guess', categories: { raffle: 'other' } },
      materials: { feldspar },
      recipes: { clear: { name: 'Clear', kind: 'glaze', versions: [version] } },
      bought: { b1: { date: '2026', supplier: 'Hill Clay Merchants', lines: [line] } },
      mixed: {
        m1: {
          date: '2026-02-01',
          recipe: 'clear',
          'base-weight': '2 kg',
          lots: { feldspar: 'A4471' },
        },
      },
      spent: { e1: { date: '2026-02-01', to: 'Town Hall', for: 'raffle', amount: '5.00' } },
    };
    expect(rulesAt(roots)).toEqual(['schema studio.yaml basis', 'schema bought.yaml b1/date']);
  });

  test('a tariff with a fault may price the firing', () => {
    const roots = {
      kilns: { front: { name: 'Front-loading kiln', fuel: 'electricity' } },
      tariffs: { t1: { from: '2026-01-01', fuel: 'electricity', price: 'dear', per: 'kWh' } },
      firings: {
        f1: {
          date: '2026-03-20',
          kiln: 'front',
          kind: 'test',
          energy: '12 kWh',
          load: [{ outside: 'tiles', in: '3' }],
        },
      },
    };
    expect(rulesAt(roots)).toEqual(['schema tariffs.yaml t1/price']);
  });
});
