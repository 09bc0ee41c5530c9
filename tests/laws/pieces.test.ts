/** Pieces are conserved: what was made or found stands somewhere, was sold, left or was lost. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Grade } from '../../src/book.ts';
import { PIECES_GROUPS } from '../../src/groups.ts';
import { NO_MONEY } from '../../src/number/money.ts';
import { leftIn } from '../../src/reckon/costs/cost.ts';
import { countsFlow, flow } from '../../src/reckon/flow.ts';
import type { Flows } from '../../src/reckon/flows.ts';
import { STUDIO_PLACE, placeKey } from '../../src/reckon/ware/lot.ts';
import { materialValue } from '../../src/reckon/stock/where.ts';
import { piecesTable } from '../../src/report/pieces.ts';
import type { Table } from '../../src/report/table.ts';
import type { RawMap } from '../../src/read/raw.ts';
import { leak } from '../helpers/leak.ts';
import { growStudio, studioPlan, type RandomStudio } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';
import { dayIn, part } from './support/days.ts';

type Records = RandomStudio['records'];

/** What the records say of pieces up to a day, counted without the program. */
function countedByHand(records: Records, day: string): { made: number; away: number } {
  const until = ({ date = '' }: RawMap): boolean => date <= day;
  const lots = Object.values(records.pieces).filter(until);
  const made = total(lots, 'made');
  const lines = (kind: keyof Records, key: string): RawMap[] =>
    Object.values(records[kind])
      .filter(until)
      .flatMap((record) => listIn(record, key));
  const ofLots = lots.flatMap((lot) => [...listIn(lot, 'lost'), ...listIn(lot, 'gone')]);
  const sold = lines('sales', 'lines').filter((line) => 'product' in line);
  const back = sold.filter((line) => line['returned'] === 'yes');
  const loaded = lines('firings', 'load').filter((line) => 'lot' in line);
  const away =
    total(ofLots.filter(until), 'count') +
    total(sold, 'count') -
    2 * total(back, 'count') +
    total(lines('consigned', 'missing'), 'count') +
    total(loaded, 'lost');
  return { made, away };
}

function listIn(record: RawMap, key: string): RawMap[] {
  return (record[key] ?? []) as RawMap[];
}

function total(maps: readonly RawMap[], key: string): number {
  return addUp(maps.map((map) => Number(map[key] ?? 0)));
}

function addUp(counts: readonly number[]): number {
  return counts.reduce((sum, count) => sum + count, 0);
}

/** All pieces in the totals of a report, by either grouping. */
function standing({ totals = {} }: Table): number {
  const keys = ['greenware', 'bisqueware', 'inKiln', 'first', 'second', 'atGalleries', 'count'];
  return addUp(keys.map((key) => Number(totals[key] ?? 0)));
}

/** Pieces that stocktakes did not find. */
function notFound({ ware }: Flows): number {
  const differences = [...ware.facts].filter(({ reason }) => reason === 'differences');
  return addUp(differences.map(({ count }) => count));
}

describe('pieces of a consistent history', () => {
  it('that were made stand somewhere or went a known way', async () => {
    const property = fc.asyncProperty(studioPlan(), part, async (plan, when) => {
      const studio = growStudio(plan);
      const { book } = await openFiles(filesOf(plan, undefined), studio.asOf);
      for (const day of [dayIn(plan, when), studio.asOf]) {
        const { made, away } = countedByHand(studio.records, day);
        const flows = flow(book, day);
        const short = notFound(flows);
        for (const by of PIECES_GROUPS)
          expect(standing(piecesTable(book, flows, by)), by).toBe(made - away - short);
        if (!plan.features.includes('piece-counts')) expect(short).toBe(0);
      }
    });
    await holds(property, 5);
  });

  it('are as many as a stocktake counted, more or fewer', async () => {
    const counts = fc.record({ which: fc.nat(), count: fc.nat({ max: 30 }) });
    const property = fc.asyncProperty(studioPlan(), counts, async (plan, { which, count }) => {
      const { asOf } = growStudio(plan);
      const { book } = await openFiles(filesOf(plan, undefined), asOf);
      const products = [...book.products.keys()];
      const product = products[which % products.length] ?? '';
      const grade = which % 2 === 0 ? ('first' as const) : ('second' as const);
      const record = {
        id: 'zz',
        file: 'counted.yaml',
        date: asOf,
        pieces: [{ product, grade, count }],
      };
      const counted = { ...book, counted: new Map([...book.counted, ['zz', record]]) };
      const [before, after] = [flow(book, asOf), flow(counted, asOf)];
      const had = onShelf(before, product, grade);
      expect(onShelf(after, product, grade)).toBe(count);
      expect(allPieces(after) - allPieces(before)).toBe(count - had);
      expect(leak(materialValue(after))).toBe(NO_MONEY);
    });
    await holds(property, 5);
  });
});

/** Finished pieces of a product and grade in the studio. */
function onShelf({ ware }: Flows, product: string, grade: Grade): number {
  const lots = [...ware.lots.values()].filter(({ lot }) => lot.product === product);
  return addUp(lots.map(({ places }) => places.get(placeKey(grade, STUDIO_PLACE)) ?? 0));
}

function allPieces({ ware }: Flows): number {
  const lots = [...ware.lots.values()];
  const batches = lots.flatMap(({ stages, shelf }) => [...stages, shelf]);
  const inKiln = lots.flatMap((lot) => lot.inKiln);
  return addUp(batches.map(leftIn)) + addUp(inKiln.map(({ count }) => count));
}

describe('pieces of any history', () => {
  it('are never fewer than none, and all on the shelf are at places', async () => {
    const property = fc.asyncProperty(
      studioPlan({ breaks: 'some' }),
      fc.option(fc.nat(), { nil: undefined }),
      part,
      async (plan, seed, when) => {
        const { book } = await openFiles(filesOf(plan, seed), growStudio(plan).asOf);
        for (const day of [dayIn(plan, when), dayIn(plan, 1)])
          for (const { stages, inKiln, places, shelf } of flow(book, day).ware.lots.values()) {
            const counts = [...stages.map(leftIn), ...inKiln.map(({ count }) => count)];
            expect(Math.min(0, ...counts, ...places.values())).toBe(0);
            expect([...places.values()].reduce((sum, count) => sum + count, 0)).toBe(leftIn(shelf));
          }
      },
    );
    await holds(property, 6);
  });

  it('and what was short are the same without reckoning money', async () => {
    const property = fc.asyncProperty(
      studioPlan({ breaks: 'some' }),
      fc.option(fc.nat(), { nil: undefined }),
      async (plan, seed) => {
        const { book } = await openFiles(filesOf(plan, seed), dayIn(plan, 1));
        const day = dayIn(plan, 1);
        const [counts, full] = [countsFlow({ ...book }, day), flow(book, day)];
        expect(counts.shortfalls).toEqual(full.shortfalls);
        expect(piecesOnly(counts)).toEqual(piecesOnly(full));
      },
    );
    await holds(property, 5);
  });
});

/** Counts of every lot, without money. */
function piecesOnly({ ware }: Flows): unknown[] {
  return [...ware.lots.values()].map(({ lot, stages, inKiln, places, shelf, finishedOn }) => ({
    lot: lot.id,
    stages: stages.map(leftIn),
    inKiln: inKiln.map(({ firing, from, count }) => ({ firing, from, count })),
    places,
    shelf: leftIn(shelf),
    finishedOn,
  }));
}
