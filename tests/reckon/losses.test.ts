import { describe, expect, it } from 'vitest';
import type { LossGroup } from '../../src/groups.ts';
import { flow } from '../../src/reckon/flow.ts';
import { lossesTable } from '../../src/report/losses.ts';
import type { Table } from '../../src/report/table.ts';
import { bookFrom } from '../helpers/book.ts';

const DAY = '2026-03-31';

const STUDIO = {
  products: `
mug: { name: Mug, glazes: [{ recipe: clear, each: 10 g }, { recipe: matt, each: 5 g }] }
tile: { name: Tile }
`,
  kilns: 'kiln: { name: Kiln, fuel: electricity }',
  pieces: `
p1: { date: 2026-03-01, product: mug, made: 20, maker: ann, clay: { material: clay, lot: b7, each: 1 lb } }
p2: { date: 2026-03-01, product: tile, made: 10 }
`,
};

function losses(by: LossGroup, ...load: readonly string[]): Table {
  const firing = (id: string, kind: string): string =>
    `${id}: { date: 2026-03-10, kiln: kiln, kind: ${kind}, load: [${load.map((line) => `{ ${line} }`).join(', ')}] }`;
  const firings = `${firing('f1', 'bisque')}\n${firing('f2', 'glaze')}`;
  const book = bookFrom({ ...STUDIO, firings });
  return lossesTable(book, flow(book, DAY), { by, span: { to: DAY } });
}

/** Group, faults, seconds and lost of the glaze firing. */
function causes(line: string): string[] {
  return losses('cause', line)
    .rows.filter((row) => row['firing'] === 'glaze')
    .map((row) => ['group', 'faults', 'second', 'lost'].map((key) => String(row[key])).join(' '));
}

describe('losses by cause', () => {
  it('count every fault by its cause, and as lost only what surely was', () => {
    // Of two seconds and one lost, the lost one may have run as well as stuck; two that ran can't both be it.
    expect(
      causes('lot: p1, in: 12, first: 9, second: 2, lost: 1, why: { ran: 2, stuck: 1 }'),
    ).toEqual(['ran 2 1 0', 'stuck 1 0 0']);
    // Of three that cracked one second at the most: two were lost. The warped one may be either.
    expect(
      causes('lot: p1, in: 12, first: 8, second: 1, lost: 3, why: { cracked: 3, warped: 1 }'),
    ).toEqual(['cracked 3 0 2', 'warped 1 0 0']);
  });

  it('are certain where all faults are of one sort, or of one cause', () => {
    expect(causes('lot: p1, in: 9, first: 6, lost: 3, why: { ran: 2, stuck: 1 }')).toEqual([
      'ran 2 0 2',
      'stuck 1 0 1',
    ]);
    expect(causes('lot: p1, in: 9, first: 6, second: 3, why: { ran: 2, stuck: 1 }')).toEqual([
      'ran 2 2 0',
      'stuck 1 1 0',
    ]);
    expect(causes('lot: p1, in: 9, first: 6, second: 1, lost: 2, why: { ran: 3 }')).toEqual([
      'ran 3 1 2',
    ]);
  });

  it('take what has no cause on record for a cause of its own', () => {
    expect(causes('lot: p1, in: 9, first: 6, second: 1, lost: 2')).toEqual([
      'no cause on record 3 1 2',
    ]);
    // 1 + 2 − 1 = 2 without a cause, one of them a second at the most.
    expect(causes('lot: p1, in: 9, first: 6, second: 1, lost: 2, why: { ran: 1 }')).toEqual([
      'no cause on record 2 0 1',
      'ran 1 0 0',
    ]);
  });

  it('are as the line says in lost-to', () => {
    expect(
      causes(
        'lot: p1, in: 12, first: 8, second: 2, lost: 2, why: { ran: 2, stuck: 1 }, lost-to: { stuck: 1 }',
      ),
    ).toEqual(['ran 2 2 0', 'no cause on record 1 0 1', 'stuck 1 0 1']);
  });

  it('have a rate of their faults, over all that went in', () => {
    const [ran] = losses(
      'cause',
      'lot: p1, in: 8, first: 5, second: 2, lost: 1, why: { ran: 2 }',
    ).rows;
    expect([ran?.['in'], ran?.['first'], String(ran?.['faultRate'])]).toEqual([8, 6, '0.25']);
  });
});

describe('losses by any group', () => {
  const LOAD = [
    'lot: p1, in: 12, first: 10, second: 1, lost: 1',
    'lot: p2, in: 10, first: 8, lost: 2',
    'class: evening, in: 6, first: 5, second: 1',
    'outside: a neighbour, in: 4, first: 1, lost: 3',
  ];
  // Each of both firings: in 12 + 10 + 6 + 4, second 1 + 1, lost 1 + 2 + 3.
  const ALL = { in: 64, first: 48, second: 4, lost: 12 };

  it.each(['firing', 'kiln', 'product', 'cone', 'maker', 'month', 'clay-lot'] as const)(
    '%s: the rows of firings make the total',
    (by) => {
      const { rows, totals } = losses(by, ...LOAD);
      const sumOf = (key: string): number =>
        rows
          .filter((row) => (row['firing'] ?? row['group']) !== 'making')
          .reduce((all, row) => all + Number(row[key]), 0);
      for (const [key, count] of Object.entries(ALL))
        expect([sumOf(key), totals?.[key]], key).toEqual([count, count]);
    },
  );

  it.each([
    ['maker', ['ann', 'no maker on record']],
    ['clay-lot', ['b7', 'no clay lot on record']],
  ] as const)('%s: class and customers have a row', (by, names) => {
    const groups = losses(by, ...LOAD)
      .rows.filter((row) => row['firing'] === 'glaze')
      .map((row) => [row['group'], row['in'], row['lost']]);
    expect(groups.sort()).toEqual([
      [names[0], 12, 1],
      ["class and customers' ware", 10, 3],
      [names[1], 10, 2],
    ]);
  });

  it('recipe: whatever has no glaze has a row, and two glazes count a piece twice, as the notes say', () => {
    const { rows, notes } = losses('recipe', ...LOAD);
    const groups = rows.map(
      (row) => `${String(row['firing'])} ${String(row['group'])} ${String(row['in'])}`,
    );
    expect(groups.sort()).toEqual([
      "bisque class and customers' ware 10",
      'bisque not glazed yet 22',
      "glaze class and customers' ware 10",
      'glaze clear 12',
      'glaze matt 12',
      'glaze no glaze on record 10',
    ]);
    expect(notes).toContain('A piece with two glazes counts under both.');
  });
});
