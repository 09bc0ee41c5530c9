/** What offers the fields which few records have, once a record is to be changed. */
import type { FieldOption } from '../fields.ts';
import { question, takenAnswer, type Question } from './question.ts';
import { termOffers } from './terms.ts';

/** The key of the question; each answer names an option that is asked next. */
export const MORE = 'more';

/** Offers options; without an answer the record is complete. */
export function moreQuestion(options: readonly FieldOption[]): Question {
  const terms = options.map(({ name, title }) => ({ word: name, note: title }));
  return question({
    key: MORE,
    prompt: 'Another field',
    about: 'its name',
    fallback: '',
    isList: true,
    isAside: true,
    isClosed: true,
    offers: termOffers(terms),
    judge: (line) =>
      terms.some(({ word }) => word === line)
        ? takenAnswer([], line)
        : { refused: `"${line}" is not another field of this; choose one below` },
  });
}
