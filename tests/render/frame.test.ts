import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitFrame, paintFrame, type FrameView } from '../../src/render/terminal/frame.ts';
import { displayWidth } from '../../src/render/terminal/width.ts';
import { holds } from '../helpers/law.ts';

const SHOWN: FrameView = {
  file: 'sales/2026-05.yaml',
  title: 'New sale',
  record: {
    above: ['# May', ''],
    lines: ['s260501aa:', '  channel: door', '  lines:', '    - x'],
    at: 3,
    typed: { before: '    - ', after: '' },
    lift: 0,
  },
  field: { name: 'Lines', about: 'COUNT PRODUCT' },
  line: { text: '1 bo', at: 4 },
  usual: '',
  message: '',
  notes: [],
  pasted: [],
  offers: [{ label: 'bowl', note: '6 here' }],
  picked: 0,
  effects: ['bowl in the studio 6 → 5'],
  keys: ['Enter takes it', 'Esc goes back', 'Ctrl-C discards'],
};

const WIDE = { isWide: true };

function drawn(shown: FrameView, columns: number, rows: number): string[] {
  return rowsOf(shown, { columns, rows, isWide: true });
}

function rowsOf(shown: FrameView, space: Parameters<typeof fitFrame>[1]): string[] {
  const { lines } = fitFrame(shown, space);
  return lines.map((line) => line.map(({ text }) => text).join(''));
}

