/** Finds what a typed word names among all records of a studio, sound or not. */
import type { Kind } from '../book.ts';
import type { Raw, RawFile } from '../read/raw.ts';

/** A record as it stands in its file. */
export interface Named {
  readonly id: string;
  readonly kind: Kind;
  readonly file: string;
  readonly raw: Raw;
}

/** The records of a studio by id. */
export interface Lexicon {
  /** The record of that id; capitals count only where two ids differ by nothing else. */
  readonly find: (word: string) => Named | undefined;
  /** All ids of the kinds, in the order of the files. */
  readonly ids: (kinds: readonly Kind[]) => readonly string[];
}

/** Gathers the records of files; of two with one id the first counts. */
export function lexiconOf(files: readonly RawFile[]): Lexicon {
  const named = new Map<string, Named>();
  for (const each of files.flatMap(recordsOf)) if (!named.has(each.id)) named.set(each.id, each);
  const inSmall = lazily(
    () => new Map([...named.values()].map((each) => [each.id.toLowerCase(), each])),
  );
  return {
    find: (word) => named.get(word) ?? inSmall().get(word.toLowerCase()),
    ids: (kinds) =>
      [...named.values()].filter(({ kind }) => kinds.includes(kind)).map(({ id }) => id),
  };
}

function recordsOf({ file, kind, root }: RawFile): Named[] {
  if (kind === 'studio') return [];
  return Object.entries(root).map(([id, raw]) => ({ id, kind, file, raw }));
}

function lazily<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}
