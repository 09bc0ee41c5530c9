import { describe, expect, it } from 'vitest';
import {
  type QuestionState,
  begin,
  change,
  pasteOn,
  pickedOf,
  press,
  stepBack,
  usualOf,
} from '../../../src/entry/questions/asking.ts';
import {
  choosing,
  changeables,
  decisionOf,
  deciding,
} from '../../../src/entry/questions/deciding.ts';
import {
  isDone,
  takenAnswer,
  type KeyName,
  type Question,
  type Script,
} from '../../../src/entry/questions/question.ts';

const COLOURS = ['red', 'rust', 'green'];

const PLAIN: Question = {
  key: 'name',
  prompt: 'Name',
  about: '',
  fallback: '',
  mayBeEmpty: false,
  isList: false,
  isClosed: false,
  offers: () => [],
  judge: (line) =>
    line === 'bad' ? { refused: 'bad is bad' } : takenAnswer([`--name`, line], line),
};

const COLOUR: Question = {
  ...PLAIN,
  key: 'colour',
  prompt: 'Colour',
  fallback: 'green',
  mayBeEmpty: true,
  isClosed: true,
  offers: (line) =>
    COLOURS.filter((each) => each.startsWith(line)).map((each) => ({
      line: each,
      label: each,
      note: '',
    })),
  judge: (line) =>
    COLOURS.includes(line)
      ? takenAnswer(['--colour', line], line)
      : { refused: `no colour ${line}` },
};

const LINES: Question = { ...PLAIN, key: 'line', prompt: 'Line', isList: true };

/** A name alone. */
const once: Script = (answers) => (isDone(answers, 'name') ? undefined : PLAIN);

/** A name, a colour, and a list of at least one line. */
const script: Script = (answers) => {
  if (!isDone(answers, 'name')) return PLAIN;
  if (!isDone(answers, 'colour')) return COLOUR;
  if (isDone(answers, 'line')) return undefined;
  return { ...LINES, mayBeEmpty: answers.some(({ key }) => key === 'line') };
};

function type(asking: QuestionState, ...keys: readonly string[]): QuestionState {
  return keys.reduce((state, key) => {
    const [, name] = /^\[(.*)\]$/.exec(key) ?? [];
    return press(state, name ? { name: name as KeyName, text: '' } : { name: 'text', text: key });
  }, asking);
}

function paste(asking: QuestionState, text: string): QuestionState {
  let state = press(asking, { name: 'paste', text });
  while (state.isPasting) state = pasteOn(state);
  return state;
}

const texts = ({ answers }: QuestionState): string[] => answers.map(({ text }) => text);

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
