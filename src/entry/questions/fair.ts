/** A day at a fair: the float before the first line, and the count of the cash box after the last. */
import { decimal } from '../../number/decimal.ts';
import { NO_MONEY, add, less, opposite, total, type Money } from '../../number/money.ts';
import type { RawMap } from '../../read/raw.ts';
import { booked } from '../../reckon/booked.ts';
import { saleMoney } from '../../reckon/sales/sale-money.ts';
import { AMOUNT } from '../closing/said.ts';
import { draftId, lookAtDraft } from './draft.ts';
import { optionWords, recordOf, type Ground } from './ground.ts';
import { inMoney, saleAmounts } from './progress.ts';
import {
  answerText,
  isDone,
  question,
  takenAnswer,
  type Answer,
  type Question,
} from './question.ts';
import { channelKind } from './usual.ts';

/** Whether the record is a sale at a fair. */
export function isFair({ kind, lexicon }: Ground, fields: RawMap): boolean {
  return kind === 'sales' && channelKind(fields, lexicon) === 'fair';
}

/** Asks what was in the cash box before anything was sold; it is not written down. */
export function floatOfFair(ground: Ground): Question {
  return amountQuestion(ground, 'float', 'Cash in the box before the first sale');
}

/** The questions of the closing check that are left; undefined when the box is counted. */
export function checksOfFair(ground: Ground, answers: readonly Answer[]): Question | undefined {
  // A sale that came as options alone was not taken down at the stall.
  if (!isDone(answers, 'float')) return undefined;
  if (!isDone(answers, 'cash')) return amountQuestion(ground, 'cash', 'Cash in the box now');
  const isCardSaid = isDone(answers, 'card');
  if (!isCardSaid && !isDone(answers, 'cards')) return cardsQuestion(ground, answers);
  const counted = boxCount(ground, answers);
  const isAsked = counted !== '' && !isDone(answers, 'note') && !ground.words.includes('--note');
  return isAsked ? noteQuestion(counted) : undefined;
}

function amountQuestion({ opened }: Ground, key: string, prompt: string): Question {
  return question({
    key,
    prompt,
    about: `an amount in ${opened.book.studio.currency}; it is only checked, not written`,
    fallback: '',
    judge: (line) =>
      AMOUNT.test(line)
        ? takenAnswer([], line)
        : { refused: `"${line}" is not an amount; write digits, such as 312.50` },
  });
}

function cardsQuestion(ground: Ground, answers: readonly Answer[]): Question {
  const asked = amountQuestion(ground, 'cards', 'Taken by card');
  return {
    ...asked,
    judge: (line) => {
      const verdict = asked.judge(line);
      if ('refused' in verdict) return verdict;
      const answer = { ...verdict, key: 'cards', text: line, prompt: '', isList: false };
      // Else it stands above the question about a note.
      if (!ground.words.includes('--note')) return verdict;
      return { ...verdict, warning: boxCount(ground, [...answers, answer]) };
    },
  };
}

/** What was counted against what the lines make, in a sentence; empty where nothing was counted. */
function boxCount(ground: Ground, answers: readonly Answer[]): string {
  const [cash, cards, float] = ['cash', 'cards', 'float'].map((key) => answerText(answers, key));
  const { kind, opened } = ground;
  if (!cash && !cards) return '';
  const isCardSaid = isDone(answers, 'card');
  const id = draftId(kind);
  const { fields } = recordOf(ground, optionWords(ground, answers));
  const { book } = lookAtDraft(opened, { kind, id, fields });
  if (!book) return '';
  const amount = (text: string | undefined): Money =>
    text ? booked(book, decimal(text)) : NO_MONEY;
  const sale = book.sales.get(id);
  const byCard = sale && isCardSaid ? saleMoney(book, sale).card : amount(cards);
  const amounts = { cash: amount(cash), cards: byCard, float: amount(float) };
  // What was paid beforehand does not come into the box.
  const ahead = (sale?.advances ?? []).map((each) => booked(book, each.amount));
  const lines = less(total(saleAmounts(book, id)), total(ahead));
  return sentenceOf(amounts, lines, (each) => inMoney(book, each));
}

function sentenceOf(
  { cash, cards, float }: Readonly<Record<'cash' | 'cards' | 'float', Money>>,
  lines: Money,
  shown: (amount: Money) => string,
): string {
  const taken = add(less(cash, float), cards);
  const over = less(taken, lines);
  const difference =
    over === NO_MONEY
      ? 'it fits'
      : over > NO_MONEY
        ? `${shown(over)} over`
        : `${shown(opposite(over))} short`;
  return `Counted ${shown(cash)} cash less ${shown(float)} float and ${shown(cards)} by card makes ${shown(taken)}; the lines make ${shown(lines)}; ${difference}.`;
}

const YES_OR_WORDS = 'answer yes or no, or write a note of some words';

function noteQuestion(counted: string): Question {
  return question({
    key: 'note',
    prompt: 'Keep the count as a note of the sale?',
    about: counted,
    fallback: 'no',
    judge: (line) => {
      if (/^no?$/i.test(line)) return takenAnswer([], 'no');
      if (/^y(?:es)?$/i.test(line)) return takenAnswer(['--note', counted], line);
      return /\s/.test(line) ? takenAnswer(['--note', line], line) : { refused: YES_OR_WORDS };
    },
  });
}
