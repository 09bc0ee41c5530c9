/** A random book as if its studio were older: counted with a cost on a day, some kilns unloaded later. */
import type { Book, Counted, CountedWare, Day, Firing } from '../../../src/book.ts';
import { addDays } from '../../../src/number/date.ts';
import { decimal } from '../../../src/number/decimal.ts';
import { firingsOf } from '../../../src/reckon/ware/stages.ts';
import { randomSource, type RandomSource } from '../../helpers/random-source.js';

/** How a book is changed: all from one number. */
export interface Beginning {
  readonly seed: number;
  readonly day: Day;
  /** Whether `starts` says the day, too. */
  readonly starts: boolean;
}

/** The book with opening counts of the day, and with kilns that were unloaded on a later day. */
export function begun(book: Book, { seed, day, starts }: Beginning): Book {
  const random = randomSource(seed, 'begun');
  const opening: Counted = {
    id: 'opening',
    file: 'counted.yaml',
    date: day,
    materials: materialsIn(book, random),
    pieces: wareIn(book, day, { random, starts }),
  };
  return {
    ...book,
    studio: starts ? { ...book.studio, starts: day } : book.studio,
    counted: new Map([...book.counted, [opening.id, opening]]),
    firings: unloadedLater(book, random),
  };
}

function cost(book: Book, random: RandomSource): ReturnType<typeof decimal> {
  const isWhole = book.studio.currency === 'JPY';
  return decimal(isWhole ? random.int(0, 9999) : `${random.int(0, 99)}.${random.int(10, 99)}`);
}

function materialsIn(book: Book, random: RandomSource): NonNullable<Counted['materials']> {
  const pools = [
    ...[...book.materials.values()].map(({ id, unit }) => ({ id, unit })),
    ...[...book.recipes.keys()].map((id) => ({ id, unit: 'g' as const })),
  ];
  return pools
    .filter(() => random.chance(0.6))
    .map(({ id: material, unit }) => {
      const count = random.int(0, 300);
      const quantity = { value: decimal(count), unit, text: `${count} ${unit}` };
      return { material, quantity, cost: cost(book, random) };
    });
}

/** With `starts` enough of all earlier lots at every stage, since their making and firings count no more. */
function wareIn(
  book: Book,
  day: Day,
  { random, starts }: { random: RandomSource; starts: boolean },
): CountedWare[] {
  const galleries = [...book.channels.values()].filter(({ kind }) => kind === 'consignment');
  const places = [undefined, ...galleries.map(({ id }) => id)];
  const lone = [...book.products.keys()].flatMap((product) =>
    places
      .filter(() => random.chance(0.5))
      .map((place): CountedWare => {
        const grade = random.pick(['first', 'second'] as const);
        const line = { product, grade, count: random.int(0, 9), cost: cost(book, random) };
        return place === undefined ? line : { ...line, place };
      }),
  );
  const fired = new Set<string | undefined>();
  for (const { date, load } of book.firings.values())
    if (date < day) load.forEach(({ lot }) => fired.add(lot));
  const lots = [...book.pieces.values()].filter(
    ({ id, date }) => date < day && (starts || !fired.has(id)),
  );
  const known = lots.flatMap(({ id: lot, product, made: count }): CountedWare[] => {
    const sequence = firingsOf(book.products.get(product));
    const stages = ['greenware', 'bisqueware', 'glaze-fired', 'finished'] as const;
    const at = [0, sequence.indexOf('bisque') + 1, sequence.indexOf('glaze') + 1, sequence.length];
    return stages.flatMap((stage, index) => {
      const had = at[index] ?? 0;
      const isOne = index === 0 || index === 3 || (had > 0 && had < sequence.length);
      return isOne ? [{ product, lot, stage, count, cost: cost(book, random) }] : [];
    });
  });
  return [...lone, ...known];
}

/** Never so late that a later firing would find too little. */
function unloadedLater(book: Book, random: RandomSource): Book['firings'] {
  const all = [...book.firings.values()];
  return new Map(
    all.map((firing): [string, Firing] => {
      const lots = new Set(firing.load.flatMap(({ lot }) => lot ?? []));
      const next = all
        .filter(({ date, id }) => date > firing.date || (date === firing.date && id > firing.id))
        .filter(({ load }) => load.some(({ lot = '' }) => lots.has(lot)))
        .map(({ date }) => date);
      const latest = [addDays(firing.date, random.int(0, 6)), ...next].sort()[0] ?? firing.date;
      return [firing.id, { ...firing, unloaded: latest }];
    }),
  );
}
