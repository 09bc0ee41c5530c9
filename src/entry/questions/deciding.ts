/** What is done with a finished entry: saved, changed in one of its fields, or discarded. */
import type { Path } from '../../read/raw.ts';
import { begin, type QuestionState } from './asking.ts';
import type { FieldProblem } from './preview.ts';
import { question, takenAnswer, type Offer, type Question } from './question.ts';

/** What may be decided. */
type Decision = 'save' | 'change' | 'discard';

const DECISIONS: readonly (Offer & { readonly line: Decision })[] = [
  { line: 'save', label: 'Save', note: 'write it into the file' },
  { line: 'change', label: 'Change', note: 'go to one of its fields or lines' },
  { line: 'discard', label: 'Discard', note: 'leave the file as it is' },
];

/** Asks which of the three; Enter saves. */
export function deciding(): QuestionState {
  return choiceOf('Save, change or discard?', DECISIONS);
}

/** What was decided; undefined where it was gone back from. */
export function decisionOf({ answers: [answer] }: QuestionState): Decision | undefined {
  return DECISIONS.find(({ line }) => line === answer?.text)?.line;
}

/** A field or a line that can be changed. */
export interface Changeable extends Offer {
  /** Where in the answers it is; the end of a list is where lines are added. */
  readonly index: number;
  readonly path: Path | undefined;
  /** Whether something is wrong with it. */
  readonly isWrong: boolean;
}

/** All that can be changed in an entry, with what is wrong with it. */
export function changeables(
  { answers }: QuestionState,
  problems: readonly FieldProblem[],
): readonly Changeable[] {
  return answers.map(({ isList, text, left, prompt, path }, index) => {
    const wrong = problems.find((each) => isAt(each.path, path));
    const value = text !== '' ? left : isList ? 'add one more' : 'left out';
    const note = wrong ? `${value}  ! ${wrong.message}` : value;
    return { line: `${index + 1}`, label: prompt, note, index, path, isWrong: wrong !== undefined };
  });
}

function isAt(path: Path, field: Path | undefined): boolean {
  return field !== undefined && path.length > 0 && field.every((step, at) => path[at] === step);
}

/** Asks which of them; begins at the first with which something is wrong. */
export function choosing(
  all: readonly Changeable[],
  problems: readonly FieldProblem[],
): QuestionState {
  const elsewhere = problems.filter(({ path }) => !all.some((each) => isAt(path, each.path)));
  const wrong = all.findIndex(({ isWrong }) => isWrong);
  return {
    ...choiceOf('Which one to change?', all),
    picked: Math.max(wrong, 0),
    message: elsewhere.map(({ message }) => message).join(' '),
  };
}

function choiceOf(prompt: string, all: readonly Offer[]): QuestionState {
  const offersFor = (line: string): readonly Offer[] => {
    const typed = line.trim().toLowerCase();
    const led = all.filter(({ label }) => label.toLowerCase().startsWith(typed));
    return led.length > 0 ? led : all.filter(({ line: number }) => number === typed);
  };
  const asked: Question = question({
    key: 'choice',
    prompt,
    about: '',
    fallback: '',
    mayBeEmpty: false,
    isClosed: true,
    offers: offersFor,
    judge: (line) =>
      all.some((each) => each.line === line)
        ? takenAnswer([], line)
        : { refused: `"${line}" is not one of these` },
  });
  return { ...begin(([answer]) => (answer ? undefined : asked)), picked: 0, isLeft: true };
}
