import { describe, expect, it } from 'vitest';
import { isDecimal } from '../../src/number/decimal.ts';
import { moneyText } from '../../src/number/money.ts';
import { flow } from '../../src/reckon/flow.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import { costsTable } from '../../src/report/costs.ts';
import { productCostTable } from '../../src/report/product-cost.ts';
import type { Cell, Row, Table } from '../../src/report/table.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { runCommand } from '../helpers/studio-commands.ts';

const SPAN = { from: '2026-01-01', to: '2026-01-31' };

/** A dish of 2.00 of clay and half an hour, of which one of two breaks. */
const STUDIO: Files = {
  materials: 'clay: { name: Clay, kind: clay, unit: kg }',
  bought:
    'b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: clay, quantity: 10 kg, cost: 20.00 }] }',
  products: `
dish: { name: Dish, clay: { material: clay, each: 1 kg }, minutes: 30, price: 12.00, wholesale: 3.00, fired: [once] }
vase: { name: Vase, clay: { material: clay, each: 2 kg }, minutes: 60, price: 4.00, fired: [once] }
`,
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  pieces: 'p1: { date: 2026-01-02, product: dish, made: 2 }',
  firings:
    'f1: { date: 2026-01-05, kiln: kiln, kind: once, load: [{ lot: p1, in: 2, first: 1, lost: 1 }] }',
  channels: `
door: { name: Door, kind: direct }
shop: { name: Shop, kind: wholesale }
`,
};

function overview(more: Files = {}): Table {
  const book = bookFrom({ ...STUDIO, ...more });
  return costsTable(book, flow(book, SPAN.to), { span: SPAN, by: 'space' });
}

function taken(product: string, more: Files = {}): Table {
  const book = bookFrom({ ...STUDIO, ...more });
  const asked = { product, span: SPAN, by: 'space' as const };
  return productCostTable(book, flow(book, SPAN.to), asked) ?? expect.fail('no table');
}

/** A rate as it is, money with all its decimals. */
function textOf(cell: Cell = null): unknown {
  if (typeof cell === 'bigint') return moneyText(cell, 2);
  return isDecimal(cell) ? cell.toString() : cell;
}

function texts(row: Row | undefined): Record<string, unknown> {
  const cells = Object.entries(row ?? {});
  return Object.fromEntries(cells.map(([key, cell]) => [key, textOf(cell)]));
}

describe('the costs of all products', () => {
  it('are a row each, what pays least for an hour first, with the records behind', () => {
    const { rows, behind } = overview();
    // Half of all ware is lost in the firing, so a vase is reckoned at 8.00 as a dish is at 4.00.
    expect(rows.map(({ product }) => product)).toEqual(['vase', 'dish']);
    expect(texts(rows[1])).toMatchObject({
      made: 2,
      good: 1,
      clay: '2',
      lossUplift: '2',
      total: '4',
      floorDirect: '4.00',
      floorFair: null,
      price: '12.00',
      margin: '8',
      perHour: '8',
      marginWholesale: '-1',
      belowCost: true,
      belowAt: 'wholesale',
      estimated: false,
    });
    expect(texts(rows[0])).toMatchObject({
      total: '8',
      margin: '-4',
      perHour: '-2',
      estimated: true,
    });
    expect(behind?.()).toEqual([[], ['p1', 'f1']]);
  });

  it('name what is sold below cost, what is estimated, and where the price is taken', () => {
    const { notes, verdict, alerts } = overview();
    expect(verdict?.sentence).toBe(
      '2 products sell below cost: Vase (direct) and Dish (wholesale).',
    );
    expect(alerts).toEqual({ column: 'belowAt', of: ['now', 'now'] });
    expect(notes.join(' ')).toMatch(/since none came out good: vase\./);
    expect(notes.join(' ')).toContain("at today's price, sold direct.");
    expect(notes.join(' ')).toContain(
      'cost does not include your work, since studio.yaml has no labour-rate',
    );
    expect(notes).toContain('Overhead: no running expenses are on record.');
  });

  it('say no word of loss where nothing is sold below cost', () => {
    const products = 'dish: { name: Dish, price: 12.00, fired: [once] }';
    expect(overview({ products }).notes.join(' ')).not.toContain('below cost');
  });

  it('do without channels, and without a price', async () => {
    const table = overview({ channels: '' });
    expect(table.notes.join(' ')).toContain('No channel is on record, so there is no price floor.');
    expect(table.rows.map(({ margin }) => margin ?? null)).toEqual([null, null]);
    const products = 'dish: { name: Dish, fired: [once] }';
    expect(overview({ products }).notes).toContain('Without a price of its own: dish.');
    const shown = await renderText(table, { width: 80, colour: false });
    expect(shown).not.toContain('Floor');
  });

  it('are nothing for a studio that makes nothing', async () => {
    const table = overview({ products: '', pieces: '', firings: '' });
    expect(table.rows).toEqual([]);
    expect(await renderText(table, { width: 80, colour: false })).toContain('Nothing to show.');
  });

  it('name what an estimate has no cost of', () => {
    const materials = `${STUDIO.materials ?? ''}\nbox: { name: Box, kind: packing, unit: each }\nscrap: { name: Scrap, kind: clay, unit: kg }`;
    const recipes =
      'new: { name: New, kind: glaze, versions: [{ from: 2026-01-01, base: [{ material: clay, parts: 1 }] }] }';
    const reclaimed = 'r1: { date: 2026-01-02, material: scrap, quantity: 5 kg }';
    const vase =
      'vase: { name: Vase, clay: { material: scrap, each: 2 kg }, glazes: [{ recipe: new, each: 10 g }], packing: [{ material: box, each: 1 }], fired: [once] }';
    // Reclaimed clay costs nothing, and a new glaze has the cost of its materials.
    const { notes } = overview({ materials, recipes, reclaimed, products: vase });
    expect(notes).toContain(
      'No cost known, since none was bought or mixed yet: box. The real cost is higher.',
    );
    expect(overview().notes.join(' ')).not.toContain('No cost known');
  });

  it('say what nothing was made to be spread over', () => {
    const spent = 'rent: { date: 2026-01-01, to: Sheds, for: rent-place, amount: 69.00 }';
    const { notes } = overview({ spent, pieces: '', firings: '' });
    expect(notes).toContain(
      'Overhead: 69.00 of running expenses, and nothing was made to spread them over.',
    );
  });
});

