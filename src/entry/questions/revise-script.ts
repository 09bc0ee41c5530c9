/** The questions about a new version of a recipe: which, from when, and what changes. */
import { dayMeant } from '../../number/date.ts';
import { isList, isMap, textUnder, valueAt } from '../../read/raw.ts';
import type { FoundRecord, Lexicon } from '../lexicon.ts';
import type { OpenedStudio } from '../plan.ts';
import { linesOfVersion, revised, type RevisionSaid } from '../recipes/revise.ts';
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

/** The studio, and what the command line says already. */
export interface ReviseErrand {
  readonly opened: OpenedStudio;
  readonly lexicon: Lexicon;
  readonly recipe: FoundRecord | undefined;
  readonly from: string | undefined;
  readonly note: string | undefined;
}

/** What was answered. */
export function revisionAnswers(
  { opened, lexicon, recipe, from, note }: ReviseErrand,
  answers: readonly Answer[],
): RevisionSaid & { readonly recipe: FoundRecord | undefined } {
  const day = from ?? answerText(answers, 'from');
  return {
    recipe: recipe ?? lexicon.find(answerText(answers, 'recipe')),
    changes: answers
      .filter(({ key, text }) => key === 'change' && text !== '')
      .map(({ left }) => left),
    base: [],
    additions: [],
    from: dayMeant(day === '' ? opened.asOf : day, opened.asOf) ?? opened.asOf,
    note: note ?? (answerText(answers, 'note') || undefined),
  };
}

/** All questions about it. */
export function reviseScript(errand: ReviseErrand): Script {
  return (answers) => {
    const said = revisionAnswers(errand, answers);
    if (!said.recipe) return recipeQuestion(errand);
    if (errand.from === undefined && !isDone(answers, 'from')) return fromQuestion(errand);
    if (!isDone(answers, 'change')) return changeQuestion(errand, said.recipe, said);
    return errand.note === undefined && !isDone(answers, 'note') ? noteOfVersion() : undefined;
  };
}

function recipeQuestion({ lexicon }: ReviseErrand): Question {
  const recipes = lexicon.records(['recipes']);
  const terms = recipes.map(({ id, raw }): Term => ({ word: id, note: textUnder(raw, 'name') }));
  return question({
    key: 'recipe',
    prompt: 'Recipe',
    about: 'which recipe gets a new version',
    fallback: '',
    mayBeEmpty: false,
    isClosed: true,
    offers: termOffers(terms),
    judge: (typed) =>
      recipes.some(({ id }) => id === typed)
        ? takenAnswer([], typed)
        : { refused: `"${typed}" is not a recipe of this studio` },
  });
}

function fromQuestion({ opened }: ReviseErrand): Question {
  return question({
    key: 'from',
    prompt: 'From',
    about: 'the first day on which it is mixed so',
    fallback: opened.asOf,
    judge: (typed) => {
      const day = dayMeant(typed, opened.asOf);
      return day === undefined
        ? { refused: `"${typed}" is not a day; write one such as 2026-03-08` }
        : takenAnswer([], day);
    },
  });
}

function changeQuestion(
  { lexicon }: ReviseErrand,
  recipe: FoundRecord,
  said: RevisionSaid,
): Question {
  const terms = changeTerms(recipe, said);
  return question({
    key: 'change',
    prompt: 'Change',
    about: 'such as kaolin 12, rutile 2.5% (on top of the base), without rutile',
    fallback: '',
    mayBeEmpty: said.changes.length > 0,
    isList: true,
    offers: termOffers(terms),
    judge: (typed) => {
      const made = revised(recipe, { ...said, changes: [...said.changes, typed] }, lexicon);
      if ('faults' in made) {
        const [fault] = made.faults;
        return { refused: fault ? `${fault.message}; ${fault.hint}` : '' };
      }
      return 'refused' in made ? made : takenAnswer([], typed);
    },
  });
}

/** The lines of the version before, to be changed. */
function changeTerms({ raw }: FoundRecord, { from }: RevisionSaid): readonly Term[] {
  const list = valueAt(raw, ['versions']);
  const versions = isList(list) ? list.filter(isMap) : [];
  const last = versions.findLast((version) => textUnder(version, 'from') < from);
  if (!last) return [];
  const { base, additions } = linesOfVersion(last);
  return [...base, ...additions].map(({ material, amount }) => ({
    word: `${material} ${amount}`,
    note: 'now',
  }));
}

function noteOfVersion(): Question {
  return question({
    key: 'note',
    prompt: 'Note',
    about: 'why, or what you hope for',
    fallback: '',
    judge: (typed) => takenAnswer([], typed),
  });
}

/** Shows the recipe with its new version. */
export function revisePreview(errand: ReviseErrand): Preview {
  const previewOf = (answers: readonly Answer[]): Preview | undefined => {
    const { recipe, ...said } = revisionAnswers(errand, answers);
    if (!recipe) return undefined;
    const made = revised(recipe, said, errand.lexicon);
    const amendments = 'amendment' in made ? [made.amendment] : [];
    return amendedPreview(errand.opened, recipe, () => amendments);
  };
  return {
    record: (answers) => previewOf(answers)?.record(answers, undefined),
    outlook: (answers) => previewOf(answers)?.outlook(answers) ?? NO_OUTLOOK,
  };
}
