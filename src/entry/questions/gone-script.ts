/** The questions about what left without a sale: which ware, why, when. */
import type { Book } from '../../book.ts';
import { dayMeant } from '../../number/date.ts';
import { countsFlow } from '../../reckon/flow.ts';
import { STUDIO_PLACE } from '../../reckon/ware/lot.ts';
import { lotsStanding } from '../../reckon/ware/ware.ts';
import type { LotChange } from '../gone/in-lots.ts';
import { GONE_FORM, HOW_GONE, readGone, type GoneOptions } from '../gone/said.ts';
import type { Lexicon } from '../lexicon.ts';
import type { OpenedStudio } from '../plan.ts';
import { NO_OUTLOOK, type Preview } from './preview.ts';
import {
  answerText,
  isDone,
  question,
  takenAnswer,
  type Answer,
  type Question,
  type Script,
} from './question.ts';
import { amendedPreview } from './record-preview.ts';
import { termOffers, type Term } from './terms.ts';

/** The studio that ware leaves, and what the options say already. */
export interface GoneErrand {
  readonly opened: OpenedStudio;
  readonly lexicon: Lexicon;
  readonly options: GoneOptions;
}

/** The lines that were answered, and the options with what was answered of them. */
export function goneAnswers(
  { options }: GoneErrand,
  answers: readonly Answer[],
): { readonly sentences: readonly string[]; readonly options: GoneOptions } {
  const lines = answers.filter(({ key, text }) => key === 'ware' && text !== '');
  const { how, date, note } = Object.fromEntries(
    (['how', 'date', 'note'] as const).map((key) => [
      key,
      answerText(answers, key) || options[key],
    ]),
  );
  return {
    sentences: lines.map(({ left }) => left),
    options: { ...options, how, date, note },
  };
}

/** All questions about it. */
export function goneScript(errand: GoneErrand): Script {
  const { options } = errand;
  return (answers) => {
    const isOpen = (key: 'how' | 'date' | 'note'): boolean =>
      options[key] === undefined && !isDone(answers, key);
    if (isOpen('how')) return howQuestion();
    if (isOpen('date')) return dateQuestion(errand);
    if (!isDone(answers, 'ware')) return wareQuestion(errand, answers);
    return isOpen('note') ? noteQuestion() : undefined;
  };
}

function howQuestion(): Question {
  const terms = HOW_GONE.map((word): Term => ({ word, note: '' }));
  return question({
    key: 'how',
    prompt: 'Why',
    about: 'what became of it',
    fallback: '',
    mayBeEmpty: false,
    isClosed: true,
    offers: termOffers(terms),
    judge: (typed) =>
      HOW_GONE.includes(typed)
        ? takenAnswer([], typed)
        : { refused: `"${typed}" is not one of ${HOW_GONE.join(', ')}` },
  });
}

function dateQuestion({ opened }: GoneErrand): Question {
  return question({
    key: 'date',
    prompt: 'Date',
    about: 'the day on which it left, such as yesterday',
    fallback: opened.asOf,
    judge: (typed) => {
      const day = dayMeant(typed, opened.asOf);
      if (day === undefined || day > opened.asOf)
        return { refused: `"${typed}" is not a day up to now; write one such as yesterday` };
      return takenAnswer([], day);
    },
  });
}

function wareQuestion(errand: GoneErrand, answers: readonly Answer[]): Question {
  const { opened, lexicon } = errand;
  const said = goneAnswers(errand, answers);
  return question({
    key: 'ware',
    prompt: 'What left',
    about: `such as ${GONE_FORM.examples[0] ?? ''}; its lots are found by it`,
    fallback: '',
    mayBeEmpty: said.sentences.length > 0,
    isList: true,
    offers: (typed) => termOffers(wareTerms(opened))(typed),
    judge: (typed) => {
      const sentences = [...said.sentences, typed];
      const { faults } = readGone({ ...opened, lexicon }, sentences, said.options);
      const [fault] = faults;
      return fault ? { refused: `${fault.message}; ${fault.hint}` } : takenAnswer([], typed);
    },
  });
}

function noteQuestion(): Question {
  return question({
    key: 'note',
    prompt: 'Note',
    about: 'anything you want to remember about it',
    fallback: '',
    judge: (typed) => takenAnswer([], typed),
  });
}

/** One of each sort that stands anywhere, with how many there are. */
function wareTerms({
  book,
  asOf,
}: {
  readonly book: Book;
  readonly asOf: string;
}): readonly Term[] {
  const counts = new Map<string, number>();
  for (const { lot, glaze, places } of lotsStanding(countsFlow(book, asOf).ware.lots))
    for (const [key, count] of places) {
      const [grade, place = STUDIO_PLACE] = key.split(' ');
      const [first = ''] = glaze.split(' + ');
      const words = [lot.product, first, grade === 'second' ? grade : ''];
      const line = [...words.filter(Boolean), ...(place ? [`at ${place}`] : [])].join(' ');
      counts.set(line, (counts.get(line) ?? 0) + count);
    }
  return [...counts]
    .filter(([, count]) => count > 0)
    .map(([line, count]) => ({ word: `1 ${line}`, note: `${count} there` }));
}

/** The first lot that changes; what is changed in several is shown when it is saved. */
export function gonePreview(errand: GoneErrand): Preview {
  const { opened, lexicon } = errand;
  const lotsOf = (answers: readonly Answer[]): readonly LotChange[] => {
    const { sentences, options } = goneAnswers(errand, answers);
    return readGone({ ...opened, lexicon }, sentences, options).lots;
  };
  const previewOf = ([first]: readonly LotChange[]): Preview | undefined =>
    first && amendedPreview(opened, first.record, () => first.amendments);
  return {
    record: (answers) => previewOf(lotsOf(answers))?.record(answers, undefined),
    outlook: (answers) => {
      const lots = lotsOf(answers);
      return lots.length === 1 ? (previewOf(lots)?.outlook(answers) ?? NO_OUTLOOK) : NO_OUTLOOK;
    },
  };
}
