/** Goes to the values of one sort in every record, led by the field specs that the schemas give. */
import { FIELDS, type FieldSpec, type MapSpec } from '../../schema/generated/fields.js';
import { KINDS, type Book, type Kind } from '../book.ts';
import type { Sited } from './finding.ts';

/** A value that was looked for, with its path below the record as in the file. */
export interface Visit {
  readonly kind: Kind;
  readonly record: Sited;
  /** The record's value: of a map's key, the key. */
  readonly value: unknown;
  readonly spec: FieldSpec;
  /** Grows and shrinks on the way: to be copied if it is kept. */
  readonly path: readonly (string | number)[];
  /** Whether the value is a key of a map. */
  readonly isKey: boolean;
}

/** Which values to go to: those whose spec it answers with true. Of a map the spec stands for its keys. */
export type Wanted = (spec: FieldSpec) => boolean;

/** What is left of a spec when only the wanted values count. */
type Node =
  | { readonly type: 'leaf'; readonly spec: FieldSpec }
  | { readonly type: 'list'; readonly of: Node }
  | { readonly type: 'map'; readonly of: Node | undefined; readonly keys: FieldSpec | undefined }
  | { readonly type: 'record'; readonly fields: readonly Field[] };

interface Field {
  /** As in the file. */
  readonly name: string;
  /** As in the typed record. */
  readonly key: string;
  readonly node: Node;
}

/** A walk over a book that hands every wanted value to the visitor, kind by kind in the book's order. */
export function walker(wanted: Wanted): (book: Book, visit: (found: Visit) => void) => void {
  const nodes = KINDS.map((kind) => [kind, prune(FIELDS[kind], wanted)] as const);
  return (book, visit) => {
    for (const [kind, node] of nodes) {
      if (node === undefined) continue;
      for (const record of book[kind].values())
        step({ kind, record, path: [], visit }, node, record);
    }
  };
}

function prune(spec: FieldSpec, wanted: Wanted): Node | undefined {
  if (spec.type === 'record') return pruneFields(Object.entries(spec.fields), wanted);
  if (spec.type === 'either') return prune(spec.record, wanted) ?? prune(spec.other, wanted);
  if (spec.type === 'map') return pruneMap(spec, wanted);
  if (spec.type !== 'list') return wanted(spec) ? { type: 'leaf', spec } : undefined;
  const of = prune(spec.of, wanted);
  return of && { type: 'list', of };
}

function pruneMap(spec: MapSpec, wanted: Wanted): Node | undefined {
  const of = prune(spec.of, wanted);
  const keys = wanted(spec) ? spec : undefined;
  return of || keys ? { type: 'map', of, keys } : undefined;
}

function pruneFields(
  entries: readonly (readonly [string, FieldSpec])[],
  wanted: Wanted,
): Node | undefined {
  const fields = entries.flatMap(([name, spec]) => {
    const node = prune(spec, wanted);
    return node === undefined ? [] : [{ name, key: camelCase(name), node }];
  });
  return fields.length === 0 ? undefined : { type: 'record', fields };
}

function camelCase(name: string): string {
  return name.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}

/** Where a walk is: the path is one list that grows and shrinks on the way. */
interface Walk {
  readonly kind: Kind;
  readonly record: Sited;
  readonly path: (string | number)[];
  readonly visit: (found: Visit) => void;
}

function step(walk: Walk, node: Node, value: unknown): void {
  if (value === undefined) return;
  switch (node.type) {
    case 'leaf':
      report(walk, node.spec, { value, isKey: false });
      return;
    case 'list':
      (value as readonly unknown[]).forEach((item, index) => {
        stepInto(walk, index, { node: node.of, value: item });
      });
      return;
    case 'map':
      stepThroughMap(walk, node, value as Readonly<Record<string, unknown>>);
      return;
    case 'record':
      stepThroughFields(walk, node.fields, value as Readonly<Record<string, unknown>>);
      return;
  }
}

function stepThroughFields(
  walk: Walk,
  fields: readonly Field[],
  values: Readonly<Record<string, unknown>>,
): void {
  for (const { name, key, node } of fields) {
    const value = values[key];
    if (value !== undefined) stepInto(walk, name, { node, value });
  }
}

function stepThroughMap(
  walk: Walk,
  { of, keys }: Extract<Node, { type: 'map' }>,
  values: Readonly<Record<string, unknown>>,
): void {
  for (const [key, value] of Object.entries(values)) {
    walk.path.push(key);
    if (keys !== undefined) report(walk, keys, { value: key, isKey: true });
    if (of !== undefined) step(walk, of, value);
    walk.path.pop();
  }
}

function stepInto(
  walk: Walk,
  key: string | number,
  { node, value }: { readonly node: Node; readonly value: unknown },
): void {
  walk.path.push(key);
  step(walk, node, value);
  walk.path.pop();
}

function report(
  { kind, record, path, visit }: Walk,
  spec: FieldSpec,
  { value, isKey }: { readonly value: unknown; readonly isKey: boolean },
): void {
  visit({ kind, record, value, spec, path, isKey });
}
