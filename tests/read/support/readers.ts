/** The program's two readers and two foreign ones, so that they can be held against each other. */
import { FAILSAFE_SCHEMA, load } from 'js-yaml';
import { isAlias, isMap, isScalar, isSeq, parseAllDocuments, type Document } from 'yaml';
import { parseText } from '../../../src/read/yaml/parse.ts';
import type { Raw, RawMap } from '../../../src/read/raw.ts';
import { scan, type Scanned } from '../../../src/read/yaml/scan.ts';

/** Some keys under which numbers may stand, and some others that the tests use are not among them. */
export const NUMBER_KEYS: ReadonlySet<string> = new Set(['count', 'price', 'made', 'hours']);

const OPTIONS = { numberKeys: NUMBER_KEYS };

/** A reader's content as plain data, or undefined where it does not take the text. */
export type Reads = (text: string) => unknown;

export const fast = (text: string): Scanned | undefined => scan(text, OPTIONS);

export const full = (text: string): ReturnType<typeof parseText> =>
  parseText({ file: 'sales.yaml', text }, OPTIONS);

/** Content without its prototypes, keys in their order: so that readers can be compared. */
export function plainly(raw: Raw): unknown {
  if (typeof raw === 'string') return raw;
  if (Array.isArray(raw)) return (raw as readonly Raw[]).map(plainly);
  return asObject(Object.entries(raw as RawMap).map(([key, value]) => [key, plainly(value)]));
}

// JavaScript puts keys that are whole numbers first, in whatever order they come.
function asObject(entries: readonly (readonly [unknown, unknown])[]): unknown {
  return Object.entries(Object.fromEntries(entries.map(([key, value]) => [String(key), value])));
}

/** The yaml package on the whole text at once, none of our code between. */
export const yamlPackage: Reads = (text) => {
  const documents = parseAllDocuments(text, { schema: 'failsafe', prettyErrors: false });
  if (!Array.isArray(documents) || documents.length > 1) return undefined;
  const [document] = documents as Document.Parsed[];
  if (document === undefined) return [];
  if (document.errors.length > 0) return undefined;
  return document.contents === null ? [] : contentOf(document.contents);
};

function contentOf(node: unknown): unknown {
  if (isAlias(node)) return '*alias';
  if (isScalar(node)) return node.source ?? '';
  if (isSeq(node)) return node.items.map(contentOf);
  if (isMap(node))
    return asObject(node.items.map((pair) => [contentOf(pair.key), contentOf(pair.value)]));
  return '';
}

/** js-yaml on the whole text at once. */
export const jsYaml: Reads = (text) => {
  try {
    return entriesOf(load(text, { schema: FAILSAFE_SCHEMA }));
  } catch {
    return undefined;
  }
};

function entriesOf(value: unknown): unknown {
  if (value === null || value === undefined) return '';
  if (Array.isArray(value)) return value.map(entriesOf);
  if (typeof value !== 'object') return value;
  return Object.entries(value).map(([key, inner]) => [key, entriesOf(inner)]);
}

/** What a text is to a fast reader under test: taken or not, and where it was held against the others. */
export interface Verdict {
  readonly taken: boolean;
  /** The first reader that disagrees, with both readings; undefined when all agree. */
  readonly disagreement?: {
    readonly reader: string;
    readonly ours: unknown;
    readonly theirs: unknown;
  };
}

/** Holds what a fast reader takes against the full reader, the yaml package and js-yaml. */
export function judge(text: string, reader: (text: string) => RawMap | undefined): Verdict {
  const root = reader(text);
  if (root === undefined) return { taken: false };
  const ours = plainly(root);
  for (const [name, reads] of Object.entries(OTHERS)) {
    const theirs = reads(text);
    if (!isSame(ours, theirs)) return { taken: true, disagreement: { reader: name, ours, theirs } };
  }
  return { taken: true };
}

const OTHERS: Readonly<Record<string, Reads>> = {
  'full reader': (text) => {
    const { root, findings } = full(text);
    return findings.length > 0 ? findings : plainly(root);
  },
  'yaml package': yamlPackage,
  'js-yaml': (text) => {
    const value = jsYaml(text);
    return value === '' ? [] : value;
  },
};

function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
