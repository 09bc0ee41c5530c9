import { describe, expect, it } from 'vitest';
import { stageName } from '../../src/check/shortage-words.ts';
import { flow } from '../../src/reckon/flow.ts';
import { firingsInKiln, kilnRoom, readyWare, waitingWare } from '../../src/reckon/ware/standing.ts';
import { bookFrom, type Files } from '../helpers/book.ts';

const STUDIO: Files = {
  products: `
mug: { name: Mug, space: 1 }
vase: { name: Vase, space: 4.5 }
cup: { name: Gilt cup, fired: [bisque, glaze, lustre], space: 0.5 }
tile: { name: Tile, fired: [once] }
`,
  kilns: `
big: { name: Big kiln, fuel: electricity, space: 40 }
little: { name: Little kiln, fuel: electricity, space: 8 }
pit: { name: Pit, fuel: wood }
`,
  channels: 'gallery: { name: Gallery, kind: consignment }',
  pieces: `
p1: { date: 2026-03-01, product: mug, made: 10 }
p2: { date: 2026-03-04, product: vase, made: 4, title: The tall one }
p3: { date: 2026-03-02, product: cup, made: 6 }
p4: { date: 2026-03-03, product: tile, made: 9, lost: [{ date: 2026-03-04, count: 1, why: dropped }] }
`,
  firings: `
f1:
  date: 2026-03-08
  kiln: big
  kind: bisque
  load: [{ lot: p1, in: 10, first: 9, lost: 1 }, { lot: p3, in: 6, first: 6 }]
f2:
  date: 2026-03-12
  kiln: big
  kind: glaze
  load: [{ lot: p1, in: 5, first: 3, second: 2 }, { lot: p3, in: 6, first: 6 }]
f3:
  date: 2026-03-15
  kiln: little
  kind: lustre
  load: [{ lot: p3, in: 4 }, { outside: The school, in: 3 }]
`,
  consigned: 'g1: { date: 2026-03-14, channel: gallery, sent: [{ product: mug, count: 2 }] }',
};

const BOOK = bookFrom(STUDIO);

function waiting(day: string) {
  return waitingWare(BOOK, flow(BOOK, day).ware);
}

describe('ware that waits', () => {
  it('is greenware since the day it was made, what stood longest first', () => {
    const said = waiting('2026-03-05').map(
      ({ lot, name, fired, stage, next, count, since }) =>
        `${lot} ${name} ${stageName(fired, stage)} ${next} ${count} ${since}`,
    );
    expect(said).toEqual([
      'p1 Mug greenware bisque 10 2026-03-01',
      'p3 Gilt cup greenware bisque 6 2026-03-02',
      'p4 Tile greenware once 8 2026-03-03',
      'p2 The tall one greenware bisque 4 2026-03-04',
    ]);
  });

  it('waits for its next firing since the last one, with the space of all its pieces', () => {
    const said = waiting('2026-03-13').map(
      ({ lot, fired, stage, next, count, space, since }) =>
        `${lot} ${stageName(fired, stage)} ${next} ${count} ${space.toFixed()} ${since}`,
    );
    expect(said).toEqual([
      'p4 greenware once 8 8 2026-03-03',
      'p2 greenware bisque 4 18 2026-03-04',
      'p1 bisqueware glaze 4 4 2026-03-12',
      'p3 glaze-fired ware lustre 6 3 2026-03-12',
    ]);
  });

  it('does not wait any more once it is in the kiln', () => {
    const lustre = waiting('2026-03-15').find(({ next }) => next === 'lustre');
    expect(lustre?.count).toBe(2);
  });
});

describe('a kiln', () => {
  it('holds what has no outcome, ware of customers too', () => {
    expect(firingsInKiln(BOOK, flow(BOOK, '2026-03-14'))).toEqual([]);
    const [only, ...others] = firingsInKiln(BOOK, flow(BOOK, '2026-03-15'));
    expect(others).toEqual([]);
    expect(only).toMatchObject({ kilnName: 'Little kiln', count: 7, firing: { id: 'f3' } });
  });
});

describe('finished ware', () => {
  it('stands in the studio or at a gallery, by grade', () => {
    expect(readyWare(BOOK, flow(BOOK, '2026-03-13').ware)).toEqual([
      { product: 'mug', name: 'Mug', place: '', first: 3, second: 2 },
    ]);
    expect(readyWare(BOOK, flow(BOOK, '2026-03-14').ware)).toEqual([
      { product: 'mug', name: 'Mug', place: '', first: 1, second: 2 },
      { product: 'mug', name: 'Mug', place: 'gallery', first: 2, second: 0 },
    ]);
  });
});

describe('room in the kilns', () => {
  function room(day: string): string[] {
    return kilnRoom(BOOK, flow(BOOK, day).open, waiting(day)).map(
      ({ kind, kiln, waiting: space, space: whole, share }) =>
        `${kind} ${kiln.id} ${space.toFixed()} ${whole.toFixed()} ${share.toFixed()}`,
    );
  }

  it('is told for every kiln with a space while none has fired the kind', () => {
    expect(room('2026-03-05')).toEqual([
      // 10 mugs, 6 cups of half a mug, 4 vases of 4.5.
      'bisque big 31 40 0.775',
      'bisque little 31 8 3.875',
      'once big 8 40 0.2',
      'once little 8 8 1',
    ]);
  });

  it('is told only for the kilns that fire the kind, once there are any', () => {
    expect(room('2026-03-16').filter((text) => /^(bisque|glaze|lustre)/.test(text))).toEqual([
      'bisque big 18 40 0.45',
      'glaze big 4 40 0.1',
      'lustre little 1 8 0.125',
    ]);
  });
});
