import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitFrame, paintFrame, type FrameView } from '../../src/render/terminal/frame.ts';
import { displayWidth } from '../../src/render/terminal/width.ts';
import { holds } from '../helpers/law.ts';

const SHOWN: FrameView = {
  head: 'New sale. < goes back.',
  done: [
    { left: 'Channel: market', right: '' },
    { left: '  2 mug', right: '77.00   total 77.00 USD' },
  ],
  prompt: 'Lines',
  about: 'COUNT PRODUCT',
  line: { text: '1 bo', at: 4 },
  message: '',
  offers: [{ label: 'bowl', note: 'Bowl' }],
  picked: 0,
  lift: 0,
};

describe('a frame', () => {
  it('is laid out from the head to the choices', () => {
    expect(fitFrame(SHOWN, { columns: 41, rows: 24 })).toEqual({
      lines: [
        'New sale. < goes back.',
        'Channel: market',
        '  2 mug          77.00   total 77.00 USD',
        '',
        'Lines',
        'COUNT PRODUCT',
        '> 1 bo',
        '> bowl  Bowl',
      ],
      row: 6,
      column: 6,
    });
  });

  it('shows the last answers where there is no room for all, and the others when it is lifted', () => {
    const done = Array.from({ length: 20 }, (_, at) => ({ left: `answer ${at}`, right: '' }));
    const shown = { ...SHOWN, done, offers: [] };
    const { lines } = fitFrame(shown, { columns: 80, rows: 10 });
    expect(lines.slice(1, 3)).toEqual(['… 15 more above', 'answer 15']);
    expect(lines).toHaveLength(10);
    const lifted = fitFrame({ ...shown, lift: 99 }, { columns: 80, rows: 10 });
    expect(lifted.lines.slice(1, 3)).toEqual(['answer 0', 'answer 1']);
  });

  it('keeps the chosen one of many in sight', () => {
    const offers = Array.from({ length: 30 }, (_, at) => ({ label: `choice ${at}`, note: '' }));
    const { lines } = fitFrame({ ...SHOWN, offers, picked: 20 }, { columns: 80, rows: 24 });
    expect(lines).toContain('> choice 20');
    expect(lines.at(-1)).toBe('  and 24 more');
  });

  it('puts the cursor where the next sign goes, also behind wide ones and on a full row', () => {
    const at = (text: string): number[] => {
      const { row, column } = fitFrame(
        { ...SHOWN, line: { text, at: text.length } },
        { columns: 21, rows: 24 },
      );
      return [row, column];
    };
    const [row = 0] = at('');
    expect(at('陶器')).toEqual([row, 6]);
    expect(at('x'.repeat(17))).toEqual([row, 19]);
    expect(at('x'.repeat(18))).toEqual([row + 1, 0]);
  });

  it('lets nothing of the book act on the terminal', () => {
    const evil = { label: '\u001b[2J', note: '\u202e' };
    const { lines } = fitFrame(
      { ...SHOWN, prompt: 'a\u0007', offers: [evil], done: [{ left: '\u001bc', right: '\r' }] },
      { columns: 80, rows: 24 },
    );
    expect(lines.join('')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  });

  it('never is wider or higher than the terminal', () => {
    const text = fc.string({ unit: 'grapheme', maxLength: 120 });
    const line = text.map((typed) => ({ text: typed.replace(/\p{C}/gu, ''), at: 0 }));
    const shown = fc.record({
      head: text,
      done: fc.array(fc.record({ left: text, right: text }), { maxLength: 30 }),
      prompt: text,
      about: text,
      line,
      message: text,
      offers: fc.array(fc.record({ label: text, note: text }), { maxLength: 12 }),
      picked: fc.constantFrom(undefined, 0),
      lift: fc.nat(40),
    });
    const size = fc.record({
      columns: fc.integer({ min: 40, max: 200 }),
      rows: fc.integer({ min: 4, max: 60 }),
    });
    holds(
      fc.property(shown, size, (what, cells) => {
        const { lines, row, column } = fitFrame(what, cells);
        expect(lines.length).toBeLessThanOrEqual(cells.rows);
        expect(Math.max(...lines.map(displayWidth))).toBeLessThan(cells.columns);
        expect(row).toBeLessThan(cells.rows);
        expect(column).toBeLessThan(cells.columns);
      }),
      60,
    );
  });

  it('is painted line by line without clearing the whole screen', () => {
    expect(paintFrame({ lines: ['a', 'b'], row: 1, column: 2 })).toBe(
      '\u001b[Ha\u001b[K\r\nb\u001b[K\u001b[J\u001b[2;3H',
    );
  });
});
