/** How far rules reach: what they may go through, what they are seen to ask for, what concerns them. */
import { describe, expect, it } from 'vitest';
import type { Records } from '../../src/among.ts';
import type { Book, Entry, Kind } from '../../src/book.ts';
import { foundOnDay, foundOver, looksThat, recordsLooker } from '../../src/check/looking.ts';
import { concerns, type AskedIds } from '../../src/check/reach.ts';
import { NOTHING_UNSOUND, each, onDay, over, type Reached } from '../../src/check/rule.ts';
import { RULES } from '../../src/check/rules.ts';
import { bookFrom } from '../helpers/book.ts';

const DAY = '2026-06-30';

const BOOK = bookFrom({
  channels: 'market: { name: Market, kind: fair }\nnook: { name: Nook, kind: consignment }',
  products: 'mug: { name: Mug }',
  kilns: 'shed: { name: Shed, fuel: electricity }',
  tariffs: 'day: { fuel: electricity, from: 2026-01-01, per: kWh, price: 0.20 }',
  advances: 'a1: { date: 2026-05-01, buyer: Ines Porter, amount: 20.00, for: deposit }',
  orders:
    'o1: { date: 2026-05-01, buyer: the tea room, lines: [{ product: mug, count: 2, price: 30.00 }] }',
  firings: 'f1: { date: 2026-05-03, kiln: shed, kind: glaze, energy: 40 kWh, load: [] }',
  sales: `
s1: { date: 2026-05-02, channel: market, lines: [{ product: mug, count: 1, price: 30.00 }] }
s2: { date: 2026-07-02, channel: market, lines: [{ product: mug, count: 1, price: 30.00 }], advances: [{ advance: a1, amount: 5.00 }] }
s3: { date: 2026-05-02, channel: market, lines: [{ product: mugg, count: 1, price: 30.00 }] }
s4: { date: 2026-05-02, channel: market, lines: [{ product: shed, count: 1, price: 30.00 }] }
`,
});

const JUDGING = { rules: RULES, book: BOOK, unsound: NOTHING_UNSOUND };

function shown(asked: AskedIds): Record<string, string[]> {
  return Object.fromEntries([...asked].map(([kind, ids]) => [kind, [...ids].sort()]));
}

function lookAtSale(id: string): ReturnType<ReturnType<typeof recordsLooker>> {
  const sale = BOOK.sales.get(id);
  return recordsLooker(JUDGING)({ kind: 'sales', records: sale ? [sale] : [] });
}

describe('a look at the records of a file', () => {
  it('tells what it asked for by id', () => {
    const { findings, asked, isWhole } = lookAtSale('s1');
    expect(findings).toEqual([]);
    expect(shown(asked)).toEqual({ channels: ['market'], products: ['mug'] });
    expect(isWhole).toBe(true);
  });

  it('asks anew in the next file, though it is the same record', () => {
    const look = recordsLooker(JUDGING);
    const [first, second] = [1, 2].map(() => look({ kind: 'sales', records: sales('s2') }));
    expect(shown(first?.asked ?? new Map())).toEqual({
      advances: ['a1'],
      channels: ['market'],
      products: ['mug'],
    });
    expect(second).toEqual(first);
  });

  it('rests on all ids where one is nowhere', () => {
    const { findings, isWhole } = lookAtSale('s3');
    expect(findings.map(({ rule, hint }) => [rule, hint])).toEqual([
      ['unknown-reference', 'did you mean "mug"?'],
    ]);
    expect(isWhole).toBe(false);
  });

  it('asks every kind until one has the id, where it is of the wrong kind', () => {
    const { findings, asked } = lookAtSale('s4');
    expect(findings.map(({ rule }) => rule)).toEqual(['wrong-kind-of-reference']);
    expect(shown(asked)['kilns']).toEqual(['shed']);
    expect(shown(asked)['materials']).toEqual(['shed']);
    expect(shown(asked)['tariffs']).toBeUndefined();
  });

  it('takes the settings for a record', () => {
    const book = { ...BOOK, studio: { ...BOOK.studio, currency: 'XXZ' } };
    const { findings } = recordsLooker({ ...JUDGING, book })({
      kind: 'studio',
      records: [book.studio],
    });
    expect(findings.map(({ rule }) => rule)).toEqual(['unknown-currency']);
  });
});

function sales(...ids: string[]): Entry[] {
  return ids.flatMap((id) => BOOK.sales.get(id) ?? []);
}

