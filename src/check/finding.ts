/** What rules share: places in records, one pass over the records of a kind, and the kinds' nouns. */
import type { Kind } from '../book.ts';
import type { Finding, Spot } from '../problem.ts';

/** Anything that knows its id and its file: a record of whatever kind. */
export interface Sited {
  readonly id: string;
  readonly file: string;
}

/** The place of a value in a record, or in the settings, which have no id: keys and list indexes, as in the file. */
export function spot(record: Sited, ...path: (string | number)[]): Spot {
  return { file: record.file, path: record.id === '' ? path : [record.id, ...path] };
}

/** The place of a record's id, or of a key in the record. */
export function keySpot(record: Sited, ...path: (string | number)[]): Spot {
  return { file: record.file, path: [record.id, ...path], on: 'key' };
}

/** What a rule says of one spot; the rule's name and severity are added where the rules are run. */
export interface RuleFinding {
  readonly at: Spot;
  readonly message: string;
  readonly hint: string;
  readonly related?: NonNullable<Finding['related']>;
  readonly concerns?: NonNullable<Finding['concerns']>;
  readonly figure?: NonNullable<Finding['figure']>;
}

/** Takes one finding. */
export type Say = (finding: RuleFinding) => void;

/** What a look at each of some records finds, in the records' order. */
export function findEach<T>(
  records: { readonly values: () => Iterable<T> },
  look: (record: T, say: Say) => void,
): readonly RuleFinding[] {
  const found: RuleFinding[] = [];
  const say = (finding: RuleFinding): void => {
    found.push(finding);
  };
  for (const record of records.values()) look(record, say);
  return found;
}

/** Each item that has the key of an earlier one, with the first that has it. */
export function twice<T>(items: Iterable<T>, keyOf: (item: T) => string): [later: T, first: T][] {
  const known = new Map<string, T>();
  const found: [T, T][] = [];
  for (const item of items) {
    const key = keyOf(item);
    const first = known.get(key);
    if (first === undefined) known.set(key, item);
    else found.push([item, first]);
  }
  return found;
}

/** Looks at what a definition states: the definition itself, then each of its changes with its place. */
export function eachStating<T extends { readonly changes?: readonly object[] }>(
  definition: T,
  look: (stated: T | NonNullable<T['changes']>[number], path: readonly (string | number)[]) => void,
): void {
  look(definition, []);
  definition.changes?.forEach((change, index) => {
    look(change, ['changes', index]);
  });
}

/** What one record of a kind is called in a sentence. */
export const NOUN: Readonly<Record<Kind, string>> = {
  materials: 'material',
  recipes: 'recipe',
  products: 'product',
  classes: 'class',
  kilns: 'kiln',
  tariffs: 'tariff',
  channels: 'channel',
  bought: 'purchase',
  reclaimed: 'reclaim',
  mixed: 'mix',
  pieces: 'lot',
  firings: 'firing',
  used: 'use',
  counted: 'stocktake',
  orders: 'order',
  sales: 'sale',
  advances: 'advance',
  consigned: 'consignment',
  fairs: 'fair',
  spent: 'expense',
  tests: 'test',
  filed: 'filing',
};

/** A noun with `a` or `an`: `an expense`. */
export function withArticle(noun: string): string {
  return `${/^[aeio]/.test(noun) ? 'an' : 'a'} ${noun}`;
}

/** Names in a sentence: `a`, `a and b`, `a, b and c`. */
export function listed(names: readonly string[], word: 'and' | 'or' = 'and'): string {
  const last = names.at(-1) ?? '';
  if (names.length < 2) return last;
  return `${names.slice(0, -1).join(', ')} ${word} ${last}`;
}
