/** Books for tests, from the YAML of a studio's files; every scalar is the text that stands there. */
import { FAILSAFE_SCHEMA, load } from 'js-yaml';
import { KINDS, type Book, type Kind } from '../../src/book.ts';
import { typeRecord, typeStudio } from '../../src/check/typed.ts';
import type { RawMap } from '../../src/read/raw.ts';

/** Texts of a studio's files, by kind or as `studio`. */
export type Files = Partial<Record<Kind | 'studio', string>>;

const SETTINGS = 'format: 1\nname: Test studio\ncurrency: USD\n';

/** A book of records that are taken to be sound; settings that aren't given are plain ones in USD. */
export function bookFrom(files: Files): Book {
  const studio = typeStudio(mapOf(files.studio ?? SETTINGS), 'studio.yaml');
  const kinds = KINDS.map((kind) => [kind, recordsOf(kind, files[kind] ?? '')] as const);
  return { studio, ...Object.fromEntries(kinds) } as unknown as Book;
}

function recordsOf(kind: Kind, text: string): Map<string, unknown> {
  const file = `${kind}.yaml`;
  const records = Object.entries(mapOf(text));
  return new Map(records.map(([id, raw]) => [id, typeRecord(kind, raw as RawMap, { id, file })]));
}

function mapOf(text: string): RawMap {
  return (load(text, { schema: FAILSAFE_SCHEMA }) ?? {}) as RawMap;
}
