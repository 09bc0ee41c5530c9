/** Asks which pieces a line means that leaves it open. */
import { fieldOptions } from '../fields.ts';
import { openLines, type OpenLine } from '../which-ware.ts';
import { judgeRecord } from './field-question.ts';
import { addsTo, optionWords, type Ground } from './ground.ts';
import { question, type Answer, type Question } from './question.ts';
import { termOffers } from './terms.ts';
import type { RawMap } from '../../read/raw.ts';

/** The question about the first line that leaves open which pieces it means; undefined where none does. */
export function whichQuestion(
  ground: Ground,
  answers: readonly Answer[],
  fields: RawMap,
): Question | undefined {
  const [open] = openLines(ground.opened.book, ground.kind, fields);
  return open && lineQuestion(ground, answers, open);
}

/** The field that the words of the choices begin with: a grade, else a glaze, or a lot where none tells them apart. */
function fieldChosen({ opened }: Ground, [choice]: OpenLine['choices']): string {
  const [word = ''] = choice?.words.split(' ') ?? [];
  if (word === 'second') return 'grade';
  return opened.book.recipes.has(word) ? 'glaze' : 'lot';
}

function lineQuestion(
  ground: Ground,
  answers: readonly Answer[],
  { path, product, where, choices }: OpenLine,
): Question | undefined {
  const [field, turn] = path;
  const option = fieldOptions(ground.kind).find((each) => each.path[0] === field);
  if (!option) return undefined;
  const terms = choices.map(({ words, count }) => ({
    word: words,
    note: count === undefined ? '' : `${count} ${where}`,
  }));
  return question({
    key: `which ${field} ${turn} ${choices.length}`,
    prompt: `Which ${product}`,
    about: '',
    path: [...path, fieldChosen(ground, choices)],
    fallback: '',
    mayBeEmpty: false,
    isClosed: true,
    offers: termOffers(terms),
    judge: (line) => {
      if (!terms.some(({ word }) => word === line))
        return {
          refused: `"${line}" is not one of these; choose one below`,
        };
      const gives = addsTo(option.name, turn, line);
      const answer = { gives, key: '', text: line, prompt: '', isList: false };
      const words = optionWords(ground, [
        ...answers,
        { ...answer, left: '', right: '', warning: '' },
      ]);
      const verdict = judgeRecord(ground, { words, path, form: option.form });
      return 'refused' in verdict ? verdict : { ...verdict, gives, left: line };
    },
  });
}
