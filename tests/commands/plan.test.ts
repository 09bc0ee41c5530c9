/** `saggar plan` as a potter asks for it: what is wanted, what it says, and what it refuses. */
import { describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const ASKED = { asOf: '2026-03-01', as: 'json' };

const STUDIO = `format: 1
name: Lane End Pottery
currency: USD
hours-a-week: 12
days: { drying: 6, glazing: 2, packing: 1 }
rest-days: [sun]
`;

const FILES = {
  'studio.yaml': STUDIO,
  'materials.yaml': `clay: { name: Clay, kind: clay, unit: kg, lead-days: 5 }
box: { name: Box, kind: packing, unit: each }
frit: { name: Frit, kind: dry, unit: kg }
`,
  'recipes.yaml': `blue:
  name: Blue
  kind: glaze
  cone: '6'
  versions:
    - { from: 2025-01-01, base: [{ material: frit, parts: 1 }] }
`,
  'products.yaml': `mug:
  name: Mug
  clay: { material: clay, each: 500 g }
  glazes: [{ recipe: blue, each: 20 g }]
  packing: [{ material: box, each: 1 }]
  space: 1
  bisque-space: 0.5
  minutes: 30
bowl: { name: Bowl, space: 2, minutes: 20, keep: 4 }
`,
  'kilns.yaml': 'kiln: { name: Kiln, fuel: electricity, space: 10, cooling: 30 }\n',
  'channels.yaml': `door: { name: Door, kind: direct }
fairs: { name: Fairs, kind: fair }
`,
  'bought.yaml': `b1:
  date: 2026-01-05
  supplier: The clay merchant
  lines:
    - { material: clay, quantity: 2 x 5 kg, cost: 24.00 }
    - { material: box, quantity: 50, cost: 20.00 }
`,
  'orders.yaml': `o1:
  date: 2026-02-20
  buyer: the corner cafe
  due: 2026-04-10
  lines:
    - { product: mug, glaze: blue, count: 12, price: 20.00 }
    - { for: a platter, count: 1 }
    - { product: mug, grade: second, count: 2 }
`,
  'fairs.yaml': `k1:
  date: 2026-05-09
  name: Quay Market
  channel: fairs
  take:
    - { product: mug, glaze: blue, count: 10 }
`,
};

interface Shown {
  readonly rows: readonly Readonly<Record<string, string | number | null>>[];
  readonly notes: readonly string[];
}

async function planOf(
  files: Readonly<Record<string, string>> = {},
  options: Readonly<Record<string, string>> = {},
  ids: readonly string[] = [],
): Promise<Shown> {
  const [argument, ...more] = ids;
  const folder = tempStudio({ ...FILES, ...files });
  const asked = { ...ASKED, ...options };
  const { out, complaints } = await runCommand('plan', asked, {
    folder,
    more,
    ...(argument !== undefined && { argument }),
  });
  expect(complaints).toBe('');
  return JSON.parse(out) as Shown;
}

function part({ rows }: Shown, name: string): Shown['rows'] {
  return rows.filter((row) => String(row['part']).startsWith(name));
}

function cells(rows: Shown['rows'], ...keys: string[]): unknown[][] {
  return rows.map((row) => keys.map((key) => row[key]));
}

describe('what is wanted', () => {
  it('is orders and fairs by their days, then what is kept ready', async () => {
    const shown = await planOf();
    // Nothing was ever fired, so nobody knows what is lost.
    expect(cells(part(shown, 'To start'), 'what', 'count', 'says')).toEqual([
      ['mug blue', 22, '22 wanted; nothing fired yet to go by: no spares'],
      ['bowl', 4, '4 wanted; nothing fired yet to go by: no spares'],
    ]);
    expect(cells(part(shown, 'Due'), 'day', 'what', 'count')).toEqual([
      ['2026-04-10', 'order o1', 12],
      ['2026-05-09', 'fair k1', 10],
    ]);
    expect(shown.notes.join('\n')).toContain('ordered in words: 1 a platter (o1)');
    expect(shown.notes.join('\n')).toContain('2 seconds wanted: nobody makes those');
  });

  it('is met by what is ready, and by work under way', async () => {
    const shown = await planOf({
      'counted.yaml':
        'c1: { date: 2026-02-25, pieces: [{ product: mug, glaze: blue, count: 5, cost: 10 }] }\n',
      'pieces.yaml': 'p1: { date: 2026-02-26, product: mug, made: 9 }\n',
    });
    const [mugs] = part(shown, 'To start');
    expect(cells([mugs!], 'count', 'wanted', 'ready', 'underWay')).toEqual([[8, 22, 5, 9]]);
    expect(cells(part(shown, 'Due'), 'ready')).toEqual([[5], [0]]);
  });

  it('is asked for by --make, or the orders and fairs that are named', async () => {
    const made = await planOf({}, { make: '6 bowl', until: '2026-04-30' });
    expect(cells(part(made, 'Due'), 'day', 'what', 'count')).toEqual([
      ['2026-04-30', 'Asked for', 6],
    ]);
    const named = await planOf({}, {}, ['o1']);
    expect(cells(part(named, 'To start'), 'what')).toEqual([['mug blue']]);
    const soon = await planOf({}, { until: '2026-04-12' });
    expect(cells(part(soon, 'Due'), 'what')).toEqual([['order o1']]);
    const nothing = await planOf({
      'orders.yaml': '',
      'fairs.yaml': '',
      'products.yaml': 'mug: { name: Mug }\n',
    });
    expect(nothing.rows).toEqual([]);
    expect(nothing.notes.join()).toContain('Nothing is wanted');
  });
});

describe('the days', () => {
  it('have no work on days of rest, two hours of it on the others, and mugs in the bisque by halves', async () => {
    const shown = await planOf({}, { until: '2026-04-12' }, ['o1']);
    const making = part(shown, 'This week').filter(({ what }) => what === 'Make mug blue');
    // 2026-03-01 is a Sunday; 12 mugs of half an hour take six hours, at two a day.
    expect(cells(making, 'day', 'count')).toEqual([
      ['2026-03-02', 4],
      ['2026-03-03', 4],
      ['2026-03-04', 4],
    ]);
    const loads = shown.rows.filter(({ what }) => String(what).startsWith('Load'));
    expect(cells(loads, 'what', 'count')).toEqual([
      // Twelve mugs take six of the ten, and two bowls the rest.
      ['Load kiln: bisque', 14],
      ['Load kiln: glaze cone 6', 10],
      ['Load kiln: glaze cone 6', 2],
    ]);
    const days = loads.map(({ day }) => String(day));
    // The last mug is dry on the 10th; ten hours of firing and thirty of cooling are two days.
    expect(days[0]! >= '2026-03-10').toBe(true);
    expect(Date.parse(days[2]!) - Date.parse(days[1]!)).toBeGreaterThanOrEqual(2 * 86_400_000);
  });

  it('say first what does not fit, and that nothing can help', async () => {
    const orders = FILES['orders.yaml'].replace('due: 2026-04-10', 'due: 2026-03-09');
    const shown = await planOf({ 'orders.yaml': orders });
    expect(shown.rows[0]?.['part']).toBe('Not in time');
    expect(shown.rows[0]?.['says']).toMatch(
      /^due 2026-03-09, ready 2026-\d\d-\d\d; can't be done: mug blue started today is ready 2026-03-14 at the earliest$/,
    );
  });

  it('say what would help', async () => {
    const studio = STUDIO.replace('12', '2');
    const orders = FILES['orders.yaml'].replace('due: 2026-04-10', 'due: 2026-03-28');
    const { rows } = await planOf(
      { 'studio.yaml': studio, 'orders.yaml': orders },
      { until: '2026-03-28' },
    );
    expect(rows[0]?.['part']).toBe('Not in time');
    expect(rows[0]?.['says']).toContain('fits with more hours of making');
  });

  it('count what is begun in one week and finished in the next where the work is done', async () => {
    const shown = await planOf({
      'studio.yaml': STUDIO.replace('12', '6'),
      'products.yaml': 'jar: { name: Jar, space: 2, minutes: 100 }\n',
      'materials.yaml': '',
      'recipes.yaml': '',
      'bought.yaml': '',
      'fairs.yaml': '',
      'orders.yaml': `o1:
  { date: 2026-02-20, buyer: the cafe, due: 2026-06-30, lines: [{ product: jar, count: 9 }] }
`,
    });
    // An hour a day: three jars are finished in the first week with an hour over, and four in 6 h 40 min in the second.
    expect(cells(part(shown, 'Hours'), 'day', 'count', 'says')).toEqual([
      ['2026-03-02', 3, '5.7 h of 6 h'],
      ['2026-03-09', 4, '6 h of 6 h'],
      ['2026-03-16', 2, '3.3 h of 6 h'],
    ]);
  });

  it('say how large to make what shrinks, where its clay was measured', async () => {
    const files = {
      'products.yaml': FILES['products.yaml'].replace(
        '  minutes: 30\n',
        '  minutes: 30\n  size: { height: 88 mm, width: 80 mm, of: fired }\n',
      ),
      'tests.yaml': `t1:
  date: 2026-01-10
  kind: shrinkage
  clay: clay
  cone: '6'
  shrinkage: { wet: 100 mm, fired: 88 mm }
`,
    };
    const [mug, bowl] = part(await planOf(files), 'To start');
    expect(mug?.['says']).toContain('; wet 100 mm high, 91 mm wide');
    expect(bowl?.['says']).not.toContain('wet');
  });

  it('say until when lost pieces can be made again', async () => {
    const [due] = part(await planOf(), 'Due');
    // Packing 1, glaze 2, glazing 2, bisque 2 and drying 6 days before the 10th of April.
    expect(due?.['says']).toBe('12 mug blue; lost pieces can be made again until 2026-03-28');
  });
});

describe('what to order', () => {
  it('is what is short, in packs as it was bought last, by the day on which it has to be ordered', async () => {
    const shown = await planOf({}, { until: '2026-05-10' });
    const [clay] = part(shown, 'To order').filter(({ what }) => what === 'clay');
    // 22 mugs take 11 kg, and there are 10: the 21st is made in the second week.
    expect(cells([clay!], 'count', 'needed', 'onHand', 'short', 'supplier', 'paidLast')).toEqual([
      [1, '11', '10', '1', 'The clay merchant', '24.00'],
    ]);
    expect(clay?.['says']).toBe(
      'short 1 kg of 11 kg; 1 x 5 kg; from The clay merchant; last 24.00 for 2 x 5 kg',
    );
    expect(cells(part(shown, 'To mix'), 'what', 'short')).toEqual([['blue', '440']]);
  });
});

describe('a plan refuses', () => {
  it.each([
    [{ assurance: '20' }, [], '--assurance takes a percentage from 50 to 99.9'],
    [{ until: '2026-02-01' }, [], '--until 2026-02-01 is before 2026-03-01'],
    [{ until: 'soon' }, [], '--until takes a day'],
    [{ make: 'mug' }, [], '--make takes a count, a product and a glaze'],
    [{ make: '5 mgu' }, [], 'there is no product "mgu" in this studio; did you mean mug?'],
    [{ make: '5 mug blu' }, [], 'there is no recipe "blu" in this studio; did you mean blue?'],
    [{}, ['o2'], 'there is no order or fair "o2" in this studio'],
  ])('%j %j', async (options, ids, says) => {
    const argument = ids[0];
    const asked = { ...ASKED, ...options };
    const place = { folder: tempStudio(FILES), ...(argument !== undefined && { argument }) };
    const { status, complaints } = await runCommand('plan', asked, place);
    expect(status).toBe(2);
    expect(complaints).toContain(says);
  });
});

describe('the page', () => {
  it('has a strip of fourteen days before the table, and a box before each row', async () => {
    const asked = { ...ASKED, as: 'html' };
    const { out } = await runCommand('plan', asked, { folder: tempStudio(FILES) });
    expect(out.indexOf('The next two weeks')).toBeLessThan(out.lastIndexOf('This week'));
    expect(out).toContain('Make mug blue');
    expect(out.split('class="tick"').length).toBeGreaterThan(5);
    expect(out.match(/class="mark"/g)).toHaveLength(14);
  });
});
