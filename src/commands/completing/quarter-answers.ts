/** What a command line of `quarter` can go on with: the periods that the book has money in, and the tax sheets. */
import { TAX_SHEET_TITLES } from '../../../schema/generated/tax-sheet-titles.js';
import type { Kind } from '../../book.ts';
import { isDay } from '../../number/date.ts';
import { idsIn } from '../../read/kept/ids.ts';
import { SETTINGS_FILE } from '../../read/kinds.ts';
import { isMap, type Raw, type RawMap } from '../../read/raw.ts';
import { BUILT_IN_SHEETS, sheetFiles } from '../../read/tax-sheet.ts';
import { quarterOn } from '../../reckon/tax/tax-period.ts';
import { NET_PROFIT } from '../../reckon/tax/tax-sheet.ts';
import type { CompletionAnswer, KnownStudio } from './answers.ts';

/** Records that a tax summary has a figure of. */
const OF_MONEY: readonly Kind[] = ['bought', 'sales', 'advances', 'spent'];

/**
 * Each quarter with money in it, the latest first and its business year before the year's quarters. An
 * id with a day in it, as they are made, stands for its record: to read them all would take too long.
 */
export async function periodAnswers({
  folder,
  store,
}: KnownStudio): Promise<readonly CompletionAnswer[]> {
  if (folder === undefined) return [];
  const { ids, contentOf } = idsIn(folder, { store, kinds: OF_MONEY });
  const made = new Set<string>();
  const files = new Set<string>();
  for (const { id, file } of ids) {
    if (MADE_ID.test(id)) made.add(id.slice(1, 7));
    else files.add(file);
  }
  const days = new Set(
    [...made].flatMap((day) => dayIn(day.replace(/(..)(..)(..)/, '20$1-$2-$3'))),
  );
  for (const file of files) {
    for (const day of daysIn(await contentOf(file))) days.add(day);
  }
  const { 'year-starts': starts } = await contentOf(SETTINGS_FILE);
  return periodsOf(days, typeof starts === 'string' ? starts : undefined);
}

/** An id as `add` makes them: the kind's letter, the day, and letters by chance. */
const MADE_ID = /^[a-z]\d{6}[a-z]{2,}$/;

/** The days of the records, as they are dated and as they are paid. */
function daysIn(root: RawMap): string[] {
  return Object.values(root).flatMap((record) =>
    isMap(record) ? ['date', 'paid'].flatMap((field) => dayIn(record[field])) : [],
  );
}

function dayIn(raw: Raw | undefined): string[] {
  return typeof raw === 'string' && isDay(raw) ? [raw] : [];
}

function periodsOf(
  days: Iterable<string>,
  yearStarts: string | undefined,
): readonly CompletionAnswer[] {
  const periods = new Map<string, CompletionAnswer>();
  for (const day of [...days].sort().reverse()) {
    const quarter = quarterOn(day, yearStarts);
    if (quarter === undefined || periods.has(quarter.name)) continue;
    const { name, year, from, to } = quarter;
    if (!periods.has(year)) periods.set(year, { word: year, about: 'the whole business year' });
    periods.set(name, { word: name, about: `${from} to ${to}` });
  }
  return [...periods.values()];
}

/** The sheets that come with the program, then those in the studio. */
export function sheetAnswers({ folder }: KnownStudio): readonly CompletionAnswer[] {
  const own = folder === undefined ? [] : sheetFiles(folder, NET_PROFIT);
  return [
    ...BUILT_IN_SHEETS.map((word) => ({
      word,
      about: TAX_SHEET_TITLES[word] ?? 'the one of the year',
    })),
    ...own.filter((file) => SAFE_NAME.test(file)).map((word) => ({ word, about: 'of your own' })),
  ];
}

// A name with other characters could act on the terminal, or needs quotes that differ by shell.
const SAFE_NAME = /^[\p{L}\d][\p{L}\d._/-]*$/u;
