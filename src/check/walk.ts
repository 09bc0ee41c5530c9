/** Looks at the values of one sort in a record, led by the field specs that the schemas give. */
import { FIELDS, type FieldSpec, type MapSpec } from '../../schema/generated/fields.js';
import type { Kind, NamedBook } from '../book.ts';
import { camelCase } from '../camel-case.ts';
import type { Sited } from './finding.ts';

/** A value that did not pass. */
export interface FieldFault {
  readonly record: Sited;
  /** Below the record, as in the file. */
  readonly path: readonly (string | number)[];
  /** The typed value; of a map's key, the key. */
  readonly value: unknown;
  readonly spec: FieldSpec;
  readonly isKey: boolean;
}

/** Which values to look at, and how to tell in a book whether a value of such a spec passes. */
export interface FieldTest {
  /** Of a map, the spec stands for its keys. */
  readonly wants: (spec: FieldSpec) => boolean;
  readonly tester: (spec: FieldSpec) => ValuePasses;
}

type ValuePasses = (value: unknown, book: NamedBook) => boolean;

/** What is left of a spec when only the wanted values count. */
type Node =
  | { readonly type: 'leaf'; readonly spec: FieldSpec }
  | { readonly type: 'list'; readonly of: Node }
  | { readonly type: 'map'; readonly of: Node | undefined; readonly keys: FieldSpec | undefined }
  | { readonly type: 'record'; readonly fields: readonly WalkedField[] };

interface WalkedField {
  /** As in the file. */
  readonly name: string;
  /** As in the typed record. */
  readonly key: string;
  readonly node: Node;
}

type Values = Readonly<Record<string, unknown>>;

/** What is led by the specs of a kind. */
interface Guide {
  readonly node: Node;
  readonly passes: ValuePasses;
}

const NO_FAULTS: readonly FieldFault[] = [];

/** A search for the values of a record that fail a test. */
export function faultFinder({
  wants,
  tester,
}: FieldTest): (kind: Kind, record: Sited, book: NamedBook) => readonly FieldFault[] {
  // Made for a kind when the first record of it comes.
  const guides = new Map<Kind, Guide | undefined>();
  const guideOf = (kind: Kind): Guide | undefined => {
    const node = prune(FIELDS[kind], wants);
    const guide = node && { node, passes: wholeTest(node, tester) };
    guides.set(kind, guide);
    return guide;
  };
  return (kind, record, book) => {
    const guide = guides.has(kind) ? guides.get(kind) : guideOf(kind);
    // Nearly every record passes, so paths are made only on a second look at one that does not.
    if (guide === undefined || guide.passes(record, book)) return NO_FAULTS;
    const faults: FieldFault[] = [];
    gather({ record, path: [], tester, book, faults }, guide.node, record);
    return faults;
  };
}

function prune(spec: FieldSpec, wants: FieldTest['wants']): Node | undefined {
  if (spec.type === 'record') return pruneFields(Object.entries(spec.fields), wants);
  if (spec.type === 'either') return prune(spec.record, wants) ?? prune(spec.other, wants);
  if (spec.type === 'map') return pruneMap(spec, wants);
  if (spec.type !== 'list') return wants(spec) ? { type: 'leaf', spec } : undefined;
  const of = prune(spec.of, wants);
  return of && { type: 'list', of };
}

function pruneMap(spec: MapSpec, wants: FieldTest['wants']): Node | undefined {
  const of = prune(spec.of, wants);
  const keys = wants(spec) ? spec : undefined;
  return of || keys ? { type: 'map', of, keys } : undefined;
}

function pruneFields(
  entries: readonly (readonly [string, FieldSpec])[],
  wants: FieldTest['wants'],
): Node | undefined {
  const fields = entries.flatMap(([name, spec]) => {
    const node = prune(spec, wants);
    return node === undefined ? [] : [{ name, key: camelCase(name), node }];
  });
  return fields.length === 0 ? undefined : { type: 'record', fields };
}

/** One function that tells whether all wanted values of a record pass. */
function wholeTest(node: Node, tester: FieldTest['tester']): ValuePasses {
  switch (node.type) {
    case 'leaf':
      return tester(node.spec);
    case 'list':
      return itemsTest(wholeTest(node.of, tester));
    case 'map': {
      const passes = node.of ? wholeTest(node.of, tester) : always;
      const keyPasses = node.keys ? tester(node.keys) : always;
      return (value, book) =>
        Object.entries(value as Values).every(([k, v]) => keyPasses(k, book) && passes(v, book));
    }
    case 'record':
      return fieldsTest(
        node.fields.map(({ key, node: of }) => ({ key, passes: wholeTest(of, tester) })),
      );
  }
}

function always(): boolean {
  return true;
}

function itemsTest(passes: ValuePasses): ValuePasses {
  return (value, book) => {
    for (const item of value as readonly unknown[]) if (!passes(item, book)) return false;
    return true;
  };
}

function fieldsTest(
  fields: readonly { readonly key: string; readonly passes: ValuePasses }[],
): ValuePasses {
  return (value, book) => {
    for (const { key, passes } of fields) {
      const inner = (value as Values)[key];
      if (inner !== undefined && !passes(inner, book)) return false;
    }
    return true;
  };
}

/** One step on the way from a record to its values. */
interface SpecPart {
  readonly step: string | number;
  readonly node: Node;
  readonly value: unknown;
  readonly isKey?: boolean;
}

function specParts(node: Node, value: unknown): readonly SpecPart[] {
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
        ...(node.keys
          ? [{ step, node: { type: 'leaf' as const, spec: node.keys }, value: step, isKey: true }]
          : []),
        ...(node.of ? [{ step, node: node.of, value: item }] : []),
      ]);
    case 'record':
      return node.fields.flatMap(({ name, key, node: field }) => {
        const inner = (value as Values)[key];
        return inner === undefined ? [] : [{ step: name, node: field, value: inner }];
      });
  }
}

interface Gathering {
  readonly record: Sited;
  readonly path: readonly (string | number)[];
  readonly tester: FieldTest['tester'];
  readonly book: NamedBook;
  readonly faults: FieldFault[];
  readonly isKey?: boolean;
}

function gather(gathering: Gathering, node: Node, value: unknown): void {
  const { record, path, tester, book, faults, isKey = false } = gathering;
  if (node.type === 'leaf') {
    const { spec } = node;
    if (!tester(spec)(value, book)) faults.push({ record, path, value, spec, isKey });
    return;
  }
  for (const part of specParts(node, value))
    gather(
      { ...gathering, path: [...path, part.step], isKey: part.isKey ?? false },
      part.node,
      part.value,
    );
}
