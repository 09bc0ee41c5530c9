/** Which kinds of record a field refers to. */
import type { FieldSpec } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';

/** The kinds that a reference may name; none for any other field. */
export function referencesIn(spec: FieldSpec): readonly Kind[] {
  return spec.type === 'reference' ? spec.to : [];
}
