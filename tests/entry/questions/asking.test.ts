import { describe, expect, it } from 'vitest';
import {
  type QuestionState,
  begin,
  frameOf,
  pickedOf,
  press,
  stepBack,
} from '../../../src/entry/questions/asking.ts';
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

const texts = ({ answers }: QuestionState): string[] => answers.map(({ text }) => text);

describe('asking', () => {
  it('goes through the questions, and a list until an empty line', () => {
    const keys = ['a', '[enter]', 'red', '[enter]', 'x', '[enter]', 'y', '[enter]', '[enter]'];
    const asking = type(begin(script), ...keys);
    expect(asking.question).toBeUndefined();
    expect(texts(asking)).toEqual(['a', 'red', 'x', 'y', '']);
    expect(asking.answers.flatMap(({ gives }) => gives)).toEqual(
      '--name a --colour red --name x --name y'.split(' '),
    );
  });

  it('takes the default with Enter, and leaves it out with a hyphen', () => {
    const atColour = type(begin(script), 'a', '[enter]');
    expect(texts(type(atColour, '[enter]'))).toEqual(['a', 'green']);
    const without = type(atColour, '-', '[enter]');
    expect(texts(without)).toEqual(['a', '']);
    expect(without.answers.at(-1)?.gives).toEqual([]);
  });

  it('asks again, with what was typed, where there is no answer or a wrong one', () => {
    expect(type(begin(script), '[enter]').message).toContain('an answer is needed');
    const wrong = type(begin(script), 'bad', '[enter]');
    expect([wrong.message, wrong.line.text, texts(wrong)]).toEqual(['bad is bad', 'bad', []]);
    expect(type(wrong, '!').message).toBe('');
    const atLines = type(begin(script), 'a', '[enter]', '[enter]', '[enter]');
    expect(atLines.message).toContain('at least one line');
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

  it('goes back and offers the earlier answer as the default', () => {
    const atLines = type(begin(script), 'a', '[enter]', 'red', '[enter]');
    const back = type(atLines, '<', '[enter]');
    expect([back.question?.key, texts(back)]).toEqual(['colour', ['a']]);
    expect(frameOf(back, { head: '', lines: [] }).prompt).toBe('Colour [red]');
    expect(texts(type(back, '[enter]'))).toEqual(['a', 'red']);
    expect(texts(type(back, 'rust', '[enter]'))).toEqual(['a', 'rust']);
    const twice = type(back, '<', '[enter]');
    expect(frameOf(twice, { head: '', lines: [] }).prompt).toBe('Name [a]');
  });

  it('goes back with the word behind a refused answer, too, but not behind any other', () => {
    const atColour = type(begin(script), 'a', '[enter]');
    const refused = type(atColour, 'blue', '[enter]');
    expect(type(refused, '<', '[enter]').question?.key).toBe('name');
    expect(type(refused, 'x', '<', '[enter]').message).toBe('no colour x<');
    expect(type(atColour, 'blue<', '[enter]').message).toBe('no colour blue<');
    const atLines = type(atColour, '[enter]', 'bad', '[enter]');
    expect(type(atLines, '<', '[enter]').question?.key).toBe('colour');
    const takenBack = type(atColour, '[enter]', 'x', '[enter]', '<', '[enter]');
    expect(takenBack.line.text).toBe('x');
    expect(type(takenBack, '<', '[enter]').question?.key).toBe('colour');
  });

  it('lets a refused answer give way to what is typed next, unless that begins with a change', () => {
    const atColour = type(begin(script), 'a', '[enter]');
    const refused = type(atColour, 'blu', '[enter]');
    expect(type(refused, 'r', 'e').line.text).toBe('re');
    expect(type(refused, '[backspace]', 'e').line.text).toBe('ble');
    expect(type(refused, '[left]', 'e').line.text).toBe('bleu');
    const atLines = type(atColour, '[enter]', 'bad', '[enter]');
    expect(type(atLines, '!').line.text).toBe('bad!');
  });

  it('goes back into a list, and gives its last line back to be changed', () => {
    const full = type(begin(script), 'a', '[enter]', '[enter]', 'x', '[enter]', '[enter]');
    expect(full.question).toBeUndefined();
    const open = stepBack(full);
    expect([open.question?.key, open.line.text, texts(open)]).toEqual([
      'line',
      '',
      ['a', 'green', 'x'],
    ]);
    const line = type(open, '<', '[enter]');
    expect([line.line.text, texts(line)]).toEqual(['x', ['a', 'green']]);
    expect(texts(type(line, '2', '[enter]'))).toEqual(['a', 'green', 'x2']);
  });

  it('does not go back from the first question', () => {
    const asking = type(begin(script), '<', '[enter]');
    expect(asking.end).toBe('back');
    expect(stepBack(asking)).toMatchObject({ end: undefined, question: PLAIN });
    expect(stepBack(asking).message).toContain('first question');
  });

  it('is over when it is given up', () => {
    const asking = type(begin(script), 'a', '[cancel]');
    expect(asking.end).toBe('cancelled');
    expect(type(asking, 'b', '[enter]')).toBe(asking);
  });

  it('scrolls what is above where there is nothing to choose', () => {
    const asking = type(begin(script), '[previous]', '[previous]', '[next]');
    expect(asking.lift).toBe(1);
    expect(type(asking, '[next]', '[next]').lift).toBe(0);
  });
});
