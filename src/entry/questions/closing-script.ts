/** The questions at the end of a fair day: what came back, the money, and what became of what is gone. */
import { NO_MONEY, less, type Money } from '../../number/money.ts';
import { mapping } from '../../read/raw.ts';
import { STUDIO_PLACE } from '../../reckon/ware/lot.ts';
import { closingOf, daySale, shouldBe, type Closing, type GoneRow } from '../closing/closing.ts';
import {
  countGone,
  hasReader,
  takingsOf,
  wareName,
  type FairDay,
  type FairWare,
  type WareRow,
} from '../closing/count.ts';
import { closingForm, closingSpec, readAmount, readWare } from '../closing/said.ts';
import { moneySentence, shownIn } from '../closing/words.ts';
import type { Lexicon } from '../lexicon.ts';
import type { OpenedStudio } from '../plan.ts';
import { wareAt } from './book-lines.ts';
import {
  answerText,
  isDone,
  question,
  takenAnswer,
  type Answer,
  type Question,
  type Script,
} from './question.ts';
import { inMoney } from './progress.ts';
import { sentenceOffers } from './sentence-offers.ts';

/** The day, its studio, and what options said already. */
interface Stall {
  readonly opened: OpenedStudio;
  readonly lexicon: Lexicon;
  readonly at: FairDay;
  readonly said: ReadonlyMap<string, readonly string[]>;
}

/** All questions about the day. */
export function closingScript(stall: Stall): Script {
  return (answers) =>
    tookQuestion(stall, answers) ??
    backQuestion(stall, answers) ??
    moneyQuestion(stall, answers) ??
    fateQuestion(stall, answers) ??
    discountQuestion(stall, answers);
}

/** What the answers say, as options and their values. */
export function closingWords(
  stall: Stall,
  answers: readonly Answer[],
): ReadonlyMap<string, readonly string[]> {
  const said = new Map(stall.said);
  for (const { gives } of answers)
    gives.forEach((word, index) => {
      const value = gives[index + 1];
      if (index % 2 === 0 && value !== undefined)
        said.set(word, [...(said.get(word) ?? []), value]);
    });
  if (!said.has('back')) said.set('back', ['none']);
  return said;
}

function tookQuestion(stall: Stall, answers: readonly Answer[]): Question | undefined {
  const { at, said, lexicon, opened } = stall;
  if (said.has('took') || at.fair.take || isDone(answers, 'took')) return undefined;
  const form = closingForm('took');
  const lines = answers.filter(({ key }) => key === 'took');
  const mine = readWare(
    'took',
    lines.map(({ text }) => text),
    lexicon,
  ).lines;
  const there = [...wareAt(opened.book, at.day, STUDIO_PLACE)].filter(
    ([product]) => !mine.some((ware) => ware.product === product),
  );
  const whole = there.map(([product, count]) => ({ word: `${count} ${product}`, note: 'here' }));
  return question({
    key: 'took',
    prompt: 'On the stall that morning',
    about: form.shape,
    fallback: '',
    mayBeEmpty: lines.length > 0,
    isList: true,
    offers: (line) => sentenceOffers({ form, spec: closingSpec('took'), lexicon, whole }, line),
    judge: (line) => {
      const [fault] = readWare('took', [line], lexicon).faults;
      return fault
        ? { refused: `${fault.message}; ${fault.hint}` }
        : takenAnswer(['took', line], line);
    },
  });
}

function tookOf(
  { lexicon }: Stall,
  words: ReadonlyMap<string, readonly string[]>,
): readonly FairWare[] | undefined {
  const took = words.get('took');
  return took && readWare('took', took, lexicon).lines;
}

/** The rows of all ware that was taken, with what came back so far. */
function rowsSoFar(stall: Stall, answers: readonly Answer[]): ReturnType<typeof countGone> {
  const words = closingWords(stall, answers);
  const back = readWare('back', words.get('back') ?? [], stall.lexicon).lines;
  return countGone(stall.opened.book, stall.at, { took: tookOf(stall, words), back });
}

function backQuestion(stall: Stall, answers: readonly Answer[]): Question | undefined {
  const rows = rowsSoFar(stall, answers);
  if ('refused' in rows) return undefined;
  const row = rows.find((each) => !isDone(answers, wareKey('back', each)) && each.taken > 0);
  if (!row) return undefined;
  const name = wareName(row);
  const sold = row.onRecord === 0 ? '' : `, ${row.onRecord} sold or gone on record`;
  return question({
    key: wareKey('back', row),
    prompt: `${name}: ${row.taken} taken${sold}; came back`,
    about: 'how many are there now',
    fallback: '0',
    judge: (line) => {
      if (!/^\d{1,6}$/.test(line)) return { refused: `"${line}" is not a count of pieces` };
      const verdict = takenAnswer(line === '0' ? [] : ['back', `${line} ${name}`], line);
      const answer = {
        ...verdict,
        key: wareKey('back', row),
        text: line,
        prompt: '',
        isList: false,
      };
      const after = rowsSoFar(stall, [...answers, answer]);
      return 'refused' in after ? after : verdict;
    },
  });
}

function wareKey(what: string, row: Omit<WareRow | FairWare, 'count'>): string {
  return `${what} ${wareName(row)}`;
}

const BEFORE = 'Cash in the box in the morning';

