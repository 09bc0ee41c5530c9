/** Puts many answers in few: by how they begin, so that a shell shows a page and not ten thousand ids. */
import { grouped } from '../grouping.ts';
import type { Answer } from './answer-words.ts';

/**
 * The longest beginnings that are still no more than `most`, in the order of their first answers; an
 * answer that nothing else begins like stays whole.
 */
export function beginnings(answers: readonly Answer[], most: number): readonly Answer[] {
  const longest = answers.reduce((length, { word }) => Math.max(length, word.length), 0);
  let [length, kinds] = [0, 0];
  while (length < longest) {
    const more = startsOf(answers, length + 1, kinds > 1 ? most : Infinity);
    if (more === undefined) break;
    [length, kinds] = [length + 1, more];
  }
  return [...grouped(answers, ({ word }) => word.slice(0, length))].map(asOne);
}

/** How many beginnings of a length there are; undefined as soon as they are more than may be. */
function startsOf(answers: readonly Answer[], length: number, most: number): number | undefined {
  const starts = new Set<string>();
  for (const { word } of answers) {
    starts.add(word.slice(0, length));
    if (starts.size > most) return undefined;
  }
  return starts.size;
}

function asOne([start, [first, ...others]]: [string, readonly Answer[]]): Answer {
  if (!first || others.length === 0) return first ?? { word: start, about: '' };
  return { word: start, about: `${others.length + 1} that begin so` };
}
