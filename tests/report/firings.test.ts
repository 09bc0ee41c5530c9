import { describe, expect, it } from 'vitest';
import { total, type Money } from '../../src/number/money.ts';
import { flow } from '../../src/reckon/flow.ts';
import { firingLoad, firingsTable } from '../../src/report/firings.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { money, told } from '../helpers/minor.ts';
import { EXAMPLE_DAY, runCommand } from '../helpers/studio-commands.ts';

type Row = Readonly<Record<string, string>>;

/** The rows of the example studio's firings, from the file for programs. */
async function rowsOf(options: Readonly<Record<string, string>> = {}): Promise<Row[]> {
  const { out } = await runCommand('firings', { asOf: EXAMPLE_DAY, as: 'csv', ...options });
  const [head = [], ...rows] = out
    .trim()
    .split('\r\n')
    .map((line) => line.split(','));
  return rows.map((cells) => Object.fromEntries(head.map((key, at) => [key, cells[at] ?? ''])));
}

const PARTS = ['energyCost', 'wearCost', 'suppliesCost', 'labourCost'] as const;

function partsOf(row: Row): string[] {
  return PARTS.map((key) => row[key] ?? '').filter((cell) => cell !== '');
}

describe('what a firing costs', () => {
  it('is the same whatever span is asked for, and in its own report', async () => {
    const spans = [
      {},
      { from: '2026-05-01' },
      { from: '2026-05-19', to: '2026-05-19' },
      { to: '2026-05-31' },
    ];
    const rows = await Promise.all(spans.map((span) => rowsOf(span)));
    const found = rows.map((each) => each.find(({ firing }) => firing === 'f260519jd'));
    expect(found.map((row) => row?.['energyCost'])).toEqual(['8.40', '8.40', '8.40', '8.40']);
    expect(found).toEqual(found.map(() => found[0]));
    const shown = await runCommand('firings', { asOf: EXAMPLE_DAY });
    expect(shown.out.split('\n').find((line) => line.startsWith('f260519jd'))).toContain(' 8.40 ');
  });

  it('adds up across in every row, to the cent', async () => {
    const rows = await rowsOf();
    expect(rows.length).toBeGreaterThan(70);
    const across = rows.map((row) => `${row['firing']} ${told(total(partsOf(row).map(money)))}`);
    expect(across).toEqual(rows.map((row) => `${row['firing']} ${row['total']}`));
  });

  it('adds up down to the total, in any format', async () => {
    const rows = await rowsOf();
    const { out } = await runCommand('firings', { asOf: EXAMPLE_DAY, as: 'json' });
    const { totals } = JSON.parse(out) as { totals: Row };
    for (const key of [...PARTS, 'total']) {
      const cells = rows.map((row) => row[key] ?? '').filter((cell) => cell !== '');
      expect(`${key} ${told(total(cells.map(money)))}`).toBe(`${key} ${totals[key] ?? ''}`);
    }
  });
});

/** The list of a small studio's firings up to 1 February 2026, and one firing's own report. */
function shown(files: Files): {
  rows: readonly string[];
  notes: readonly string[];
  load: (id: string) => readonly string[];
} {
  const book = bookFrom(files);
  const flows = flow(book, '2026-02-01');
  const { rows, notes } = firingsTable(book, flows, { to: '2026-02-01' });
  return {
    rows: rows.map(({ firing, energyCost, estimated }) =>
      [firing, energyCost === null ? null : told(energyCost as Money), estimated]
        .map(String)
        .join(' '),
    ),
    notes,
    load: (id) => firingLoad(book, flows, id)?.notes ?? [],
  };
}

const LOAD = 'kind: bisque, load: [{ outside: A, in: 1 }]';

describe('fuel from stock', () => {
  const fired = `kiln: climber, ${LOAD}, fuel-used: { material: wood, quantity: 10 kg }`;
  const files = {
    kilns: 'climber: { name: Climber, fuel: wood }',
    materials: 'wood: { name: Wood, kind: fuel, unit: kg }',
    firings: `
f1: { date: 2026-01-03, ${fired} }
f2: { date: 2026-01-04, ${fired} }
`,
  };

  it('that came in free costs 0, and is neither estimated nor unknown', () => {
    const lines = '[{ material: wood, quantity: 20 kg, cost: 0 }]';
    const bought = `b1: { date: 2026-01-02, supplier: Farm, lines: ${lines} }`;
    const { rows, notes } = shown({ ...files, bought });
    expect(rows).toEqual(['f1 0.00 false', 'f2 0.00 false']);
    expect(notes).toEqual([]);
    const counted = 'c1: { date: 2026-01-02, materials: [{ material: wood, quantity: 20 kg }] }';
    expect(shown({ ...files, counted }).rows).toEqual(['f1 0.00 false', 'f2 0.00 false']);
  });

  it('is known beyond the stock too once some came in, and unknown while none did', () => {
    // 15 kg free; the second firing draws 5 kg beyond them, at the same 0.
    const reclaimed = 'r1: { date: 2026-01-02, material: wood, quantity: 15 kg }';
    expect(shown({ ...files, reclaimed }).rows).toEqual(['f1 0.00 false', 'f2 0.00 false']);
    const { rows, notes } = shown(files);
    expect(rows).toEqual(['f1 null true', 'f2 null true']);
    expect(notes).toEqual(['2 firings without known energy cost: the total lacks it.']);
  });
});

describe('a tariff with bands', () => {
  const fired = `kiln: small, ${LOAD}, energy: 10 kWh`;
  const files = (tariff: string): Files => ({
    kilns: 'small: { name: Small, fuel: electricity }',
    tariffs: `day: { from: 2026-01-01, fuel: electricity, price: 0.30, per: kWh${tariff} }`,
    firings: `
f1: { date: 2026-01-03, ${fired}, started: "22:00", hours: 4 }
f2: { date: 2026-01-04, ${fired}, started: "22:00" }
f3: { date: 2026-01-05, ${fired}, hours: 4 }
f4: { date: 2026-01-06, ${fired} }
`,
  });

  it('says which firings it could not price by them', () => {
    // 22:00 to 02:00: half at 0.30 and half at 0.10, 10 × 0.20. The others 10 × 0.30.
    const bands = ', bands: [{ hours: 00:00-06:00, price: 0.10 }]';
    const { rows, notes, load } = shown(files(bands));
    expect(rows).toEqual(['f1 2.00 false', 'f2 3.00 false', 'f3 3.00 false', 'f4 3.00 false']);
    expect(notes).toEqual([
      'Energy at the plain price of the tariff, since going by its bands needs both started and hours: f2, f3, f4.',
    ]);
    expect(load('f1')).toEqual(['4 hours, 10 kWh.']);
    expect(load('f3')).toEqual([
      '4 hours, 10 kWh.',
      'The energy is at the plain price of tariff day, since going by its bands needs both started and hours.',
    ]);
  });

  it('has nothing to say where there are none, whatever the firings leave out', () => {
    expect(shown(files('')).notes).toEqual([]);
    expect(shown(files(', bands: []')).notes).toEqual([]);
  });
});