function moneyQuestion(stall: Stall, answers: readonly Answer[]): Question | undefined {
  const { said, opened, at } = stall;
  const { book } = opened;
  const isOpen = (key: string): boolean => !said.has(key) && !isDone(answers, key);
  if (isOpen('cash')) return amount(stall, { key: 'cash', prompt: 'Cash in the box now' });
  const isCounted = said.has('cash') || answerText(answers, 'cash') !== '';
  if (isCounted && isOpen('float'))
    return amount(stall, { key: 'float', prompt: BEFORE, fallback: shownIn(book)(NO_MONEY) });
  if (!isOpen('card')) return undefined;
  const { card } = takingsOf(book, at);
  const isNeeded = hasReader(book, at) || card > NO_MONEY;
  const fallback = isNeeded ? inMoney(book, card) : '';
  return amount(stall, { key: 'card', prompt: "The card reader's total of the day", fallback });
}

function amount(
  { opened: { book } }: Stall,
  asked: { readonly key: string; readonly prompt: string; readonly fallback?: string },
): Question {
  const { key, fallback = '' } = asked;
  return question({
    ...asked,
    fallback,
    about: `an amount in ${book.studio.currency}`,
    judge: (line) => {
      const read = readAmount(book, asked.prompt, line);
      return typeof read === 'object' ? read : takenAnswer([key, line], line);
    },
  });
}

/** The day as far as it is told; undefined where something in it is refused. */
function closingSoFar(stall: Stall, answers: readonly Answer[]): Closing | undefined {
  const { opened, lexicon, at } = stall;
  const { book } = opened;
  const words = closingWords(stall, answers);
  const [cash, float, card] = ['cash', 'float', 'card'].map((name) => {
    const read = readAmount(book, name, words.get(name)?.[0]);
    return typeof read === 'bigint' ? read : undefined;
  });
  const back = readWare('back', words.get('back') ?? [], lexicon).lines;
  const counted = { took: tookOf(stall, words), back, cash, float: float ?? NO_MONEY, card };
  const closing = closingOf({ book, lexicon }, at, counted);
  return 'refused' in closing ? undefined : closing;
}

function fateQuestion(stall: Stall, answers: readonly Answer[]): Question | undefined {
  const closing = closingSoFar(stall, answers);
  const row = closing?.gone.find(
    (each) => !isDone(answers, wareKey('sold', each)) || isMissingOpen(each, answers),
  );
  if (!closing || !row) return undefined;
  const soldKey = wareKey('sold', row);
  if (isDone(answers, soldKey))
    return fate(
      { row, to: 'missing', most: row.gone - soldOf(row, answers) },
      'the rest is left as it is',
    );
  const isFirst = !answers.some(({ key }) => key.startsWith('sold '));
  const sentence = isFirst ? moneySentence(stall.opened.book, closing) : '';
  const how = 'a count, or a count at a price, such as "2 at 25"';
  return fate(
    { row, to: 'sold', most: row.gone, shown: shownIn(stall.opened.book) },
    [sentence, how].filter((words) => words !== '').join(' Answer '),
  );
}

function soldOf(row: GoneRow, answers: readonly Answer[]): number {
  return Number.parseInt(answerText(answers, wareKey('sold', row)), 10);
}

function isMissingOpen(row: GoneRow, answers: readonly Answer[]): boolean {
  return soldOf(row, answers) < row.gone && !isDone(answers, wareKey('missing', row));
}

interface Fate {
  readonly row: GoneRow;
  readonly to: 'sold' | 'missing';
  readonly most: number;
  readonly shown?: (amount: Money) => string;
}

function fate({ row, to, most, shown }: Fate, about: string): Question {
  const name = wareName(row);
  const price = row.price === undefined || !shown ? '' : ` at ${shown(row.price)}`;
  const form = to === 'sold' ? /^(\d{1,6})( at \d+(?:\.\d+)?)?$/ : /^(\d{1,6})$/;
  return question({
    key: wareKey(to, row),
    prompt: `${name}: ${most} gone${price}; ${to}`,
    about,
    fallback: String(most),
    judge: (line) => {
      const [, count, at = ''] = form.exec(line) ?? [];
      if (count === undefined) return { refused: `"${line}" is not a count of pieces` };
      if (Number(count) > most) return { refused: `only ${most} are gone` };
      if (to === 'sold' && count !== '0' && row.price === undefined && at === '')
        return { refused: `${row.product} has no price; write one, as in "${count} at 25"` };
      return takenAnswer(count === '0' ? [] : [to, `${count} ${name}${at}`], line);
    },
  });
}

/** Asked only where there is less money than the sale makes it. */
function discountQuestion(stall: Stall, answers: readonly Answer[]): Question | undefined {
  const { opened, lexicon, said } = stall;
  const { book } = opened;
  if (isDone(answers, 'discount') || said.has('discount')) return undefined;
  const closing = closingSoFar(stall, answers);
  const lines = readWare('sold', closingWords(stall, answers).get('sold') ?? [], lexicon).lines;
  if (closing?.there === undefined || lines.length === 0) return undefined;
  const sale = daySale({ book, lexicon }, closing, { lines, more: mapping([]) });
  if ('refused' in sale) return undefined;
  const over = less(closing.there, less(shouldBe(closing), closing.usual), sale.due);
  if (over >= NO_MONEY) return undefined;
  return question({
    key: 'discount',
    prompt: `${shownIn(book)(less(NO_MONEY, over))} short; discount to write`,
    about: 'an amount or a percentage off the sale; Enter leaves the difference as it is',
    fallback: '',
    judge: (line) =>
      /^\d+(?:\.\d+)?%?$/.test(line)
        ? takenAnswer(['discount', line], line)
        : { refused: `"${line}" is not an amount or a percentage` },
  });
}