describe('the cost of one product', () => {
  it('says from what it is reckoned', () => {
    expect(taken('dish').notes).toContain(
      'From 1 lot that came out 2026-01-01 to 2026-01-31: 2 made, 1 good.',
    );
    expect(taken('vase').notes).toContain(
      'Estimated from its recipe, stock costs and the usual firings: none came out 2026-01-01 to 2026-01-31.',
    );
    const pieces = `${STUDIO.pieces ?? ''}\np2: { date: 2026-01-03, product: dish, made: 3, lost: [{ date: 2026-01-04, count: 3, why: collapsed }] }`;
    const firings = STUDIO.firings?.replace('first: 1, lost: 1', 'lost: 2') ?? '';
    expect(taken('dish', { pieces, firings }).notes.join(' ')).toContain(
      'the usual firings; 2 lots that came out 2026-01-01 to 2026-01-31: 5 made, 0 good.',
    );
    const waiting = STUDIO.firings?.replace('in: 2, first: 1', 'in: 1') ?? '';
    const some = waiting.replace('lost: 1', 'first: 1');
    expect(taken('dish', { firings: some }).notes.join(' ')).toContain(
      '2 made, 1 good, 1 still on their way.',
    );
  });

  it('says what each piece loses that is sold below cost', () => {
    expect(taken('dish').verdict?.sentence).toBe(
      'Sold below cost: wholesale at 3.00 loses 1.00 per piece.',
    );
  });

  it('leads from the uplift to what lost pieces', () => {
    const { rows, behind } = taken('dish');
    const at = rows.findIndex(({ item }) => item === 'losses');
    expect(behind?.()?.[at]).toEqual(['f1']);
  });

  it('moves with the losses: 1 of 2 becomes 1.1', () => {
    const row = taken('dish').rows.findLast(({ item }) => item === 'losses');
    // 4.00 ÷ .9 = 4.44.
    expect(isDecimal(row?.['after'] ?? null) && row?.['after']?.toString().slice(0, 6)).toBe(
      '4.4444',
    );
  });

  it('is at 80 columns a table with bars, and none of it left out', async () => {
    const shown = await renderText(taken('dish'), { width: 80, colour: false });
    expect(shown.split('\n').filter((line) => line.length > 80)).toEqual([]);
    expect(shown).toMatch(/clay +2\.00 +50\.0% {2}█+/);
    expect(shown).not.toContain('Left out');
  });
});

describe('saggar costs', () => {
  it('looks 365 days back from the day, or from the last day that is asked for', async () => {
    const titles = await Promise.all(
      [{}, { to: '2026-03-31' }, { year: '2025' }, { from: '2026-02-01' }].map(
        async (options) => (await runCommand('costs', options)).out.split('\n')[0],
      ),
    );
    expect(titles).toEqual([
      'What one good piece costs, 2025-07-01 to 2026-06-30',
      'What one good piece costs, 2025-04-01 to 2026-03-31',
      'What one good piece costs, 2025-01-01 to 2025-12-31',
      'What one good piece costs, 2026-02-01 to 2026-06-30',
    ]);
  });

  it('refuses a product or a basis that there is none of', async () => {
    const product = await runCommand('costs', {}, { argument: 'mugg' });
    expect(product).toMatchObject({ status: 2, out: '' });
    expect(product.complaints).toContain('did you mean mug?');
    const basis = await runCommand('costs', { overheadBy: 'weight' });
    expect(basis.complaints).toContain('is not a choice for --overhead-by: use space, labour');
  });

  it('counts no expense that comes after the day', async () => {
    const early = { asOf: '2025-12-31', as: 'json' };
    const [year, up] = await Promise.all([
      runCommand('costs', { ...early, from: '2025-01-01', to: '2026-06-30' }),
      runCommand('costs', { ...early, from: '2025-01-01', to: '2025-12-31' }),
    ]);
    expect((JSON.parse(year.out) as Table).rows).toEqual((JSON.parse(up.out) as Table).rows);
  });
});
