/** Random sales at the end of random studios, ordinary and odd ones, many just at the edge of what there is. */
import fc from 'fast-check';
import type { Holdings } from '../../../src/entry/held.ts';
import type { Raw, RawMap } from '../../../src/read/raw.ts';
import type { RandomStudio } from '../../helpers/random-studio.ts';
import type { StudioFiles } from '../../helpers/write-studio.ts';

/** Days from a day on; negative for earlier ones. */
export function dayAfter(day: string, days: number): string {
  const time = Date.parse(`${day}T00:00:00Z`) + days * 86_400_000;
  return new Date(time).toISOString().slice(0, 10);
}

function stem(day: string): string {
  return `s${day.replaceAll('-', '').slice(2)}`;
}

/** Ware of known number with packing in odd units, which no random studio has. */
export function wrapped(studio: RandomStudio): StudioFiles {
  const first = dayAfter(studio.asOf, 1 - studio.plan.days);
  return {
    'materials/more.yaml':
      'straw:\n  name: Straw\n  kind: packing\n  unit: lb\ntape:\n  name: Tape\n  kind: packing\n  unit: each\n',
    'products/more.yaml': `crate-mug:
  name: Crate mug
  price: 20
  wholesale: 11
  second: 12
  packing: [{ material: straw, each: 3 oz }, { material: tape, each: 1 }]
heavy-bowl:
  name: Heavy bowl
  price: 40
  packing: [{ material: straw, each: 50 g }]
bare-plate:
  name: Bare plate
  price: 15
jar:
  name: Jar
  price: 25
  fired: [once]
`,
    'pieces/more.yaml': `jar-a:\n  date: ${first}\n  product: jar\n  made: 1\njar-b:\n  date: ${first}\n  product: jar\n  made: 3\n`,
    'firings/more.yaml': `more-f:\n  date: ${first}\n  kiln: ${Object.keys(studio.records.kilns)[0] ?? ''}\n  kind: once\n  energy: 1 kWh\n  load: [{ lot: jar-a, in: 1, first: 1 }, { lot: jar-b, in: 3, first: 3 }]\n`,
    'bought/more.yaml': `more-b:\n  date: ${first}\n  supplier: Straw Yard\n  lines:\n    - { material: straw, quantity: 2 lb, cost: 10 }\n    - { material: tape, quantity: 9, cost: 6 }\n`,
    'counted/more.yaml': `more-c:\n  date: ${first}\n  pieces:\n${[
      ['crate-mug', 'first', 9],
      ['crate-mug', 'second', 3],
      ['heavy-bowl', 'first', 4],
      ['bare-plate', 'first', 5],
    ]
      .map(
        ([product, grade, count]) =>
          `    - { product: ${product}, grade: ${grade}, count: ${count} }\n`,
      )
      .join('')}`,
  };
}

/** What else happens on the last day, or after it. */
export const HAPPENINGS = [
  'plate-counted',
  'mug-counted',
  'none-found',
  'seconds-found',
  'counted-without-grade',
  'packing-counted',
  'packing-found',
  'glaze-counted',
  'sold',
  'lot-sold',
  'brought-back',
  'id-taken',
  'used-later',
  'sold-later',
  'fair-later',
] as const;

export type Happening = (typeof HAPPENINGS)[number];

/** The files of what happens, whatever rules it may break. */
export function happened(studio: RandomStudio, all: readonly Happening[]): StudioFiles {
  return Object.fromEntries(all.flatMap((each) => Object.entries(fileOf(studio, each))));
}

function fileOf({ asOf }: RandomStudio, happening: Happening): StudioFiles {
  const next = dayAfter(asOf, 1);
  const count = (pieces: string): StudioFiles => ({
    [`counted/${happening}.yaml`]: `c-${happening}:\n  date: ${asOf}\n  pieces: [${pieces}]\n`,
  });
  const sale = (
    line: string,
    { day = asOf, id = `${stem(day)}zz-${happening}` } = {},
  ): StudioFiles => ({
    [`sales/${happening}.yaml`]: `${id}:\n  date: ${day}\n  channel: studio-door\n  lines: [${line}]\n`,
  });
  switch (happening) {
    case 'plate-counted':
      return count('{ product: bare-plate, grade: first, count: 3 }');
    case 'mug-counted':
      return count('{ product: crate-mug, grade: first, count: 9 }');
    case 'none-found':
      return count('{ product: heavy-bowl, grade: first, count: 0 }');
    case 'seconds-found':
      return count('{ product: jar, grade: second, count: 2 }');
    case 'counted-without-grade':
      return count('{ product: crate-mug, count: 11 }');
    case 'glaze-counted':
      return count('{ product: bare-plate, glaze: clear, grade: first, count: 0 }');
    case 'packing-counted':
      return {
        'counted/packing.yaml': `c-packing:\n  date: ${asOf}\n  materials: [{ material: straw, quantity: 0.5 lb }, { material: tape, quantity: 2 }]\n`,
      };
    case 'sold':
      return sale(
        '{ product: crate-mug, count: 6, price: 20 }, { product: bare-plate, count: 4, price: 15 }',
      );
    case 'lot-sold':
      return sale('{ product: jar, lot: jar-a, count: 1, price: 25 }');
    case 'packing-found':
      return {
        'counted/found.yaml': `c-found:\n  date: ${asOf}\n  materials: [{ material: straw, quantity: 9 lb }, { material: tape, quantity: 99 }]\n`,
      };
    case 'brought-back':
      return sale('{ product: bare-plate, count: 2, price: 15, returned: yes }');
    case 'id-taken':
      return sale('{ for: mending, count: 1, price: 15 }', { id: `${stem(asOf).toUpperCase()}BB` });
    case 'used-later':
      return { 'used/later.yaml': `u-later:\n  date: ${next}\n  material: tape\n  quantity: 1\n` };
    case 'sold-later':
      return sale('{ product: bare-plate, count: 1, price: 15 }', { day: next });
    case 'fair-later':
      return { 'fairs/later.yaml': `k-later:\n  name: Fair\n  channel: market\n  date: ${next}\n` };
  }
}

