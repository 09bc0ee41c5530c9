/** The typed book of a random studio, and one with a record put in or taken out. */
import { KINDS, type Book, type Kind } from '../../../src/book.ts';
import { typeRecord, typeStudio } from '../../../src/check/typed.ts';
import type { RawMap } from '../../../src/read/raw.ts';
import type { RandomStudio } from '../../helpers/random-studio.ts';

export type AnyKind = Kind | 'studio';

/** Which record of a book. */
interface RecordName {
  readonly kind: AnyKind;
  readonly id: string;
}

const originOf = (id: string) => ({ id, file: 'book.yaml' });

export function bookOfStudio({ settings, records }: RandomStudio): Book {
  const kinds = KINDS.map((kind) => {
    const all = Object.entries(records[kind]);
    return [kind, new Map(all.map(([id, raw]) => [id, typeRecord(kind, raw, originOf(id))]))];
  });
  const studio = typeStudio(settings, 'studio.yaml');
  return { ...(Object.fromEntries(kinds) as Omit<Book, 'studio'>), studio };
}

export function bookWith(book: Book, { kind, id }: RecordName, record: RawMap): Book {
  if (kind === 'studio') return { ...book, studio: typeStudio(record, 'studio.yaml') };
  const others: ReadonlyMap<string, unknown> = book[kind];
  return { ...book, [kind]: new Map([...others, [id, typeRecord(kind, record, originOf(id))]]) };
}

export function bookWithout(book: Book, { kind, id }: { kind: Kind; id: string }): Book {
  const others = [...(book[kind] as ReadonlyMap<string, unknown>)].filter(([each]) => each !== id);
  return { ...book, [kind]: new Map(others) };
}
