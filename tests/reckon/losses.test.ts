import { describe, expect, it } from 'vitest';
import type { LossGroup } from '../../src/groups.ts';
import { flow } from '../../src/reckon/flow.ts';
import { lossChartsTable } from '../../src/report/loss-charts.ts';
import { lossesTable } from '../../src/report/losses.ts';
import type { Row, Table } from '../../src/report/table.ts';
import { bookFrom } from '../helpers/book.ts';
import { runCommand } from '../helpers/studio-commands.ts';

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

describe('losses by product', () => {
  const FIRINGS = `
f1: { date: 2026-03-10, kiln: kiln, kind: bisque, load: [{ lot: p1, in: 18, first: 16, lost: 2 }, { lot: p2, in: 10, first: 10 }, { class: wheel, in: 4, first: 3, lost: 1 }] }
f2: { date: 2026-03-12, kiln: kiln, kind: glaze, load: [{ lot: p1, in: 16, first: 11, second: 1, lost: 4 }] }
f3: { date: 2026-03-14, kiln: kiln, kind: glaze, load: [{ lot: p1, in: 1, first: 1, refire: yes }] }
`;
  const PIECES = STUDIO.pieces.replace(
    'made: 20',
    'made: 20, lost: [{ date: 2026-03-05, count: 2, why: cracked }]',
  );
  const CLASSES = 'wheel: { name: Wheel, price: 100, starts: 2026-03-01, meetings: 4, places: 4 }';
  const book = bookFrom({ ...STUDIO, pieces: PIECES, classes: CLASSES, firings: FIRINGS });
  const table = lossesTable(book, flow(book, DAY), { by: 'product', span: { to: DAY } });
  const told = (row: Row | undefined, keys: readonly string[]): string =>
    keys.map((key) => String(row?.[key] ?? '-')).join(' ');

  it('are a row a product, with its stages and what comes through them all', () => {
    expect(table.rows.map(({ group }) => group)).toEqual(['mug', 'tile', 'wheel']);
    const [mug, tile, wheel] = table.rows;
    // Of 20 made 2 were lost; of 18 in the bisque 2; of 16 in the glaze 4: 18/20 × 16/18 × 12/16 = 0.6.
    expect(told(mug, ['makingIn', 'makingLost', 'makingLossRate'])).toBe('20 2 0.1');
    expect(told(mug, ['bisqueIn', 'bisqueLost', 'glazeIn', 'glazeLost'])).toBe('18 2 16 4');
    expect(told(mug, ['glazeLossRate', 'yield'])).toBe('0.25 0.6');
    // First firings together: 18 + 16 went in, 6 were lost; the refire is not among them.
    expect(told(mug, ['in', 'first', 'second', 'lost', 'glazeRefireIn'])).toBe('34 27 1 6 1');
    expect(told(tile, ['bisqueLossRate', 'glazeLossRate', 'yield'])).toBe('0 - 1');
    // Class ware has no making on record, so nothing is known of all its stages.
    expect(told(wheel, ['makingIn', 'bisqueLossRate', 'yield'])).toBe('- 0.25 -');
    expect(told(table.totals, ['in', 'second', 'lost', 'bisqueIn', 'bisqueLost'])).toBe(
      '48 1 7 32 3',
    );
  });

  it('show how much was lost in each stage, and leave the counts of stages to programs', () => {
    const shown = table.columns.filter(({ dataOnly, drop }) => !dataOnly && drop === undefined);
    expect(shown.map(({ title }) => title)).toEqual([
      'Product',
      'Making',
      'Bisque',
      'Glaze',
      'In',
      'Second',
      'Lost',
      'Yield',
    ]);
    expect(table.behind?.()?.[0]).toEqual(['p1', 'f1', 'f2', 'f3']);
  });
});

describe('a chart by group', () => {
  it('is small: a row a group and kind of firing, with its course and what is out of line', () => {
    const day = (at: number): string => `2026-03-${String(at).padStart(2, '0')}`;
    // One in ten lost of each load, but nine in ten of the tenth.
    const firings = [...Array(12).keys()].map((at) => {
      const lost = at === 9 ? 9 : 1;
      const load = `load: [{ lot: p1, in: 10, first: ${String(10 - lost)}, lost: ${String(lost)} }]`;
      return `f${String(at)}: { date: ${day(at + 2)}, kiln: kiln, kind: glaze, ${load} }`;
    });
    const book = bookFrom({ ...STUDIO, firings: firings.join('\n') });
    const table = lossChartsTable(book, flow(book, DAY), { by: 'product', span: { to: DAY } });
    expect(table.rows).toHaveLength(1);
    // 20 of 120 lost.
    expect(table.rows[0]).toMatchObject({
      group: 'mug',
      firing: 'glaze',
      firings: 12,
      in: 120,
      lost: 20,
    });
    expect(table.rows[0]?.['course']).toBe('▂▂▂▂▂▂▂▂▂█▂▂');
    expect(table.rows[0]?.['outOfLine']).toBe('f9');
  });

  it.each([
    ['cause', '--chart is of all that a firing lost, whatever the cause; leave out --by cause'],
    ['month', '--chart has the firings in the order of their days; leave out --by month'],
  ])('is refused by %s', async (by, words) => {
    const { status, out, complaints } = await runCommand('losses', { chart: true, by });
    expect([status, out]).toEqual([2, '']);
    expect(complaints).toContain(words);
  });
});