describe('a frame', () => {
  it('has the file, the record with what is typed in its place, a rule, the choices and the foot', () => {
    const { row, column } = fitFrame(SHOWN, { columns: 41, rows: 18, ...WIDE });
    expect(drawn(SHOWN, 41, 18)).toEqual([
      'sales/2026-05.yaml',
      'New sale',
      '',
      '  # May',
      '  ',
      '  s260501aa:',
      '    channel: door',
      '    lines:',
      '>     - 1 bo',
      '─'.repeat(40),
      'Lines: COUNT PRODUCT',
      '* bowl  6 here',
      '',
      '',
      '',
      '',
      'Saving changes: bowl in the studio 6 → 5',
      'Enter takes it   Esc goes back',
    ]);
    expect([row, column]).toEqual([8, 12]);
  });

  it('draws a rule and arrows of plain signs where the terminal has no others', () => {
    const lines = rowsOf(SHOWN, { columns: 61, rows: 18, isWide: false }).join('\n');
    expect(lines).toContain('-'.repeat(60));
    expect(lines).toContain('6 -> 5');
    expect(lines).toMatch(/^[\x20-\x7e\n]*$/);
  });

  it('shows the usual value after a word where nothing is typed', () => {
    const empty = { ...SHOWN, line: { text: '', at: 0 }, usual: '6 bowl' };
    expect(drawn(empty, 60, 18)).toContain('>     - usual: 6 bowl');
    const { lines } = fitFrame(empty, { columns: 60, rows: 18, ...WIDE });
    expect(lines[8]?.at(-1)).toEqual({ text: 'usual: 6 bowl', paint: 'quiet' });
    expect(drawn({ ...SHOWN, usual: '6 bowl' }, 60, 18).join()).not.toContain('usual');
  });

  it('keeps the field, what is wrong with it and the keys, however few rows there are', () => {
    const wrong = { ...SHOWN, message: 'there is no bo' };
    expect(drawn(wrong, 80, 4)).toEqual([
      '>     - 1 bo',
      'Lines: COUNT PRODUCT',
      '! there is no bo',
      'Enter takes it   Esc goes back   Ctrl-C discards',
    ]);
  });

  it('shows the nearest lines of a long record, and the first ones when it is moved', () => {
    const more = Array.from({ length: 40 }, (_, at) => `  field-${at}: x`);
    const record = { ...SHOWN.record, lines: ['s260501aa:', ...more, '    - x'], at: 41 };
    const shown = drawn({ ...SHOWN, record }, 80, 24);
    expect(shown).toContain('    field-39: x');
    expect(shown[3]).toMatch(/^ {2}… \d+ lines above$/);
    const moved = drawn({ ...SHOWN, record: { ...record, lift: 99 } }, 80, 24);
    expect(moved).toContain('  s260501aa:');
    expect(moved).toContain('>     - 1 bo');
  });

  it('names pasted lines that wait', () => {
    const lines = drawn({ ...SHOWN, pasted: ['2 bowl', '3 bowl', ''] }, 80, 24);
    expect(lines).toContain('  + 2 bowl');
    expect(lines).toContain('  + 3 bowl');
    expect(lines.join('\n')).toContain('2 pasted lines wait');
  });

  it('keeps the chosen one of many in sight', () => {
    const offers = Array.from({ length: 30 }, (_, at) => ({ label: `choice ${at}`, note: '' }));
    const lines = drawn({ ...SHOWN, offers, picked: 20 }, 80, 24);
    expect(lines).toContain('* choice 20');
    expect(lines).toContain('  and 24 more');
  });

  it('marks the line that a choice is about, and puts the cursor at the choice', () => {
    const record = { ...SHOWN.record, at: 1, typed: undefined };
    const { row } = fitFrame({ ...SHOWN, record }, { columns: 80, rows: 24, ...WIDE });
    const lines = drawn({ ...SHOWN, record }, 80, 24);
    expect(lines).toContain('>   channel: door');
    expect(lines[row]).toBe('* bowl  6 here');
  });

  it('puts the cursor where the next sign goes, also after wide ones and on a full row', () => {
    const at = (text: string): number[] => {
      const line = { text, at: text.length };
      const { row, column } = fitFrame({ ...SHOWN, line }, { columns: 21, rows: 24, ...WIDE });
      return [row, column];
    };
    const [row = 0] = at('');
    expect(at('')).toEqual([row, 8]);
    expect(at('陶器')).toEqual([row, 12]);
    expect(at('x'.repeat(11))).toEqual([row, 19]);
    expect(at('x'.repeat(12))).toEqual([row + 1, 0]);
  });

  it('lets nothing of the book act on the terminal', () => {
    const record = { ...SHOWN.record, above: ['\u001bc'], lines: ['\u001bc', '\r', '', ''] };
    const evil = { label: '\u001b[2J', note: '\u202e' };
    const field = { name: 'a\u0007', about: '' };
    const effects = ['\u001b[31m'];
    const shown = { ...SHOWN, record, offers: [evil], field, effects, file: '\u0007' };
    expect(drawn(shown, 80, 24).join('')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  });

  it('never is wider or higher than the terminal', () => {
    const text = fc.string({ unit: 'grapheme', maxLength: 120 });
    const texts = fc.array(text, { maxLength: 30 });
    const line = text.map((typed) => ({ text: typed.replace(/\p{C}/gu, ''), at: 0 }));
    const shown = fc.record({
      file: text,
      title: text,
      record: fc.record({
        above: texts,
        lines: texts,
        at: fc.option(fc.nat(30), { nil: undefined }),
        typed: fc.option(fc.record({ before: text, after: text }), { nil: undefined }),
        lift: fc.nat(40),
      }),
      field: fc.record({ name: text, about: text }),
      line,
      usual: text,
      message: text,
      notes: fc.array(text, { maxLength: 3 }),
      pasted: fc.array(text, { maxLength: 5 }),
      offers: fc.array(fc.record({ label: text, note: text }), { maxLength: 12 }),
      picked: fc.constantFrom(undefined, 0),
      effects: fc.array(text, { maxLength: 4 }),
      keys: fc.array(text, { maxLength: 5 }),
    });
    const size = fc.record({
      columns: fc.integer({ min: 40, max: 200 }),
      rows: fc.integer({ min: 4, max: 60 }),
      isWide: fc.boolean(),
    });
    holds(
      fc.property(shown, size, (what, cells) => {
        const { row, column } = fitFrame(what, cells);
        const lines = rowsOf(what, cells);
        expect(lines.length).toBeLessThanOrEqual(cells.rows);
        expect(Math.max(...lines.map(displayWidth))).toBeLessThan(cells.columns);
        expect(row).toBeLessThan(cells.rows);
        expect(column).toBeLessThan(cells.columns);
      }),
      60,
    );
  });

  it('is painted line by line without clearing the whole screen, and without colour where there is none', () => {
    const lines = [[{ text: 'a' }], [{ text: 'b', paint: 'quiet' as const }]];
    expect(paintFrame({ lines, row: 1, column: 2 }, false)).toBe(
      '\u001b[Ha\u001b[K\r\nb\u001b[K\u001b[J\u001b[2;3H',
    );
    expect(paintFrame({ lines, row: 1, column: 2 }, true)).toContain('\u001b[2mb\u001b[22m');
  });
});