/** A book whose sales can only be had by a key, a day or an id, as where they lie in many files. */
function bookInParts(asked: string[]): Book {
  const refuse = (): never => {
    throw new Error('all sales');
  };
  const records: Partial<Records<Entry>> = {
    get: (id) => BOOK.sales.get(id),
    has: (id) => BOOK.sales.has(id),
    having: (key) => {
      asked.push(key);
      return sales('s2');
    },
    naming: () => [],
    during: ({ from }) => {
      asked.push(`from ${from ?? ''}`);
      return sales('s2');
    },
    values: refuse,
    keys: refuse,
    entries: refuse,
    [Symbol.iterator]: refuse,
  };
  return { ...BOOK, sales: records as unknown as Book['sales'] };
}

describe('a look over kinds', () => {
  it('tells what it asked for besides them', () => {
    const found = looksThat('over', RULES)
      .filter(({ rule }) => rule.name === 'bad-unit')
      .map((look) => shown(foundOver(look, JUDGING).asked));
    expect(found).toEqual([{ kilns: ['shed'] }]);
  });

  it('never goes through all sales, of which there are most', () => {
    const asked: string[] = [];
    const book = { ...bookInParts(asked), channels: new Map() };
    for (const look of looksThat('over', RULES)) foundOver(look, { ...JUDGING, book });
    for (const look of looksThat('day', RULES)) foundOnDay(look, { ...JUDGING, book, day: DAY });
    expect([...new Set(asked)].sort()).toEqual([
      'advances',
      'class',
      'credits',
      'for-order',
      'from 2026-07-01',
      'number',
    ]);
  });
});

describe('a record concerns a look', () => {
  function isConcerned(reached: Reached, kind: Kind, id: string): boolean {
    const record = BOOK[kind].get(id);
    if (!record) throw new Error(id);
    return concerns(reached, { kind, record, book: BOOK, day: DAY });
  }

  it('where the look goes through all of its kind, and not where it names another', () => {
    expect(isConcerned({ sales: 'all' }, 'sales', 's1')).toBe(true);
    expect(isConcerned({ sales: 'all' }, 'firings', 'f1')).toBe(false);
  });

  it('that has the key, wherever that is', () => {
    expect(isConcerned({ sales: { having: 'advances' } }, 'sales', 's1')).toBe(false);
    expect(isConcerned({ sales: { having: 'advance' } }, 'sales', 's2')).toBe(true);
  });

  it('that has a day after that of the check', () => {
    expect(isConcerned({ sales: { later: true } }, 'sales', 's1')).toBe(false);
    expect(isConcerned({ sales: { later: true } }, 'sales', 's2')).toBe(true);
  });

  it('that is among those which the look names by the book', () => {
    const reached: Reached = {
      sales: { where: ({ channel }, { channels }) => channels.get(channel)?.kind === 'fair' },
    };
    expect(isConcerned(reached, 'sales', 's1')).toBe(true);
    const channels = new Map<string, never>();
    const [record] = sales('s1');
    const changed = { kind: 'sales', book: { ...BOOK, channels }, day: DAY } as const;
    expect(record && concerns(reached, { ...changed, record })).toBe(false);
  });
});

/** Names ways to ask for records, which the compiler must know. */
function ways<T>(records: T, ...names: readonly (keyof T)[]): readonly unknown[] {
  return names.map((name) => records[name]);
}

it('the compiler refuses a walk that a look does not declare', () => {
  const looks = [
    each('sales', (_, { book }) => {
      ways(book.sales, 'get', 'has');
      // @ts-expect-error a look at one record goes through no others
      ways(book.sales, 'values');
    }),
    over({ firings: 'all' }, (book) => {
      ways(book.firings, 'get', 'has', 'values', 'size');
      // @ts-expect-error of a kind that it does not name it can only ask by id
      ways(book.sales, 'values');
      return [];
    }),
    over({ sales: { having: 'tax' } }, (book) => {
      ways(book.sales, 'get', 'has', 'values');
      // @ts-expect-error how many there are in all is more than those with a key
      ways(book.sales, 'size');
      return [];
    }),
    onDay({ sales: { later: true } }, (book) => {
      // @ts-expect-error nor does it know them all by their ids
      ways(book.sales, 'keys');
      return [];
    }),
  ];
  expect(looks.map(({ reach }) => reach)).toEqual(['each', 'over', 'over', 'day']);
});
