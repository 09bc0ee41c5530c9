/** A script of three fields, and keys that are pressed in it. */
import { pasteOn, press, type QuestionState } from '../../../src/entry/questions/asking.ts';
import {
  isDone,
  takenAnswer,
  type KeyName,
  type Question,
  type Script,
} from '../../../src/entry/questions/question.ts';

const COLOURS = ['red', 'rust', 'green'];

/** A text that must be there. */
export const PLAIN: Question = {
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

/** A choice with a usual value. */
export const COLOUR: Question = {
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
export const once: Script = (answers) => (isDone(answers, 'name') ? undefined : PLAIN);

/** A name, a colour, and a list of at least one line. */
export const script: Script = (answers) => {
  if (!isDone(answers, 'name')) return PLAIN;
  if (!isDone(answers, 'colour')) return COLOUR;
  if (isDone(answers, 'line')) return undefined;
  return { ...LINES, mayBeEmpty: answers.some(({ key }) => key === 'line') };
};

/** The state after keys: names in brackets, and texts. */
export function type(asking: QuestionState, ...keys: readonly string[]): QuestionState {
  return keys.reduce((state, key) => {
    const [, name] = /^\[(.*)\]$/.exec(key) ?? [];
    return press(state, name ? { name: name as KeyName, text: '' } : { name: 'text', text: key });
  }, asking);
}

/** The state after a paste, gone through to its end. */
export function paste(asking: QuestionState, text: string): QuestionState {
  let state = press(asking, { name: 'paste', text });
  while (state.isPasting) state = pasteOn(state);
  return state;
}

/** What was answered. */
export const texts = ({ answers }: QuestionState): string[] => answers.map(({ text }) => text);
