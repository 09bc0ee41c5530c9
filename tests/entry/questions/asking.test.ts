import { describe, expect, it } from 'vitest';
import { begin, pickedOf, stepBack, usualOf } from '../../../src/entry/questions/asking.ts';
import { COLOUR, script, texts, type } from './three-fields.ts';

describe('an entry', () => {
  it('goes through the fields, and a list until an empty line', () => {
    const keys = ['a', '[enter]', 'red', '[enter]', 'x', '[enter]', 'y', '[enter]', '[enter]'];
    const asking = type(begin(script), ...keys);
    expect(asking.question).toBeUndefined();
    expect(texts(asking)).toEqual(['a', 'red', 'x', 'y', '']);
    expect(asking.answers.flatMap(({ gives }) => gives)).toEqual(
      '--name a --colour red --name x --name y'.split(' '),
    );
  });

  it('takes the usual value with Enter, and leaves it out once Backspace took it away', () => {
    const atColour = type(begin(script), 'a', '[enter]');
    expect(usualOf(atColour)).toBe('green');
    expect(texts(type(atColour, '[enter]'))).toEqual(['a', 'green']);
    const without = type(atColour, '[backspace]');
    expect(usualOf(without)).toBe('');
    expect(texts(type(without, '[enter]'))).toEqual(['a', '']);
    expect(type(without, '[enter]').answers.at(-1)?.gives).toEqual([]);
    expect(texts(type(atColour, 'r', '[backspace]', '[enter]'))).toEqual(['a', 'green']);
  });

  it('keeps a refused answer in its field, and says why', () => {
    expect(type(begin(script), '[enter]').message).toBe('This is needed.');
    const wrong = type(begin(script), 'bad', '[enter]');
    expect([wrong.message, wrong.line.text, texts(wrong)]).toEqual(['bad is bad', 'bad', []]);
    const atLines = type(begin(script), 'a', '[enter]', '[enter]', '[enter]');
    expect(atLines.message).toBe('At least one line is needed.');
  });

  it('lets the next thing that is typed take the place of a refused one, and edits it by other keys', () => {
    const wrong = type(begin(script), 'bad', '[enter]');
    expect(type(wrong, 'g', 'o').line.text).toBe('go');
    expect(type(wrong, ' ', 'x').line.text).toBe('bad x');
    expect(type(wrong, '[backspace]', 'g').line.text).toBe('bag');
    expect(type(wrong, '[left]', 'n').line.text).toBe('band');
    expect(texts(type(wrong, 'b', '[enter]'))).toEqual(['b']);
  });

  it('takes the only choice that is left, and none of several', () => {
    const atColour = type(begin(script), 'a', '[enter]');
    expect(texts(type(atColour, 'g', '[enter]'))).toEqual(['a', 'green']);
    const several = type(atColour, 'r', '[enter]');
    expect([texts(several), several.message]).toEqual([['a'], 'no colour r']);
    expect(texts(type(atColour, 'r', '[next]', '[next]', '[enter]'))).toEqual(['a', 'rust']);
    expect(texts(type(atColour, 'r', '[previous]', '[enter]'))).toEqual(['a', 'rust']);
    expect(pickedOf(type(atColour, 'r', '[next]', '[next]', '[next]'))).toBeUndefined();
  });

  it('puts a choice into an open line and lets it be typed on', () => {
    const open = { ...COLOUR, isClosed: false };
    const asking = type(
      begin(() => open),
      '[next]',
      '[enter]',
      'dish',
    );
    expect([asking.line.text, texts(asking)]).toEqual(['reddish', []]);
    const byTab = type(
      begin(() => open),
      'g',
      '[complete]',
      'ish',
    );
    expect([byTab.line.text, texts(byTab)]).toEqual(['greenish', []]);
    const closed = type(
      begin(() => COLOUR),
      'r',
      '[complete]',
      '[complete]',
      '[enter]',
    );
    expect(closed.answers[0]?.text).toBe('rust');
  });

  it('goes back a field, and forward again to the same', () => {
    const atLines = type(begin(script), 'a', '[enter]', 'red', '[enter]', 'x', '[enter]', 'half');
    const back = type(atLines, '[back]', '[back]');
    expect([back.question?.key, back.line.text, texts(back)]).toEqual(['colour', 'red', ['a']]);
    const forward = type(back, '[enter]', '[enter]');
    expect([texts(forward), forward.line.text]).toEqual([['a', 'red', 'x'], 'half']);
    expect(texts(type(back, 'green', '[enter]', '[enter]', '[enter]', '[enter]'))).toEqual([
      'a',
      'green',
      'x',
      'half',
      '',
    ]);
  });

  it('keeps a field left out that was, when it is gone back over', () => {
    const left = type(begin(script), 'a', '[enter]', '[backspace]', '[enter]', '[back]');
    expect([left.question?.key, usualOf(left)]).toEqual(['colour', '']);
    expect(texts(type(left, '[enter]'))).toEqual(['a', '']);
  });

  it('takes out a line that is emptied, and the next one comes up', () => {
    const full = type(begin(script), 'a', '[enter]', '[enter]', 'x', '[enter]', 'y', '[enter]');
    const atX = type(full, '[back]', '[back]');
    expect(atX.line.text).toBe('x');
    const atY = type(atX, '[empty]', '[enter]');
    expect([atY.line.text, texts(atY)]).toEqual(['y', ['a', 'green']]);
    expect(texts(type(atY, '[enter]', '[enter]'))).toEqual(['a', 'green', 'y', '']);
  });

  it('opens the last field of a finished entry again', () => {
    const full = type(begin(script), 'a', '[enter]', '[enter]', 'x', '[enter]', '[enter]');
    expect(full.question).toBeUndefined();
    const open = stepBack(full);
    expect([open.question?.key, open.line.text]).toEqual(['line', '']);
    expect(texts(open)).toEqual(['a', 'green', 'x']);
    expect(type(begin(script), '[back]').message).toBe('This is the first field.');
  });

  it('is over when it is discarded', () => {
    const asking = type(begin(script), 'a', '[cancel]');
    expect(asking.end).toBe('cancelled');
    expect(type(asking, 'b', '[enter]')).toBe(asking);
  });

  it('moves the record where there is nothing to choose', () => {
    const asking = type(begin(script), '[previous]', '[previous]', '[next]');
    expect(asking.lift).toBe(1);
    expect(type(asking, '[next]', '[next]').lift).toBe(0);
    expect(
      type(
        begin(() => COLOUR),
        '[up]',
      ).lift,
    ).toBe(1);
  });
});
