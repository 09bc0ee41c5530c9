import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderSheet } from '../../src/render/terminal/sheet.ts';
import { displayWidth } from '../../src/render/terminal/width.ts';
import type { Sheet, SheetLine } from '../../src/report/day/sheet.ts';
import { holds } from '../helpers/law.ts';

const OPTIONS = { width: 50, colour: false };

function sheetOf(...lines: Partial<SheetLine>[]): Sheet {
  const whole = { label: 'Mugs', group: 0, lead: '', list: [] };
  return { title: 'A day', lines: lines.map((line) => ({ ...whole, ...line })) };
}

function shown(
  options: { width?: number; height?: number },
  ...lines: Partial<SheetLine>[]
): string {
  return renderSheet(sheetOf(...lines), { ...OPTIONS, ...options });
}

const FRUIT = ['apples (12)', 'pears (3)', 'quinces (1)', 'medlars (250)', 'sloes (7)'];

describe('a page of labelled lines', () => {
  it('says the lead, then the list, and puts a full stop', () => {
    expect(shown({}, { lead: '3 things', list: ['a', 'b', 'c'] })).toBe(
      'A day\n\nMugs  3 things: a; b; c.\n',
    );
    expect(shown({}, { list: ['a', 'b'] })).toBe('A day\n\nMugs  a; b.\n');
    expect(shown({}, { lead: 'None' })).toBe('A day\n\nMugs  None.\n');
  });

  it('parts groups by an empty line and lines labels up', () => {
    expect(shown({}, { lead: 'a' }, { label: 'Teapots', lead: 'b' }, { group: 1, lead: 'c' })).toBe(
      'A day\n\nMugs     a.\nTeapots  b.\n\nMugs     c.\n',
    );
  });

  it('gives a long list all its lines when no height is set', () => {
    expect(shown({}, { lead: '5 kinds', list: FRUIT })).toBe(
      'A day\n\n' +
        'Mugs  5 kinds: apples (12); pears (3); quinces\n' +
        '      (1); medlars (250); sloes (7).\n',
    );
  });

  it('counts what it has no room for, at the least height', () => {
    expect(shown({ height: 3 }, { lead: '5 kinds', list: FRUIT })).toBe(
      'A day\n\nMugs  5 kinds: apples (12); pears (3) and 3 more.\n',
    );
    expect(shown({ height: 3, width: 30 }, { lead: '5 kinds', list: FRUIT })).toBe(
      'A day\n\nMugs  5 kinds.\n',
    );
    expect(shown({ height: 3, width: 20 }, { list: ['a'.repeat(40), 'b'] })).toBe(
      'A day\n\nMugs  2 things.\n',
    );
  });

  it('deals spare lines out in turn: the second list gets one before the first gets a third', () => {
    const long = { lead: 'all', list: [...FRUIT, ...FRUIT, ...FRUIT] };
    const counts = (height: number): number[] => {
      const text = shown({ height }, long, { ...long, label: 'Jugs' });
      const lines = text.trimEnd().split('\n').slice(2);
      const second = lines.findIndex((line) => line.startsWith('Jugs'));
      return [second, lines.length - second];
    };
    expect([4, 5, 6, 7, 8, 20].map(counts)).toEqual([
      [1, 1],
      [2, 1],
      [2, 2],
      [3, 2],
      [3, 3],
      [3, 3],
    ]);
  });

  it('gives the first spare line to a list of which nothing could be named', () => {
    const long = { lead: 'all', list: [...FRUIT, ...FRUIT] };
    const wide = { lead: 'owed', list: ['a gallery with a long name (12.50)', 'b'] };
    expect(shown({ height: 5 }, long, wide)).toBe(
      'A day\n\nMugs  all: apples (12); pears (3); quinces (1);\n' +
        '      medlars (250); sloes (7) and 5 more.\n' +
        'Mugs  owed: a gallery with a long name (12.50); b.\n',
    );
    expect(shown({ height: 5, width: 40 }, long, wide)).toBe(
      'A day\n\nMugs  all: apples (12) and 9 more.\n' +
        'Mugs  owed: a gallery with a long name\n      (12.50); b.\n',
    );
  });

  it('names in fewer words what it has no room for in full', () => {
    const owed = {
      lead: '609.60',
      list: ['Hobbin Lane Kitchen Goods (444.00 since May)', 'Mizzle House (165.60 since June)'],
      brief: ['Hobbin Lane Kitchen Goods (444.00)', 'Mizzle House (165.60)'],
    };
    expect(shown({ height: 3, width: 80 }, owed)).toBe(
      'A day\n\nMugs  609.60: Hobbin Lane Kitchen Goods (444.00 since May) and 1 more.\n',
    );
    expect(shown({ height: 3, width: 60 }, owed)).toBe(
      'A day\n\nMugs  609.60: Hobbin Lane Kitchen Goods (444.00) and 1 more.\n',
    );
    expect(shown({ height: 3, width: 40 }, owed)).toBe('A day\n\nMugs  609.60.\n');
  });

  it('gives the next spare line to a list that could be named in fewer words only', () => {
    const long = { lead: 'all', list: [...FRUIT, ...FRUIT] };
    const brief = {
      lead: 'owed',
      list: ['a gallery with a long name (12.50)'],
      brief: ['gallery'],
    };
    const silent = { lead: 'owed', list: ['a gallery with a long name (12.50)'] };
    const linesAt = (height: number): number[] => {
      const text = shown({ height, width: 40 }, long, brief, silent).trimEnd();
      const starts = text.split('\n').flatMap((line, at) => (line.startsWith('Mugs') ? [at] : []));
      const ends = [...starts.slice(1), text.split('\n').length];
      return starts.map((start, at) => (ends[at] ?? 0) - start);
    };
    expect([5, 6, 7, 8].map(linesAt)).toEqual([
      [1, 1, 1],
      [1, 1, 2],
      [1, 2, 2],
      [2, 2, 2],
    ]);
  });

  it('leaves empty lines out before anything else, those of the last groups first', () => {
    const lines = [0, 1, 2].map((group) => ({ group, lead: String(group) }));
    expect(shown({ height: 7 }, ...lines)).toBe('A day\n\nMugs  0.\n\nMugs  1.\n\nMugs  2.\n');
    expect(shown({ height: 6 }, ...lines)).toBe('A day\n\nMugs  0.\n\nMugs  1.\nMugs  2.\n');
    expect(shown({ height: 4 }, ...lines)).toBe('A day\nMugs  0.\nMugs  1.\nMugs  2.\n');
  });

  it('draws a bar, full at 1 and not beyond', () => {
    const bars = [0, 0.5, 1, 2.5].map((share) => ({ lead: `at ${share}`, share }));
    expect(shown({ width: 80 }, ...bars)).toBe(
      'A day\n\n' +
        'Mugs  ················  at 0.\n' +
        'Mugs  ████████········  at 0.5.\n' +
        'Mugs  ████████████████  at 1.\n' +
        'Mugs  ████████████████  at 2.5.\n',
    );
    expect(shown({ width: 30 }, { share: 0.5, lead: 'half of a kiln' })).toBe(
      'A day\n\nMugs  ████····  half of a…\n',
    );
  });

  it('leaves the last bars out where there are too many lines, and counts them', () => {
    const bars = [1, 2, 3, 4].map((number) => ({ lead: `kiln ${number}`, share: 1 }));
    expect(shown({ height: 5, width: 80 }, { lead: 'a' }, ...bars, { lead: 'z' })).toBe(
      'A day\nMugs  a.\nMugs  ████████████████  kiln 1.\n      3 more.\nMugs  z.\n',
    );
  });

  it('never cuts a command, and drops what it is for first', () => {
    const next = { label: 'Next', bare: true, lead: 'saggar check', list: ['(to see)'] };
    expect(shown({ height: 3 }, next)).toBe('A day\n\nNext  saggar check   (to see)\n');
    expect(shown({ height: 3, width: 30 }, { ...next, list: ['(to see what it is)'] })).toBe(
      'A day\n\nNext  saggar check\n',
    );
    const long = { ...next, lead: 'git -C hill-street commit -m "Day"' };
    expect(shown({ height: 4, width: 30 }, long)).toBe(
      'A day\n\nNext  git -C hill-street\n      commit -m "Day"\n',
    );
  });

  it('leads with a sentence that is never cut, with weight, and the command below it', () => {
    const first = {
      label: 'Next',
      sentence: 'Order more of the clay today: two days.',
      command: 'saggar materials',
    };
    const sheet = { ...sheetOf({ lead: 'a' }), first };
    expect(renderSheet(sheet, { width: 30, height: 6, colour: false })).toBe(
      'A day\n\nNext  Order more of the clay\n      today: two days.\n      saggar materials\nMugs  a.\n',
    );
    expect(renderSheet(sheet, { width: 80, colour: true })).toBe(
      '\u001b[1mA day\u001b[22m\n\n' +
        '\u001b[2mNext  \u001b[22m\u001b[1mOrder more of the clay today: two days.\u001b[22m\n' +
        '\u001b[2m      \u001b[22msaggar materials\n\n\u001b[2mMugs  \u001b[22ma.\n',
    );
  });

  it('shows hidden signs of names, and paints labels only', () => {
    const text = renderSheet(sheetOf({ lead: 'a\u001b[31mb', list: ['c\u202ed'] }), {
      ...OPTIONS,
      colour: true,
    });
    expect(text).toBe(
      '\u001b[1mA day\u001b[22m\n\n\u001b[2mMugs  \u001b[22ma\\u{1B}[31mb: c\\u{202E}d.\n',
    );
  });
});