/** A sale that is still to be put into words: numbers choose among what the studio has. */
export interface SaleChoice {
  readonly lines: readonly LineChoice[];
  readonly channel: number;
  readonly date: number | undefined;
  readonly more: RawMap;
  /** Where the search for an id begins. */
  readonly chance: number;
}

interface LineChoice {
  readonly pile: number;
  /** How many more than are left; of the small numbers, so many. */
  readonly count: 'one' | 'two' | 'all' | 'one more';
  readonly price: string;
  readonly tail: string;
}

/** Most are ordinary. */
function mostly<T>(usual: T, ...odd: readonly T[]): fc.Arbitrary<T> {
  return fc.oneof(
    { arbitrary: fc.constant(usual), weight: 40 },
    { arbitrary: fc.constantFrom(...odd), weight: 2 },
  );
}

const lineChoice: fc.Arbitrary<LineChoice> = fc.record({
  pile: fc.nat(1000),
  count: fc.constantFrom('one', 'one', 'one', 'two', 'all', 'all', 'one more'),
  price: mostly(' at 30', '', ' at 30.555', ' at 0', ' at x'),
  tail: mostly(
    '',
    ' less 10%',
    ' less 2',
    ' less 0.001',
    ' returned',
    ' clear',
    ' first',
    ' lot nowhere',
  ),
});

const more: fc.Arbitrary<RawMap> = fc
  .record({
    buyer: mostly(undefined, 'C. Example', 'a: b # c', '007', 'x\ny'),
    note: mostly(undefined, 'rain', "it's"),
    paid: mostly(undefined, 'no', '2025-09-19', '2031-01-01', 'soon'),
    discount: mostly(undefined, '10%', '1', '1.2345678'),
    shipping: mostly(undefined, '8', '8.5', '-'),
    tax: mostly(undefined, '2', '2.25'),
    'tax-place': mostly(undefined, 'county'),
    fee: mostly(undefined, '1', '0.335'),
    commission: mostly(undefined, undefined, undefined, '3'),
    statement: mostly(undefined, undefined, undefined, '0117'),
    fair: mostly(undefined, undefined, undefined, 'k-later'),
  })
  .map((fields) =>
    Object.fromEntries(
      Object.entries(fields).flatMap(([key, value]) => (value === undefined ? [] : [[key, value]])),
    ),
  );

export const saleChoice: fc.Arbitrary<SaleChoice> = fc.record({
  lines: fc.array(lineChoice, { minLength: 1, maxLength: 2 }),
  channel: fc.nat(1000),
  date: mostly<number | undefined>(undefined, 0, -1, 1, -400),
  more,
  chance: fc.constantFrom(0, 0, 0.5, 0.999),
});

const OTHER_LINES = ['1 for mending at 12', '1 nothing at 3', '1 tape at 3', 'mug'];
/** So many times as often as others are the studio's own channels taken. */
const ORDINARY = [1, 2, 3, 4, 5, 6];
const OTHER_CHANNELS = ['nowhere', 'crate-mug', 'Studio-Door'];

/** The sale as it is typed. */
export function typedSale(
  { lines, channel, date, more: others }: SaleChoice,
  { records, asOf }: RandomStudio,
  { pieces }: Holdings,
): RawMap {
  const piles = pieces.filter(([name]) => name.endsWith(' in the studio'));
  const own = piles.filter(([name]) => /crate-mug|heavy-bowl|bare-plate|jar/.test(name));
  const channels = Object.keys(records.channels);
  const names = [...ORDINARY.flatMap(() => channels), ...OTHER_CHANNELS];
  return {
    ...(date === undefined ? {} : { date: dayAfter(asOf, date) }),
    channel: names[channel % names.length] ?? '',
    lines: lines.map((line): Raw => sentence(line, [...piles, ...own, ...own])),
    ...others,
  };
}

function sentence({ pile, count, price, tail }: LineChoice, piles: Holdings['pieces']): string {
  const place = pile % (piles.length + 2);
  const [name = '', left = 0] = piles[place] ?? [];
  if (name === '') return OTHER_LINES[pile % OTHER_LINES.length] ?? '';
  const [product = ''] = name.split(' ');
  const second = name.includes(' seconds ') ? ' second' : '';
  const many = { one: 1, two: 2, all: Math.max(1, left), 'one more': left + 1 }[count];
  return `${String(many)} ${product}${second}${price}${tail}`;
}
