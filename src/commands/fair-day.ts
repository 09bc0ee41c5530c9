/** Finds the fair and the day that end. */
import type { Book, Fair } from '../book.ts';
import { NOUN, withArticle } from '../check/finding.ts';
import type { FairDay } from '../entry/closing/count.ts';
import type { Lexicon } from '../entry/lexicon.ts';
import { isDay } from '../number/date.ts';
import { unknownId } from './ids.ts';
import { isRefusal, type Refusal } from './world.ts';

/** What is said of it, and the day that it is today. */
export interface SaidDay {
  readonly fair: string | undefined;
  readonly date: string | undefined;
  readonly asOf: string;
}

/** The fair by its id, else the only one that is held that day; its day as it is said, else today or its only one. */
export function askedFairDay(
  { book, lexicon }: { readonly book: Book; readonly lexicon: Lexicon },
  said: SaidDay,
): FairDay | Refusal {
  const fair = said.fair === undefined ? onlyFair(book, said) : fairOf(book, lexicon, said.fair);
  if (isRefusal(fair)) return fair;
  const { date: first, last = first } = fair;
  const today = said.asOf >= first && said.asOf <= last ? said.asOf : undefined;
  const day = said.date ?? today ?? (first === last ? first : undefined);
  const days = first === last ? first : `${first} to ${last}`;
  if (day === undefined)
    return { refused: `say which day of ${fair.id} ends with --date; it is ${days}` };
  if (!isDay(day)) return { refused: `--date: "${day}" is not a day; write one such as ${first}` };
  if (day < first || day > last)
    return { refused: `${fair.id} is ${days}, so no day of it is ${day}` };
  if (day > said.asOf) return { refused: `${fair.id} on ${day} is still to come` };
  return { fair, day };
}

function fairOf(book: Book, lexicon: Lexicon, id: string): Fair | Refusal {
  const named = lexicon.find(id);
  const fair = book.fairs.get(named?.id ?? id);
  if (fair) return fair;
  if (!named) return unknownId('fair', id, [...book.fairs.keys()]);
  if (named.kind === 'fairs')
    return { refused: `${named.id} has errors; run saggar check, and correct it first` };
  return { refused: `${named.id} is ${withArticle(NOUN[named.kind])}, not a fair` };
}

function onlyFair(book: Book, { date, asOf }: SaidDay): Fair | Refusal {
  const day = date ?? asOf;
  const held = [...book.fairs.values()].filter(
    ({ date: first, last = first }) => first <= day && day <= last,
  );
  const [only, ...others] = held;
  if (!only)
    return { refused: `no fair on record is held on ${day}; say which one ends with --fair` };
  if (others.length === 0) return only;
  const names = held.map(({ id, name }) => `${id} (${name})`);
  return { refused: `say which fair with --fair: ${names.join(' or ')}` };
}
