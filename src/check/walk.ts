/** Looks at the values of one sort in every record, led by the field specs that the schemas give. */
import { FIELDS, type FieldSpec, type MapSpec } from '../../schema/generated/fields.js';
import { KINDS, type Book, type Kind } from '../book.ts';
import { camelCase } from '../camel-case.ts';
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

/** Which values to look at, and how to tell in a book whether a value of such a spec passes. */
export interface Test {
  /** Of a map, the spec stands for its keys. */
  readonly wants: (spec: FieldSpec) => boolean;
  readonly tester: (spec: FieldSpec, book: Book) => Passes;
}

type Passes = (value: unknown) => boolean;

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
  // Made for a kind when the first book with records of it comes.
  const nodes = new Map<Kind, Node | undefined>();
  const nodeOf = (kind: Kind): Node | undefined => {
    if (!nodes.has(kind)) nodes.set(kind, prune(FIELDS[kind], wants));
    return nodes.get(kind);
  };
  return (book) => {
    const testerOf = (spec: FieldSpec): Passes => tester(spec, book);
    return KINDS.flatMap((kind) => {
      const node = book[kind].size === 0 ? undefined : nodeOf(kind);
      return node === undefined ? [] : faultsOf(book[kind], node, testerOf);
    });
  };
}

// Nearly every record passes, so paths are made only on a second look at one that does not.
function faultsOf(
  records: ReadonlyMap<string, Sited>,
  node: Node,
  testerOf: (spec: FieldSpec) => Passes,
): readonly Fault[] {
  const passes = wholeTest(node, testerOf);
  const faults: Fault[] = [];
  for (const record of records.values())
    if (!passes(record)) gather({ record, path: [], testerOf, faults }, node, record);
  return faults;
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

/** One function that tells whether all wanted values of a record pass. */
function wholeTest(node: Node, testerOf: (spec: FieldSpec) => Passes): Passes {
  switch (node.type) {
    case 'leaf':
      return testerOf(node.spec);
    case 'list': {
      const passes = wholeTest(node.of, testerOf);
      return (value) => (value as readonly unknown[]).every(passes);
    }
    case 'map': {
      const passes = node.of ? wholeTest(node.of, testerOf) : always;
      const keyPasses = node.keys ? testerOf(node.keys) : always;
      return (value) =>
        Object.entries(value as Values).every(([k, v]) => keyPasses(k) && passes(v));
    }
    case 'record':
      return fieldsTest(
        node.fields.map(({ key, node: of }) => ({ key, passes: wholeTest(of, testerOf) })),
      );
  }
}

function always(): boolean {
  return true;
}

function fieldsTest(fields: readonly { readonly key: string; readonly passes: Passes }[]): Passes {
  return (value) => {
    for (const { key, passes } of fields) {
      const inner = (value as Values)[key];
      if (inner !== undefined && !passes(inner)) return false;
    }
    return true;
  };
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
  readonly testerOf: (spec: FieldSpec) => Passes;
  readonly faults: Fault[];
  readonly isKey?: boolean;
}

function gather(gathering: Gathering, node: Node, value: unknown): void {
  const { record, path, testerOf, faults, isKey = false } = gathering;
  if (node.type === 'leaf') {
    const { spec } = node;
    if (!testerOf(spec)(value)) faults.push({ record, path, value, spec, isKey });
    return;
  }
  for (const part of partsOf(node, value))
    gather(
      { record, path: [...path, part.step], testerOf, faults, isKey: part.isKey ?? false },
      part.node,
      part.value,
    );
}
