import { describe, expect, it } from 'vitest';
import { renderCsv } from '../../src/render/csv.ts';
import { renderJson } from '../../src/render/json.ts';
import { renderMarkdown } from '../../src/render/markdown.ts';
import { render, usableWidth } from '../../src/render/render.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import { MATERIALS } from './materials.ts';

describe('render', () => {
  it('gives the format asked for', async () => {
    const options = { width: 100, colour: false };
    expect(await render(MATERIALS, { ...options, as: 'text' })).toBe(
      await renderText(MATERIALS, options),
    );
    expect(await render(MATERIALS, { ...options, as: 'json' })).toBe(renderJson(MATERIALS));
    expect(await render(MATERIALS, { ...options, as: 'csv' })).toBe(renderCsv(MATERIALS));
    expect(await render(MATERIALS, { ...options, as: 'markdown' })).toBe(renderMarkdown(MATERIALS));
  });

  it('takes 80 for a width that is unknown', async () => {
    const at = (width: number): Promise<string> =>
      render(MATERIALS, { as: 'text', width, colour: false });
    expect(await at(0)).toBe(await at(80));
    expect(await at(0)).not.toBe(await at(120));
    expect([NaN, -1, 0, 12.5, Infinity, 132].map(usableWidth)).toEqual([80, 80, 80, 80, 80, 132]);
  });

  it('colours text only', async () => {
    for (const as of ['json', 'csv', 'markdown'] as const) {
      expect(await render(MATERIALS, { as, width: 80, colour: true })).not.toContain('\u001b');
    }
    expect(await render(MATERIALS, { as: 'text', width: 80, colour: true })).toContain('\u001b');
  });
});
