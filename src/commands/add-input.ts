/** Reads the records that come on standard input. */
import type { Kind } from '../book.ts';
import { readGiven, STANDARD_INPUT, withoutMark } from '../entry/given.ts';
import { locate } from '../read/place.ts';
import { decodeText } from '../read/text.ts';
import type { Typed } from './add-typed.ts';
import type { Refusal } from './world.ts';

/** The records of a kind in a text, with what is wrong with it as YAML; `id` is for a single one. */
export async function fromInput(
  kind: Kind,
  bytes: Uint8Array,
  id: string | undefined,
): Promise<Typed | Refusal> {
  const text = decodeText(STANDARD_INPUT, Buffer.from(bytes));
  if (typeof text !== 'string') return { records: [], problems: await locate('', [text]) };
  const given = readGiven(kind, text);
  if ('refused' in given) return given;
  const problems = await locate('', given.findings);
  if (id === undefined) return { records: given.records, problems, text: withoutMark(text) };
  const [only, ...others] = given.records;
  if (!only || others.length > 0 || only.id !== undefined)
    return { refused: '--id is for a single record that has no id yet' };
  return { records: [{ id, fields: only.fields }], problems, text: withoutMark(text) };
}
