/** Looks at the values of one sort in every record, led by the field specs that the schemas give. */
import { FIELDS, type FieldSpec, type MapSpec } from '../../schema/generated/fields.js';
import { KINDS, type Book } from '../book.ts';
import type { Sited } from './finding.ts';

/** A value that did not pass. */
export interface Fault {
  readonly record: Sited;
  /** Below the record, as in the file. */
  readonly path: readonly (string | number)[];
  /** The typed value; of a map's key, the key. */
  readonly value: unknown;
  readonly spec: FieldSpec;
  readonly isKey: boolean;
}

/** Which values to look at, and whether one passes in a book. */
export interface Test {
  /** Of a map, the spec stands for its keys. */
  readonly wants: (spec: FieldSpec) => boolean;
  readonly tester: (book: Book) => IsSound;
}

type IsSound = (value: unknown, spec: FieldSpec) => boolean;

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

type Values = Readonly<Record<string, unknown>>;

/** A search for the values of all records that fail a test, in the order of kinds and records. */
export function faultFinder({ wants, tester }: Test): (book: Book) => readonly Fault[] {
  const nodes = KINDS.map((kind) => [kind, prune(FIELDS[kind], wants)] as const);
  return (book) => {
    const isSound = tester(book);
    return nodes.flatMap(([kind, node]) =>
      node === undefined ? [] : faultsOf([...book[kind].values()], node, isSound),
    );
  };
}

// Nearly every record passes, so paths are made only on a second look at one that does not.
function faultsOf(records: readonly Sited[], node: Node, isSound: IsSound): readonly Fault[] {
  return records
    .filter((record) => !isAllSound(node, record, isSound))
    .flatMap((record) => {
      const faults: Fault[] = [];
      gather({ record, path: [], isSound, faults }, node, record);
      return faults;
    });
}

function prune(spec: FieldSpec, wants: Test['wants']): Node | undefined {
  if (spec.type === 'record') return pruneFields(Object.entries(spec.fields), wants);
  if (spec.type === 'either') return prune(spec.record, wants) ?? prune(spec.other, wants);
  if (spec.type === 'map') return pruneMap(spec, wants);
  if (spec.type !== 'list') return wants(spec) ? { type: 'leaf', spec } : undefined;
  const of = prune(spec.of, wants);
  return of && { type: 'list', of };
}

function pruneMap(spec: MapSpec, wants: Test['wants']): Node | undefined {
  const of = prune(spec.of, wants);
  const keys = wants(spec) ? spec : undefined;
  return of || keys ? { type: 'map', of, keys } : undefined;
}

function pruneFields(
  entries: readonly (readonly [string, FieldSpec])[],
  wants: Test['wants'],
): Node | undefined {
  const fields = entries.flatMap(([name, spec]) => {
    const node = prune(spec, wants);
    return node === undefined ? [] : [{ name, key: camelCase(name), node }];
  });
  return fields.length === 0 ? undefined : { type: 'record', fields };
}

function camelCase(name: string): string {
  return name.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}

function isAllSound(node: Node, value: unknown, isSound: IsSound): boolean {
  switch (node.type) {
    case 'leaf':
      return isSound(value, node.spec);
    case 'list':
      return (value as readonly unknown[]).every((item) => isAllSound(node.of, item, isSound));
    case 'map':
      return partsOf(node, value).every((part) => isAllSound(part.node, part.value, isSound));
    case 'record':
      return node.fields.every(({ key, node: field }) => {
        const inner = (value as Values)[key];
        return inner === undefined || isAllSound(field, inner, isSound);
      });
  }
}

/** One step on the way from a record to its values. */
interface Part {
  readonly step: string | number;
  readonly node: Node;
  readonly value: unknown;
  readonly isKey?: boolean;
}

function partsOf(node: Node, value: unknown): readonly Part[] {
  switch (node.type) {
    case 'leaf':
      return [];
    case 'list':
      return (value as readonly unknown[]).map((item, step) => ({
        step,
        node: node.of,
        value: item,
      }));
    case 'map':
      return Object.entries(value as Values).flatMap(([step, item]) => [
        ...(node.keys ? [{ step, node: leaf(node.keys), value: step, isKey: true }] : []),
        ...(node.of ? [{ step, node: node.of, value: item }] : []),
      ]);
    case 'record':
      return node.fields.flatMap(({ name, key, node: field }) => {
        const inner = (value as Values)[key];
        return inner === undefined ? [] : [{ step: name, node: field, value: inner }];
      });
  }
}

function leaf(spec: FieldSpec): Node {
  return { type: 'leaf', spec };
}

interface Gathering {
  readonly record: Sited;
  readonly path: readonly (string | number)[];
  readonly isSound: IsSound;
  readonly faults: Fault[];
  readonly isKey?: boolean;
}

function gather(gathering: Gathering, node: Node, value: unknown): void {
  const { record, path, isSound, faults, isKey = false } = gathering;
  if (node.type === 'leaf') {
    const { spec } = node;
    if (!isSound(value, spec)) faults.push({ record, path, value, spec, isKey });
    return;
  }
  for (const part of partsOf(node, value))
    gather(
      { record, path: [...path, part.step], isSound, faults, isKey: part.isKey ?? false },
      part.node,
      part.value,
    );
}
