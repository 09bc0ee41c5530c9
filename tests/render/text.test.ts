import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.ts';
import type { Column, Table } from '../../src/report/table.ts';
import { visible } from '../../src/render/escape.ts';
import { shownTable } from '../../src/render/shown.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import { displayWidth } from '../../src/render/terminal/width.ts';
import { holds } from '../helpers/law.ts';
import { money } from '../helpers/minor.ts';
import { anyTable, UNSAFE } from './arbitrary.ts';
import { MATERIALS } from './materials.ts';
import { FIRINGS, LOSSES, SMALL, tableOf } from './sample.ts';

function text(table: Table, width = 80, colour = false): Promise<string> {
  return renderText(table, { width, colour });
}

/** The lines below title and caption. */
async function body(table: Table, width = 80): Promise<string[]> {
  const lines = (await text(table, width)).split('\n');
  return lines.slice(lines.indexOf('') + 1, -1);
}

describe('renderText', () => {
  it('says below each row what its line has no room for', async () => {
    expect(await text(MATERIALS)).toMatchInlineSnapshot(`
      "Materials on hand
      Willow Bend Pottery · as of 2026-03-31 · USD

                                                          Days
      Material                     On hand  Unit   Value  left  Order by    State
      ───────────────────────────────────────────────────────────────────────────────
      Buff stoneware, fine grog     312.50  kg    421.87    48  2026-05-04  ok
        Used a day 6.410 · Runs out 2026-05-18
      Porcelain, throwing body       38.00  kg     98.80    13  2026-03-30  order-now
        Used a day 2.750 · Runs out 2026-04-13
      Potash feldspar                21.40  kg     44.52   118  2026-07-13  ok
        Used a day 0.180 · Runs out 2026-07-27
      Whiting                         9.80  kg     12.74   108  2026-07-03  ok
        Used a day 0.090 · Runs out 2026-07-17
      Silica, 325 mesh               14.25  kg     15.68   118  2026-07-13  ok
        Used a day 0.120 · Runs out 2026-07-27
      Red iron oxide                  1.35  kg      8.77    67  2026-05-23  low
        Used a day 0.020 · Runs out 2026-06-06
      Cobalt carbonate                0.19  kg     20.35   185  2026-09-18  ok
        Used a day 0.001 · Runs out 2026-10-02
      Wadding, alumina and kaolin     2.20  kg      6.16                    idle
      Propane                        -4.50  gal   -14.85     0  2026-03-17  out
        Used a day 0.610 · Runs out 2026-03-31
      ───────────────────────────────────────────────────────────────────────────────
      Total                                       614.04

      Propane stands below zero: the book says more was burnt than was bought. Count
        the tank, or add the missing purchase.
      Used a day is what went out in the last 90 days.
      "
    `);
  });

  it('draws bars where there is room', async () => {
    expect(await body(LOSSES)).toEqual([
      'Product          In  First  Second  Lost  Loss rate                   Low   High',
      '────────────────────────────────────────────────────────────────────────────────',
      'Tumbler         148    133       6     9       6.1%  ███▌            3.2%  11.2%',
      'Dinner plate     62     44       5    13      21.0%  ████████████▎  12.7%  32.6%',
      'Serving bowl     40     37       2     1       2.5%  █▌              0.4%  12.9%',
      'Teapot            9      6       1     2      22.2%  █████████████   6.3%  54.7%',
      'Bud vase      1,290  1,261      14    15       1.2%  ▋               0.7%   1.9%',
      '────────────────────────────────────────────────────────────────────────────────',
      'All           1,549  1,481      28    40       2.6%',
      '',
      'Low and high: the 95 % interval (Wilson). One of five says little.',
    ]);
    const bars = (await body(LOSSES, 200)).join('').match(/█+/g) ?? [];
    expect(Math.max(...bars.map((bar) => bar.length))).toBe(20);
    expect((await body(LOSSES, 70)).join('')).not.toContain('█');
  });

  it('wraps text when heads are wrapped and nothing more is to go below', async () => {
    expect(await body(SMALL)).toEqual([
      '                                                         Clay',
      'Sale       Date        Item          Count      Gross    (kg)  Margin  Estimated',
      '────────────────────────────────────────────────────────────────────────────────',
      's260307aa  2026-03-07  Tumbler |     1,200  33,600.01  480.13   61.3%',
      '                       blue',
      's260308bb  2026-03-08  =Bowl "wide"      3     -84.00    2.40          yes',
      's260309cc  2026-03-09  Vase              1       0.00           -0.1%',
      '                       \\u{202E}esre',
      '                       ver',
      '────────────────────────────────────────────────────────────────────────────────',
      'Total                                1,204  33,516.01',
      '',
      'One cost is estimated.',
    ]);
  });

  it('keeps the first column on the line however little room there is', async () => {
    expect(await text(SMALL, 30)).toMatchInlineSnapshot(`
      "Income by sale
      Willow Bend Pottery · as of
      2026-03-31 · USD

      Sale       Date        Count
      ────────────────────────────
      s260307aa  2026-03-07  1,200
        Item Tumbler | blue
        Gross 33,600.01
        Clay (kg) 480.13
        Margin 61.3%
      s260308bb  2026-03-08      3
        Item =Bowl "wide"
        Gross -84.00
        Clay (kg) 2.40 · Estimated
      s260309cc  2026-03-09      1
        Item Vase \\u{202E}esrever
        Margin -0.1%
      ────────────────────────────
      Total                  1,204
        Gross 33,516.01

      One cost is estimated.
      "
    `);
  });

  it('keeps columns in line beside wide signs and combining marks', async () => {
    const columns: readonly Column[] = [
      { key: 'a', title: 'Glaze', type: 'text' },
      { key: 'b', title: 'On hand', type: 'quantity', unit: 'g', places: 0 },
    ];
    const rows = ['釉薬', 'Ce\u0301ladon', 'Ash 🏺', 'Plain'].map((a) => ({
      a,
      b: decimal('1200'),
    }));
    expect(await body(tableOf(columns, rows))).toEqual([
      'Glaze    On hand (g)',
      '────────────────────',
      '釉薬           1,200',
      'Ce\u0301ladon        1,200',
      'Ash 🏺         1,200',
      'Plain          1,200',
    ]);
  });

  it('keeps notes readable on a wide terminal', async () => {
    const notes = ['one two three four '.repeat(8).trim()];
    expect((await body({ ...SMALL, rows: [], notes }, 200)).slice(2)).toEqual([
      'one two three four one two three four one two three four one two three four one',
      '  two three four one two three four one two three four one two three four',
    ]);
  });

  it('puts a head on one line where there is just room for it', async () => {
    const columns: readonly Column[] = [
      { key: 'a', title: 'Loss rate', type: 'fraction' },
      { key: 'b', title: 'Share of all', type: 'fraction' },
    ];
    const table = tableOf(columns, [{ a: decimal('0.1'), b: decimal('0.1') }]);
    expect((await body(table, 23))[0]).toBe('Loss rate  Share of all');
    expect((await body(table, 22)).slice(0, 2)).toEqual(['            Share', 'Loss rate  of all']);
    expect((await body(table, 13)).slice(0, 2)).toEqual([' Loss   Share', ' rate  of all']);
    expect((await body(table, 17)).slice(0, 2)).toEqual(['            Share', 'Loss rate  of all']);
  });

  it('says so when there is nothing', async () => {
    expect(await body({ ...SMALL, rows: [], notes: [] })).toEqual(['Nothing to show.']);
    expect(await body(tableOf([], [{}]))).toEqual(['Nothing to show.']);
  });

  it('puts the highest number below first, equals together, and no more than it must', async () => {
    const column = (key: string, drop?: number): Column => ({
      key,
      title: key.repeat(10),
      type: 'text',
      ...(drop === undefined ? {} : { drop }),
    });
    const table = tableOf(
      [column('c'), column('a', 1), column('b', 2), column('d', 2)],
      [{ a: 'a', b: 'b', c: 'c', d: 'd' }],
    );
    const heads = async (width: number): Promise<string> => (await body(table, width))[0] ?? '';
    expect(await heads(46)).toBe('cccccccccc  aaaaaaaaaa  bbbbbbbbbb  dddddddddd');
    expect(await heads(45)).toBe('cccccccccc  aaaaaaaaaa');
    expect(await heads(33)).toBe('cccccccccc  aaaaaaaaaa');
    expect(await heads(21)).toBe('cccccccccc');
  });

  it('narrows a long text before it puts a column below', async () => {
    const columns: readonly Column[] = [
      { key: 'a', title: 'Note', type: 'text' },
      { key: 'b', title: 'Cost', type: 'money', drop: 1 },
    ];
    const rows = [{ a: 'brushed thin on the rim, thick in the foot ring', b: money('1.00') }];
    expect(await body(tableOf(columns, rows), 40)).toEqual([
      'Note                                Cost',
      '────────────────────────────────────────',
      'brushed thin on the rim, thick in   1.00',
      'the foot ring',
    ]);
  });

  it('colours only when asked: heads quiet, totals and title strong, the words the same', async () => {
    const coloured = await text(SMALL, 80, true);
    const plain = await text(SMALL, 80, false);
    // eslint-disable-next-line no-control-regex -- the codes are what is tested
    expect(coloured.replace(/\u001b\[\d+m/g, '')).toBe(plain);
    expect(coloured.split('\n')[0]).toBe('\u001b[1mIncome by sale\u001b[22m');
    expect(coloured).toContain('\u001b[2mSale\u001b[22m       \u001b[2mDate\u001b[22m');
    expect(coloured).toContain('\u001b[1m1,204\u001b[22m  \u001b[1m33,516.01\u001b[22m');
    expect(plain).not.toContain('\u001b');
  });

  it('never lets anything act, nor a line get too wide', async () => {
    await holds(
      fc.asyncProperty(anyTable, fc.integer({ min: 40, max: 150 }), async (table, width) => {
        const lines = (await text(table, width)).split('\n');
        expect(lines.filter((line) => UNSAFE.test(line))).toEqual([]);
        expect(lines.filter((line) => displayWidth(line) > width)).toEqual([]);
        expect(lines.filter((line) => line.endsWith(' '))).toEqual([]);
      }),
      300,
    );
  });

  it('never breaks a figure', async () => {
    await holds(
      fc.asyncProperty(fc.integer({ min: 40, max: 150 }), async (width) => {
        const shown = await text(FIRINGS, width);
        const figures = shownTable(FIRINGS, visible).filter(
          ({ column }) => column.type === 'money',
        );
        const left = figures.filter(({ column }) => column.key !== 'wearCost');
        for (const figure of left.flatMap(({ cells, total }) => [...cells, total])) {
          expect(shown).toMatch(new RegExp(`(^|[ \\n])${figure}($|[ \\n])`));
        }
      }),
      30,
    );
  });

  it('lays out 16,000 rows within half a second of work', async () => {
    const rows = Array.from({ length: 16_000 }, (_, at) => {
      const value = money(`${String(at)}.13`);
      return { ...MATERIALS.rows[at % MATERIALS.rows.length], value };
    });
    const table = { ...MATERIALS, rows, totals: { value: money('127994080.00') } };
    await text(MATERIALS, 120);
    const before = process.cpuUsage();
    const shown = await text(table, 120);
    const { user } = process.cpuUsage(before);
    expect(shown.split('\n').length).toBeGreaterThan(16_000);
    expect(user / 1000).toBeLessThan(500);
  });
});
