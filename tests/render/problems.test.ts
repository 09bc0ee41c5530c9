import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Place, Problem } from '../../src/problem.ts';
import {
  countsOf,
  problemTable,
  problemText,
  renderProblems,
} from '../../src/render/problems/problems.ts';
import { displayWidth } from '../../src/render/terminal/width.ts';
import { anyText, UNSAFE } from './arbitrary.ts';
import { holds } from '../helpers/law.ts';

const CHECKED = {
  studio: 'Willow Bend Pottery',
  asOf: '2026-03-31',
  currency: 'USD',
  minorDigits: 2,
};

function place(more: Partial<Place>): Place {
  return { file: 'sales.yaml', line: 1, column: 1, width: 1, source: '', ...more };
}

function problem(more: Partial<Problem>): Problem {
  return {
    rule: 'schema',
    severity: 'error',
    place: place({}),
    message: 'what is wrong',
    hint: '',
    related: [],
    ...more,
  };
}

const CONE = problem({
  rule: 'needs-quotes',
  place: place({
    file: 'firings/f260301ka.yaml',
    line: 4,
    column: 9,
    width: 2,
    source: '  cone: 04',
  }),
  message: 'other programs read the cone 04 as the number 4',
  hint: 'put it in quotes: "04"',
});

const LOT = problem({
  rule: 'unknown-reference',
  severity: 'warning',
  place: place({
    file: 'sales/2026-03.yaml',
    line: 128,
    column: 12,
    width: 9,
    source: '    - lot: p260308kt # blue',
  }),
  message: 'no lot has the id p260308kt',
  hint: 'write p260308ka, the nearest id, or add a lot with that id to the folder pieces',
  related: [{ place: place({ file: 'pieces/p260308ka.yaml' }), message: 'the nearest lot' }],
});

const PLAIN = { width: 80, colour: false };

describe('problemText', () => {
  it('shows place, rule, severity, message, the marked source, hint, related places and counts', () => {
    expect(problemText([CONE, LOT], PLAIN))
      .toBe(`firings/f260301ka.yaml:4:9 needs-quotes error: other programs read the cone 04
    as the number 4
  4 │   cone: 04
    │         ^^
  hint: put it in quotes: "04"

sales/2026-03.yaml:128:12 unknown-reference warning: no lot has the id p260308kt
  128 │     - lot: p260308kt # blue
      │            ^^^^^^^^^
  hint: write p260308ka, the nearest id, or add a lot with that id to the folder
    pieces
  see pieces/p260308ka.yaml:1:1 the nearest lot

1 error, 1 warning.
`);
  });

  it('is quiet when nothing is wrong', () => {
    expect(problemText([], PLAIN)).toBe('No problems found.\n');
  });

  it('never breaks a place, and begins the message below when there is no room beside', () => {
    const file = `${'folder/'.repeat(12)}sales.yaml`;
    expect(problemText([problem({ place: place({ file }) })], PLAIN)).toBe(
      `${file}:1:1 schema error:\n    what is wrong\n\n1 error.\n`,
    );
  });

  it('shows hidden signs of names, messages and source instead of passing them on', () => {
    holds(
      fc.property(anyText, fc.integer({ min: 0, max: 40 }), fc.nat(12), (text, column, width) => {
        const bad = problem({
          rule: text,
          place: place({ file: text, source: text, column, width }),
          message: text,
          hint: text,
          related: [{ place: place({ file: text }), message: text }],
        });
        for (const colour of [false, true]) {
          const shown = problemText([bad], { width: 80, colour });
          // eslint-disable-next-line no-control-regex -- our own paint may be there
          expect(shown.replace(/\u001b\[\d\d?m|\n/g, '')).not.toMatch(UNSAFE);
        }
      }),
    );
  });

  it('keeps to the width', () => {
    holds(
      fc.property(anyText, fc.integer({ min: 44, max: 120 }), (text, width) => {
        const bad = problem({
          message: text,
          hint: text,
          place: place({ source: text, column: 3 }),
        });
        const lines = problemText([bad], { width, colour: false }).split('\n');
        expect(lines.filter((line) => displayWidth(line) > width)).toEqual([]);
      }),
    );
  });

  it('paints the severity and the mark, and says the same without paint', () => {
    const coloured = problemText([CONE, LOT], { width: 80, colour: true });
    expect(coloured).toContain('needs-quotes \u001b[31merror:\u001b[39m other');
    expect(coloured).toContain('unknown-reference \u001b[35mwarning:\u001b[39m no lot');
    expect(coloured).toContain('\u001b[31m^^\u001b[39m');
    // eslint-disable-next-line no-control-regex -- the codes are what is tested
    expect(coloured.replace(/\u001b\[\d+m/g, '')).toBe(problemText([CONE, LOT], PLAIN));
  });
});

describe('countsOf', () => {
  it.each([
    [[], 'No problems found.'],
    [[CONE], '1 error.'],
    [[LOT, LOT], '2 warnings.'],
    [[LOT, CONE, CONE], '2 errors, 1 warning.'],
  ])('%#', (problems, sentence) => {
    expect(countsOf(problems)).toBe(sentence);
  });
});

describe('renderProblems', () => {
  it('writes the same envelope as reports in JSON', async () => {
    const json = await renderProblems([LOT], CHECKED, { ...PLAIN, as: 'json' });
    expect(JSON.parse(json)).toEqual({
      version: 1,
      report: 'check',
      studio: 'Willow Bend Pottery',
      asOf: '2026-03-31',
      currency: 'USD',
      columns: problemTable([], CHECKED).columns,
      rows: [
        {
          file: 'sales/2026-03.yaml',
          line: 128,
          column: 12,
          rule: 'unknown-reference',
          severity: 'warning',
          message: 'no lot has the id p260308kt',
          hint: 'write p260308ka, the nearest id, or add a lot with that id to the folder pieces',
          related: 'pieces/p260308ka.yaml:1:1 the nearest lot',
        },
      ],
      notes: ['1 warning.'],
    });
  });

  it('writes CSV and Markdown', async () => {
    expect(await renderProblems([CONE], CHECKED, { ...PLAIN, as: 'csv' })).toBe(
      'file,line,column,rule,severity,message,hint,related\r\n' +
        'firings/f260301ka.yaml,4,9,needs-quotes,error,' +
        'other programs read the cone 04 as the number 4,"put it in quotes: ""04""",\r\n',
    );
    expect(await renderProblems([CONE], CHECKED, { ...PLAIN, as: 'markdown' })).toBe(`# Problems

Willow Bend Pottery · as of 2026-03-31 · USD

| File | Line | Column | Rule | Severity | Message | Hint | Related |
| --- | ---: | ---: | --- | --- | --- | --- | --- |
| firings/f260301ka.yaml | 4 | 9 | needs-quotes | error | other programs read the cone 04 as the number 4 | put it in quotes: "04" |  |

- 1 error.
`);
  });

  it('writes text by problemText at a terminal, at 80 columns when the width is unknown', async () => {
    const options = { width: 0, colour: false, as: 'text', terminal: true } as const;
    expect(await renderProblems([LOT], CHECKED, options)).toBe(problemText([LOT], PLAIN));
  });
});
