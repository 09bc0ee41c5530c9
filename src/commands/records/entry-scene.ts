/** What is shown while an entry is filled in, however it is shown. */
import type { QuestionState } from '../../entry/questions/asking.ts';
import type { Preview } from '../../entry/questions/preview.ts';
import type { Answer } from '../../entry/questions/question.ts';
import type { Path } from '../../read/raw.ts';

/** What there is around the fields. */
export interface EntryScene {
  readonly title: string;
  readonly preview: Preview;
  /** Of a choice about a finished entry, its answers; else those of the state count. */
  readonly answers?: readonly Answer[] | undefined;
  /** What it will change, where that is known better than from a preview. */
  readonly effects?: readonly string[];
  /** What else there is to say, in lines. */
  readonly notes: readonly string[];
  /** Where in the record the thing is that an offer's line chooses. */
  readonly marks: (line: string) => Path | undefined;
}

/** Asks at a terminal. */
export interface EntryAsker {
  /** Whether what it shows stays on the terminal. */
  readonly keeps: boolean;
  /** Asks until all is answered, or until it is left. */
  readonly ask: (asking: QuestionState, scene: EntryScene) => Promise<QuestionState>;
  readonly close: () => void;
}

/** What saving changes: what the last line of a list comes to, where nothing else says so yet. */
export function effectsOf(
  { effects, preview }: EntryScene,
  answers: readonly Answer[],
): readonly string[] {
  if (effects) return effects;
  const known = preview.outlook(answers).effects;
  const right = answers.at(-1)?.right ?? '';
  return right === '' || known.some((line) => line.startsWith('this ')) ? known : [right, ...known];
}
