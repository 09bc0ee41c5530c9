import { describe, expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.ts';
import { renderMarkdown } from '../../src/render/markdown.ts';
import { paints } from '../../src/render/paint.ts';
import { visible } from '../../src/render/escape.ts';
import { shownVerdict } from '../../src/render/verdict.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import type { Table } from '../../src/report/table.ts';
import { money } from '../helpers/minor.ts';
import { tableOf } from './sample.ts';

const STOCK: Table = tableOf(
  [
    { key: 'material', title: 'Material', type: 'id' },
    { key: 'name', title: 'Name', type: 'text', isName: true },
    { key: 'value', title: 'Value', type: 'money' },
    { key: 'state', title: 'State', type: 'text' },
  ],
  [
    { material: 'frit', name: 'Borate frit', value: money('2.82'), state: 'order-now' },
    { material: 'grog', name: 'Grog', value: money('3.39'), state: 'low' },
    { material: 'wax', name: 'Wax', value: money('70.75'), state: 'ok' },
  ],
  {
    title: 'Stock',
    verdict: {
      sentence: 'Order borate frit now: 0.75 kg last 17 days.',
      figures: [
        { label: 'On hand', column: { type: 'quantity', unit: 'kg' }, cell: decimal('0.75') },
        { label: 'To order', column: { type: 'count' }, cell: 1 },
        { label: 'Value', column: { type: 'money' }, cell: money('76.96') },
        { label: 'Unknown', column: { type: 'rate' }, cell: null },
      ],
    },
    alerts: { column: 'state', of: ['now', 'soon', undefined] },
  },
);

function text(more: Partial<Table> = {}, options = {}): Promise<string> {
  return renderText({ ...STOCK, ...more }, { width: 80, colour: false, ...options });
}

describe('what matters', () => {
  it('stands between the head and the table, without the figures, which the table has', async () => {
    expect((await text()).split('\n').slice(0, 6)).toEqual([
      'Stock',
      'Willow Bend Pottery · as of 2026-03-31 · USD',
      '',
      'Order borate frit now: 0.75 kg last 17 days.',
      '',
      'Material  Name         Value  State',
    ]);
  });

  it('is folded at 80 cells, however wide the terminal is', async () => {
    const sentence = `${'Order more of it now, '.repeat(6)}and soon.`;
    const lines = (await text({ verdict: { sentence, figures: [] } }, { width: 200 })).split('\n');
    expect(lines.slice(3, 5).join(' ')).toBe(sentence);
    expect(lines[3]?.length).toBeLessThanOrEqual(80);
  });

  it('is said again at the end of what is taller than the terminal, and nowhere else', async () => {
    const again = '\n\nOrder borate frit now: 0.75 kg last 17 days.\n';
    const height = (await text()).split('\n').length;
    expect(await text({}, { height: height - 1 })).toBe((await text()).trimEnd() + again);
    expect(await text({}, { height })).toBe(await text());
    expect(await text({ verdict: undefined }, { height: 2 })).not.toContain('Order');
  });

  it('acts on nothing, whatever a name has in it', async () => {
    const sentence = 'Order \u001b[31mred\u0007 <b> @all.';
    const odd = { verdict: { sentence, figures: [] } };
    expect(await text(odd)).toContain('Order \\u{1B}[31mred\\u{7} <b> @all.');
    expect(renderMarkdown({ ...STOCK, ...odd })).not.toContain('<b>');
  });

  it('is a paragraph of markdown above the table', () => {
    expect(renderMarkdown(STOCK).split('\n').slice(2, 5)).toEqual([
      'Willow Bend Pottery · as of 2026-03-31 · USD',
      '',
      'Order borate frit now: 0.75 kg last 17 days.',
    ]);
  });
});

describe('a row that asks for something', () => {
  it('has its word and its name set off, and says the same without colour', async () => {
    const coloured = await text({}, { colour: true });
    const rowOf = (id: string): string =>
      coloured.split('\n').find((line) => line.includes(`${id}\u001b`) || line.startsWith(id)) ??
      '';
    expect(rowOf('frit')).toContain('\u001b[1mBorate frit\u001b[22m');
    expect(rowOf('frit')).toContain('\u001b[1m\u001b[31morder-now\u001b[39m\u001b[22m');
    expect(rowOf('grog')).toContain('\u001b[35mlow\u001b[39m');
    expect(rowOf('grog')).not.toContain('\u001b[1m');
    expect(rowOf('wax')).not.toContain('\u001b');
    // eslint-disable-next-line no-control-regex -- what paints
    expect(coloured.replace(/\u001b\[\d+m/g, '')).toBe(await text());
  });

  it('looks the same on a terminal as where it is padded', async () => {
    const seen = await text({}, { colour: true, terminal: true });
    expect(seen).toBe(await text({}, { colour: true }));
  });
});

/** What terminals show of the codes 31 and 35 in two palettes that are common; from memory. */
const PALETTES = [
  { 31: 'cd0000', 35: 'cd00cd' },
  { 31: 'c50f1f', 35: '881798' },
] as const;

/** Relative luminance (WCAG 2). */
function luminance(colour: string): number {
  const parts = [0, 2, 4].map((at) => parseInt(colour.slice(at, at + 2), 16) / 255);
  const [red = 0, green = 0, blue = 0] = parts.map((part) =>
    part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4,
  );
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

describe('a word that its line has no room for', () => {
  it('is set off below the row, with its head', async () => {
    const [material, name, value, state] = STOCK.columns;
    const columns = [material, name, value, state && { ...state, drop: 1 }].flatMap(
      (each) => each ?? [],
    );
    const narrow = await text({ columns }, { width: 30, colour: true });
    expect(narrow).toContain('  \u001b[1m\u001b[31mState order-now\u001b[39m\u001b[22m\n');
    expect(narrow).toContain('  \u001b[35mState low\u001b[39m\n');
  });
});

describe('the figures', () => {
  it('are shown as their columns would show them, and those that lack a cell are left out', () => {
    expect(shownVerdict(STOCK, visible)?.figures).toEqual([
      { label: 'On hand (kg)', text: '0.75' },
      { label: 'To order', text: '1' },
      { label: 'Value', text: '76.96' },
    ]);
  });
});

describe('the colours', () => {
  it.each(['error', 'warning'] as const)('%s is told from light and from dark ground', (name) => {
    // eslint-disable-next-line no-control-regex -- what paints
    const code = Number(/\u001b\[(\d+)m/.exec(paints(true)[name]('x'))?.[1]);
    for (const palette of PALETTES) {
      const shown = palette[code as keyof typeof palette];
      expect(contrast(shown, 'ffffff')).toBeGreaterThan(4.5);
      expect(contrast(shown, '000000')).toBeGreaterThan(2.4);
    }
  });
});
