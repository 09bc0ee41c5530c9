import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { openTakings } from '../../src/reckon/ware/glaze-doubts.ts';
import { piecesTable } from '../../src/report/pieces.ts';
import { bookFrom } from '../helpers/book.ts';

const DAY = '2026-12-31';
const GLAZED = 'each: 20 g';

/** Six rust mugs that were finished first, four blue ones, and two firings of them. */
function bookWith(events: Record<string, string>): ReturnType<typeof bookFrom> {
  return bookFrom({
    materials: 'silica: { name: Silica, kind: dry, unit: kg }',
    recipes:
      'rust: { name: Rust, base: { silica: 100 } }\nblue: { name: Blue, base: { silica: 100 } }',
    products: 'mug: { name: Mug, fired: [glaze], price: 20 }\ncup: { name: Cup, fired: [glaze] }',
    kilns: 'kiln: { name: Kiln, fuel: wood }',
    channels:
      'door: { name: Door, kind: direct }\ngallery: { name: Gallery, kind: consignment, commission: 40% }',
    pieces: `
p1: { date: 2026-01-01, product: mug, made: 6, glazes: [{ recipe: rust, ${GLAZED} }] }
p2: { date: 2026-01-01, product: mug, made: 4, glazes: [{ recipe: blue, ${GLAZED} }] }
p3: { date: 2026-01-01, product: cup, made: 4 }
`,
    firings: `
f1: { date: 2026-01-02, kiln: kiln, kind: glaze, load: [{ lot: p1, in: 6, first: 6 }, { lot: p3, in: 4, first: 4 }] }
f2: { date: 2026-01-03, kiln: kiln, kind: glaze, load: [{ lot: p2, in: 4, first: 4 }] }
`,
    ...events,
  });
}

function notesOf(events: Record<string, string>): readonly string[] {
  const book = bookWith(events);
  return piecesTable(book, flow(book, DAY), 'product').notes;
}

const HOW = 'Counting what is there by glaze settles it: saggar add counted.';
const sale = (id: string, date: string, line: string): string =>
  `${id}: { date: ${date}, channel: door, lines: [{ product: mug, price: 20, ${line} }] }\n`;

describe('a sale without a glaze', () => {
  // The book takes 3 of the 6 rust ones; each of them may have been blue, of which there are 4.
  it('leaves open how many are left of each that was there', () => {
    expect(notesOf({ sales: sale('s1', '2026-02-01', 'count: 3') })).toEqual([
      'mug: 3 taken since 2026-02-01 with no glaze named, so there may be up to 3 fewer of blue, 3 more of rust.',
      HOW,
    ]);
  });

  // 3, then 4: the book takes 6 rust and 1 blue. Of the 3 blue left, 6 might be gone: at most 3 are.
  it('is no further off than what is there', () => {
    const sales = sale('s1', '2026-02-01', 'count: 3') + sale('s2', '2026-03-01', 'count: 4');
    expect(notesOf({ sales })).toEqual([
      'mug: 7 taken since 2026-02-01 with no glaze named, so there may be up to 1 more or 3 fewer of blue, 6 more of rust.',
      HOW,
    ]);
  });

  it('is plain where it names the glaze or the lot, or where one glaze alone is there', () => {
    const sales = [
      sale('s1', '2026-01-02', 'count: 1'),
      sale('s2', '2026-02-01', 'count: 2, glaze: blue'),
      sale('s3', '2026-02-02', 'count: 2, lot: p1'),
      sale('s4', '2026-02-03', 'count: 2, glaze: blue'),
      sale('s5', '2026-02-04', 'count: 1'),
    ].join('');
    expect(notesOf({ sales })).toEqual([]);
  });

  it('is plain of a product that is not told apart by glaze', () => {
    const sales = 's1: { date: 2026-02-01, channel: door, lines: [{ product: cup, count: 1 }] }';
    expect(notesOf({ sales })).toEqual([]);
  });

  it('is plain where it takes all that is there, and so is what went before it', () => {
    const sales = sale('s1', '2026-02-01', 'count: 3') + sale('s2', '2026-02-02', 'count: 7');
    const book = bookWith({ sales });
    const { ware } = flow(book, DAY);
    expect(ware.openGlazes).toHaveLength(1);
    expect(openTakings(ware)).toEqual([]);
  });

  it('is settled by a stocktake of all glazes but one, and not by one of all together', () => {
    const sales = sale('s1', '2026-02-01', 'count: 3');
    const counted = (words: string): string =>
      `c1: { date: 2026-02-02, pieces: [{ product: mug, ${words} }] }`;
    expect(notesOf({ sales, counted: counted('glaze: blue, count: 2') })).toEqual([]);
    expect(notesOf({ sales, counted: counted('count: 7') })).toHaveLength(2);
    expect(
      notesOf({ sales, counted: counted('glaze: blue, grade: second, count: 0') }),
    ).toHaveLength(2);
  });

  it('is told by its place in the file, in the order of the days', () => {
    const sales = sale('s2', '2026-03-01', 'count: 1') + sale('s1', '2026-02-01', 'count: 1');
    const open = openTakings(flow(bookWith({ sales }), DAY).ware);
    expect(open.map(({ at }) => at.path)).toEqual([
      ['s1', 'lines', 0],
      ['s2', 'lines', 0],
    ]);
  });
});

describe('other ways without a glaze', () => {
  // 5 go to the gallery: 5 rust by the book, of the 6; 4 of them may be blue. 1 is missing there: of one glaze.
  it('a delivery leaves the studio open', () => {
    const consigned =
      'd1: { date: 2026-02-01, channel: gallery, sent: [{ product: mug, count: 5 }], missing: [{ product: mug, count: 1 }] }';
    expect(notesOf({ consigned })).toEqual([
      'mug: 5 taken since 2026-02-01 with no glaze named, so there may be up to 4 fewer of blue, 5 more of rust.',
      HOW,
    ]);
  });

  it('a sale at a gallery leaves the gallery open', () => {
    const consigned =
      'd1: { date: 2026-02-01, channel: gallery, sent: [{ product: mug, glaze: rust, count: 2 }, { product: mug, glaze: blue, count: 2 }] }';
    const sales =
      's1: { date: 2026-03-01, channel: gallery, lines: [{ product: mug, count: 1, price: 20 }] }';
    expect(notesOf({ consigned, sales })).toEqual([
      'mug at gallery: 1 taken since 2026-03-01 with no glaze named, so there may be up to 1 fewer of blue, 1 more of rust.',
      HOW,
    ]);
  });

  it('a stocktake of all together that finds fewer leaves them open', () => {
    const counted = 'c1: { date: 2026-02-02, pieces: [{ product: mug, count: 9 }] }';
    expect(notesOf({ counted })[0]).toBe(
      'mug: 1 taken since 2026-02-02 with no glaze named, so there may be up to 1 fewer of blue, 1 more of rust.',
    );
  });
});

describe('a lot without a glaze', () => {
  const more = (words: string): Record<string, string> => ({
    pieces: `
p1: { date: 2026-01-01, product: mug, made: 6, glazes: [{ recipe: rust, ${GLAZED} }] }
p2: { date: 2026-01-01, product: mug, made: 4${words} }
p3: { date: 2026-01-01, product: cup, made: 4 }
`,
  });

  it('is said where other lots of the product have one', () => {
    expect(notesOf(more(''))).toEqual([
      '1 lot whose glaze is not named, though others of the product have one: p2 (mug).',
    ]);
  });

  it('is plain where it says that it has none', () => {
    expect(notesOf(more(', glazes: []'))).toEqual([]);
  });
});
