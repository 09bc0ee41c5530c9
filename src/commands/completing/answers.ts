/** How a command line can go on, and the studio that says so: read through its memory, not checked. */
import type { Kind } from '../../book.ts';
import { ID } from '../../check/schema.ts';
import { grouped } from '../../grouping.ts';
import type { StudioStore } from '../../memory/store.ts';
import { openMemory } from '../../read/kept/memory.ts';
import type { RawFile } from '../../read/raw.ts';
import { readStudio } from '../../read/read.ts';

/** One way to go on, and what it is about. */
export interface CompletionAnswer {
  readonly word: string;
  readonly about: string;
}

/** The studio that a line is about, if there is one, and where it is remembered, if anywhere. */
export interface KnownStudio {
  readonly folder: string | undefined;
  readonly store: StudioStore | undefined;
}

/** Files of some kinds; kind by kind, so that not all of a long life's records are held at once. */
export async function* filesOfKinds(
  { folder, store }: KnownStudio,
  kinds: readonly Kind[],
): AsyncGenerator<RawFile> {
  if (folder === undefined) return;
  const memory = openMemory(folder, store);
  for (const kind of kinds) {
    const reading = await readStudio(folder, { memory, kinds: [kind] });
    if (!('refused' in reading)) yield* reading.files;
  }
}

/** Whether it may be an id: one that no record may have could act on the terminal, so it is left out. */
export function isId(word: string): boolean {
  return ID.test(word);
}

/**
 * Many answers in few, so that a shell shows a page and not ten thousand ids: the longest beginnings that
 * are still no more than `most`, in the order of their first answers; an answer that nothing else begins
 * like stays whole.
 */
export function beginnings(
  answers: readonly CompletionAnswer[],
  most: number,
): readonly CompletionAnswer[] {
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
function startsOf(
  answers: readonly CompletionAnswer[],
  length: number,
  most: number,
): number | undefined {
  const starts = new Set<string>();
  for (const { word } of answers) {
    starts.add(word.slice(0, length));
    if (starts.size > most) return undefined;
  }
  return starts.size;
}

function asOne([start, [first, ...others]]: [
  string,
  readonly CompletionAnswer[],
]): CompletionAnswer {
  if (!first || others.length === 0) return first ?? { word: start, about: '' };
  return { word: start, about: `${others.length + 1} that begin so` };
}
