import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderMarkdown } from '../../src/render/markdown.ts';
import { anyTable, UNSAFE } from './arbitrary.ts';
import { SMALL } from './sample.ts';
import { holds } from '../helpers/law.ts';

describe('renderMarkdown', () => {
  it('writes a heading, the table with bold totals, and notes', () => {
    expect(renderMarkdown(SMALL)).toBe(`# Income by sale

Willow Bend Pottery · as of 2026-03-31 · USD

| Sale | Date | Item | Count | Gross | Clay (kg) | Margin | Estimated |
| --- | --- | --- | ---: | ---: | ---: | ---: | --- |
| s260307aa | 2026-03-07 | Tumbler \\| blue | 1,200 | 33,600.01 | 480.13 | 61.3% |  |
| s260308bb | 2026-03-08 | =Bowl "wide" | 3 | -84.00 | 2.40 |  | yes |
| s260309cc | 2026-03-09 | Vase \\\\u{202E}esrever | 1 | 0.00 |  | -0.1% |  |
| **Total** |  |  | **1,204** | **33,516.01** |  |  |  |

- One cost is estimated.
`);
  });

  it('says so when there are no rows', () => {
    expect(renderMarkdown({ ...SMALL, rows: [], notes: [] })).toBe(`# Income by sale

Willow Bend Pottery · as of 2026-03-31 · USD

Nothing to show.
`);
  });

  it('has a line for each row with the same number of cells, and nothing that acts', () => {
    holds(
      fc.property(anyTable, (table) => {
        const text = renderMarkdown(table);
        expect(text.replaceAll('\n', '')).not.toMatch(UNSAFE);
        fc.pre(table.rows.length > 0);
        const bare = text.split('\n').map((line) => line.replace(/\\./gu, ''));
        const pipes = bare
          .filter((line) => line.startsWith('|'))
          .map((line) => line.split('|').length);
        expect(pipes).toHaveLength(table.rows.length + 2 + (table.totals === undefined ? 0 : 1));
        expect(new Set(pipes)).toEqual(new Set([table.columns.length + 2]));
      }),
    );
  });
});
