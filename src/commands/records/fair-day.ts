/** Finds the fair and the day that end. */
import type { Book, Day, Fair } from '../../book.ts';
import { NOUN, withArticle } from '../../check/finding.ts';
import type { FairDay } from '../../entry/closing/count.ts';
import { lexiconOf, type Lexicon } from '../../entry/lexicon.ts';
import { dayMeant, isDay } from '../../number/date.ts';
import { unknownId } from '../ids.ts';
import type { OpenedFiles } from '../studio/open.ts';
import { isRefusal, type Refusal } from '../world.ts';

/** The fair by its id, else the only one that is held that day; its day as it is said, else today or its only one. */
export function askedFairDay(
  { book, asOf, reading }: Pick<OpenedFiles, 'book' | 'asOf' | 'reading'>,
  said: { readonly fair: string | undefined; readonly date: string | undefined },
): FairDay | Refusal {
  const date = said.date === undefined ? undefined : (dayMeant(said.date, asOf) ?? said.date);
  const fair =
    said.fair === undefined
      ? onlyFair(book, date ?? asOf)
      : fairNamed(book, lexiconOf(reading.files), said.fair);
  if (isRefusal(fair)) return fair;
  const { date: first, last = first } = fair;
  const today = asOf >= first && asOf <= last ? asOf : undefined;
  const day = date ?? today ?? (first === last ? first : undefined);
  const days = first === last ? first : `${first} to ${last}`;
  if (day === undefined)
    return { refused: `say which day of ${fair.id} ends with --date; it is ${days}` };
  if (!isDay(day)) return { refused: `--date: "${day}" is not a day; write one such as ${first}` };
  if (day < first || day > last)
    return { refused: `${fair.id} is ${days}, so no day of it is ${day}` };
  if (day > asOf) return { refused: `${fair.id} on ${day} is still to come` };
  return { fair, day };
}

function fairNamed(book: Book, lexicon: Lexicon, id: string): Fair | Refusal {
  const named = lexicon.find(id);
  const fair = book.fairs.get(named?.id ?? id);
  if (fair) return fair;
  if (!named) return unknownId('fair', id, book.fairs.values());
  if (named.kind === 'fairs')
    return { refused: `${named.id} has errors; run saggar check, and correct it first` };
  return { refused: `${named.id} is ${withArticle(NOUN[named.kind])}, not a fair` };
}

function onlyFair(book: Book, day: Day): Fair | Refusal {
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
