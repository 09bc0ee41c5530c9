import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  EMPTY_LINE,
  eraseAt,
  eraseBefore,
  eraseWord,
  insert,
  lineAtEnd,
  move,
} from '../../../src/entry/questions/line.ts';
import { holds } from '../../helpers/law.ts';

describe('a line', () => {
  it('takes text at the cursor', () => {
    const line = insert(move(lineAtEnd('2 mg'), -1), 'u');
    expect(line).toEqual({ text: '2 mug', at: 4 });
  });

  it('takes a paste as one line without controls', () => {
    expect(insert(EMPTY_LINE, 'a\r\nb\tc\u001b[31m').text).toBe('a b c[31m');
  });

  it('erases words and signs', () => {
    expect(eraseWord(lineAtEnd('2 mug rust '))).toEqual({ text: '2 mug ', at: 6 });
    expect(eraseAt({ text: 'abc', at: 1 })).toEqual({ text: 'ac', at: 1 });
    expect(eraseBefore(EMPTY_LINE)).toEqual(EMPTY_LINE);
  });

  it.each(['陶', 'e\u0301', '👩‍🎨', '½'])('treats %s as one sign', (sign) => {
    const line = lineAtEnd(`a${sign}`);
    expect(eraseBefore(line)).toEqual({ text: 'a', at: 1 });
    expect(move(move(line, -1), 1)).toEqual(line);
  });

  it('never leaves the text, whatever is done', () => {
    const steps = [eraseBefore, eraseAt, eraseWord, (line = EMPTY_LINE) => move(line, -1)];
    holds(
      fc.property(fc.string({ unit: 'grapheme' }), fc.array(fc.nat(3)), (text, order) => {
        const line = order.reduce(
          (each, index) => steps[index]?.(each) ?? each,
          insert(EMPTY_LINE, text),
        );
        expect(line.at).toBeGreaterThanOrEqual(0);
        expect(line.at).toBeLessThanOrEqual(line.text.length);
      }),
    );
  });
});
