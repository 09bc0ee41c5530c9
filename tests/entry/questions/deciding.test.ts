import { describe, expect, it } from 'vitest';
import { begin, change, pasteOn } from '../../../src/entry/questions/asking.ts';
import {
  changeables,
  choosing,
  deciding,
  decisionOf,
} from '../../../src/entry/questions/deciding.ts';
import { isDone, type Script } from '../../../src/entry/questions/question.ts';
import { PLAIN, once, paste, script, texts, type } from './three-fields.ts';

describe('a paste', () => {
  it('answers a field by each of its lines, and leaves what has no line end to be typed on', () => {
    const asking = paste(begin(script), 'a\r\nred\nx\ny');
    expect([texts(asking), asking.line.text]).toEqual([['a', 'red', 'x'], 'y']);
    expect(texts(type(asking, '[enter]'))).toEqual(['a', 'red', 'x', 'y']);
    expect(texts(paste(begin(script), 'a\nred\n\nx\n\n\ny\n'))).toEqual(['a', 'red', 'x', 'y']);
  });

  it('stops at a line that is refused, and goes on with the rest once that is put right', () => {
    const stopped = paste(begin(script), 'a\nblue\nx\ny\n');
    expect([texts(stopped), stopped.line.text]).toEqual([['a'], 'blue']);
    expect([stopped.message, stopped.pasted]).toEqual(['no colour blue', ['x', 'y', '']]);
    let on = type(stopped, 'red', '[enter]');
    while (on.isPasting) on = pasteOn(on);
    expect([texts(on), on.pasted]).toEqual([['a', 'red', 'x', 'y'], []]);
    expect(type(stopped, '[empty]', '[empty]').pasted).toEqual([]);
  });

  it('never answers what is done with the whole, but is still there to see', () => {
    const over = paste(begin(once), 'a\nsave\n');
    expect([texts(over), over.question, over.pasted]).toEqual([['a'], undefined, ['save', '']]);
  });
});

describe('a finished entry', () => {
  const full = type(
    begin(script),
    ...'a [enter] red [enter] x [enter] y [enter] [enter]'.split(' '),
  );

  it('is saved by Enter, changed or discarded by a first letter, and gone back from', () => {
    expect(decisionOf(type(deciding(), '[enter]'))).toBe('save');
    expect(decisionOf(type(deciding(), 'c', '[enter]'))).toBe('change');
    expect(decisionOf(type(deciding(), '[next]', '[next]', '[enter]'))).toBe('discard');
    expect(type(deciding(), 'z', '[enter]').message).toBe('"z" is not one of these');
    expect(type(deciding(), '[back]').end).toBe('back');
  });

  it('changes one answer, and those after it stay', () => {
    const opened = change(full, 1);
    expect([opened.question?.key, opened.line.text]).toEqual(['colour', 'red']);
    const changed = type(opened, 'rust', '[enter]');
    expect([changed.question, texts(changed)]).toEqual([undefined, ['a', 'rust', 'x', 'y', '']]);
    expect(texts(type(opened, 'rust', '[back]'))).toEqual(texts(full));
    expect(type(opened, 'blue', '[enter]')).toMatchObject({ message: 'no colour blue' });
  });

  it('takes a line out, and adds some', () => {
    expect(texts(type(change(full, 2), '[empty]', '[enter]'))).toEqual(['a', 'red', 'y', '']);
    expect(texts(type(change(full, 3), '[empty]', '[enter]'))).toEqual(['a', 'red', 'x', '']);
    const more = type(change(full, 4), 'z', '[enter]', 'w', '[enter]', '[enter]');
    expect([more.question, texts(more)]).toEqual([undefined, ['a', 'red', 'x', 'y', 'z', 'w', '']]);
  });

  it('asks what an answer that was changed brings up, and then goes on', () => {
    const longer: Script = (answers) => {
      const isRust = answers.some(({ text }) => text === 'rust');
      const extra = { ...PLAIN, key: 'extra' };
      const isOpen = isRust && isDone(answers, 'colour') && !isDone(answers, 'extra');
      return isOpen ? extra : script(answers);
    };
    const asking = type(change({ ...full, script: longer }, 1), 'rust', '[enter]');
    expect(asking.question?.key).toBe('extra');
    const done = type(asking, 'e', '[enter]');
    expect([done.question, texts(done)]).toEqual([undefined, ['a', 'rust', 'e', 'x', 'y', '']]);
  });

  it('names what can be changed with what is wrong, and begins there', () => {
    const answers = full.answers.map((answer, at) => ({ ...answer, path: ['f', at] }));
    const problems = [{ path: ['f', 2, 'count'], message: 'too many' }];
    const all = changeables({ ...full, answers }, problems);
    expect(all.map(({ label, note }) => `${label}: ${note}`)).toEqual([
      'Name: a',
      'Colour: red',
      'Line: x  ! too many',
      'Line: y',
      'Line: add one more',
    ]);
    expect(choosing(all, problems).picked).toBe(2);
    expect(texts(type(choosing(all, []), 'col', '[enter]'))).toEqual(['2']);
    const elsewhere = [{ path: [], message: 'too late' }];
    expect(choosing(changeables(full, elsewhere), elsewhere).message).toBe('too late');
  });
});