const words = fc.stringMatching(/^[a-zé漢 ]{1,60}$/);

const anyLine: fc.Arbitrary<SheetLine> = fc.record(
  {
    label: fc.stringMatching(/^[A-Za-z ]{1,14}$/),
    group: fc.nat(5),
    lead: words,
    list: fc.array(words, { maxLength: 12 }),
    share: fc.double({ min: 0, max: 3, noNaN: true }),
  },
  { requiredKeys: ['label', 'group', 'lead', 'list'] },
);

const anySheet: fc.Arbitrary<Sheet> = fc.record({
  title: words,
  lines: fc
    .array(anyLine, { maxLength: 20 })
    .map((lines) => lines.sort((one, other) => one.group - other.group)),
});

function linesOf(text: string): string[] {
  return text.replace(/\n$/, '').split('\n');
}

describe('any page', () => {
  it('has no more lines than its height, as long as each line of words can have one', () => {
    holds(
      fc.property(anySheet, fc.integer({ min: 21, max: 40 }), (sheet, height) => {
        const text = renderSheet(sheet, { width: 80, height, colour: false });
        expect(linesOf(text).length).toBeLessThanOrEqual(height);
      }),
    );
  });

  it('has no line that is wider than the terminal', () => {
    holds(
      fc.property(anySheet, fc.integer({ min: 45, max: 130 }), (sheet, width) => {
        const text = renderSheet(sheet, { width, height: 24, colour: false });
        for (const line of linesOf(text)) expect(displayWidth(line)).toBeLessThanOrEqual(width);
      }),
    );
  });

  it('loses nothing: every item of a list is named or counted', () => {
    holds(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 3, max: 8 }),
        (items, height) => {
          const list = Array.from({ length: items }, (_, at) => `item-${at}`);
          const text = shown({ height, width: 60 }, { lead: 'all', list });
          const named = text.match(/item-/g)?.length ?? 0;
          const more = Number(/and (\d+) more/.exec(text.replaceAll(/\s+/g, ' '))?.[1] ?? 0);
          expect(named + more).toBe(items);
        },
      ),
    );
  });
});
