/** References that lead nowhere or to a record of another kind: found in one walk over the book. */
import type { FieldSpec } from '../../schema/generated/fields.js';
import { KINDS, type Book, type Kind } from '../book.ts';
import { once, type Sited } from './finding.ts';
import { faultFinder } from './walk.ts';

/** An id where no record of a wanted kind has it. */
export interface BadReference {
  readonly record: Sited;
  readonly path: readonly (string | number)[];
  readonly isKey: boolean;
  readonly id: string;
  /** The kinds that it may name. */
  readonly to: readonly Kind[];
  /** Words that may stand in its place. */
  readonly words: readonly string[];
  /** The kind that does have a record of that id. */
  readonly elsewhere: Kind | undefined;
}

const findFaults = faultFinder({
  wants: (spec) => kindsNamed(spec) !== undefined,
  tester: (spec, book) => {
    const records = (kindsNamed(spec) ?? []).map((kind) => book[kind]);
    const words = wordsOf(spec);
    return (id) => records.some((known) => known.has(id as string)) || words.includes(id as string);
  },
});

/** The kinds that a field or a map's keys may name. */
function kindsNamed(spec: FieldSpec): readonly Kind[] | undefined {
  if (spec.type === 'reference') return spec.to;
  return spec.type === 'map' ? spec.keysTo : undefined;
}

function wordsOf(spec: FieldSpec): readonly string[] {
  if (spec.type === 'map') return spec.keys ?? [];
  return 'words' in spec ? (spec.words ?? []) : [];
}

/** All references of the book that miss what they aim at, in the order of kinds and records. */
export const badReferences: (book: Book) => readonly BadReference[] = once((book) =>
  findFaults(book).map(({ record, path, value, spec, isKey }) => {
    const id = String(value);
    const elsewhere = KINDS.find((kind) => book[kind].has(id));
    return { record, path, isKey, id, to: kindsNamed(spec) ?? [], words: wordsOf(spec), elsewhere };
  }),
);
