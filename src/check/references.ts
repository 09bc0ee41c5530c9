/** References that lead nowhere or to a record of another kind: found in one walk over the book. */
import type { FieldSpec } from '../../schema/generated/fields.js';
import { KINDS, type Book, type Kind } from '../book.ts';
import { once, type Sited } from './finding.ts';
import { walker } from './walk.ts';

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

/** The kinds that a field or a map's keys may name, and the words that may stand in their place. */
interface Aim {
  readonly to: readonly Kind[];
  readonly words: readonly string[];
}

function aimOf(spec: FieldSpec): Aim | undefined {
  if (spec.type === 'reference') return { to: spec.to, words: spec.words ?? [] };
  if (spec.type === 'map' && spec.keysTo) return { to: spec.keysTo, words: spec.keys ?? [] };
  return undefined;
}

const walk = walker((spec) => aimOf(spec) !== undefined);

/** All references of the book that miss what they aim at, in the order of kinds and records. */
export const badReferences: (book: Book) => readonly BadReference[] = once((book) => {
  const bad: BadReference[] = [];
  walk(book, ({ record, value: id, spec, path, isKey }) => {
    const aim = aimOf(spec);
    if (aim === undefined || typeof id !== 'string' || isMet(book, aim, id)) return;
    const elsewhere = KINDS.find((kind) => book[kind].has(id));
    bad.push({ record, path: [...path], isKey, id, ...aim, elsewhere });
  });
  return bad;
});

function isMet(book: Book, { to, words }: Aim, id: string): boolean {
  return to.some((kind) => book[kind].has(id)) || words.includes(id);
}
