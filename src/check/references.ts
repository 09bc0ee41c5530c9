/** References that lead nowhere or to a record of another kind. */
import type { FieldSpec } from '../../schema/generated/fields.js';
import { KINDS, type Kind, type NamedBook } from '../book.ts';
import type { Sited } from './finding.ts';
import type { EachScene, Mistyped } from './rule.ts';
import { faultFinder } from './walk.ts';

/** An id where no record of a wanted kind has it. */
export interface BadReference extends Mistyped {
  readonly record: Sited;
  readonly path: readonly (string | number)[];
  readonly isKey: boolean;
  /** The kind that does have a record of that id. */
  readonly elsewhere: Kind | undefined;
}

const findFaults = faultFinder({
  wants: (spec) => kindsNamed(spec) !== undefined,
  tester: (spec) => {
    const words = wordsOf(spec);
    const [first, ...others] = kindsNamed(spec) ?? [];
    return (value, book) => {
      const id = value as string;
      if (first !== undefined && book[first].has(id)) return true;
      return others.some((kind) => book[kind].has(id)) || words.includes(id);
    };
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

/** All references of a record that miss what they aim at. */
function missedBy(kind: Kind, record: Sited, book: NamedBook): readonly BadReference[] {
  return findFaults(kind, record, book).map(({ path, value, spec, isKey }) => {
    const id = String(value);
    const elsewhere = KINDS.find((each) => book[each].has(id));
    return { record, path, isKey, id, to: kindsNamed(spec) ?? [], words: wordsOf(spec), elsewhere };
  });
}

/** The record that was looked at last, for the next rule that asks about its references. */
const last = new WeakMap<EachScene, { record: Sited; found: readonly BadReference[] }>();

/** The same, worked out once for all rules that look at the record in one pass. */
export function badReferences(
  kind: Kind,
  record: Sited,
  scene: EachScene,
): readonly BadReference[] {
  const known = last.get(scene);
  if (known?.record === record) return known.found;
  const found = missedBy(kind, record, scene.book);
  if (known) Object.assign(known, { record, found });
  else last.set(scene, { record, found });
  return found;
}
