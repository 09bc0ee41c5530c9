/** Puts many answers in few: by how they begin, so that a shell shows a page and not ten thousand ids. */
import type { Answer } from './answer-words.ts';

/**
 * The longest beginnings that are still no more than `most`, in the order of their first answers; an
 * answer that nothing else begins like stays whole.
 */
export function beginnings(answers: readonly Answer[], most: number): readonly Answer[] {
  let best: ReadonlyMap<string, readonly Answer[]> = new Map();
  const longest = Math.max(0, ...answers.map(({ word }) => word.length));
  for (let length = 1; length <= longest; length++) {
    const groups = grouped(answers, length);
    if (groups.size > most && best.size > 1) break;
    best = groups;
  }
  return [...best].map(asOne);
}

function grouped(answers: readonly Answer[], length: number): Map<string, Answer[]> {
  const groups = new Map<string, Answer[]>();
  for (const answer of answers) {
    const start = answer.word.slice(0, length);
    const group = groups.get(start);
    if (group) group.push(answer);
    else groups.set(start, [answer]);
  }
  return groups;
}

function asOne([start, [first, ...others]]: [string, readonly Answer[]]): Answer {
  if (!first || others.length === 0) return first ?? { word: start, about: '' };
  return { word: start, about: `${others.length + 1} that begin so` };
}
