/** What became of a book's records from one state of it to another, whatever file they stand in. */
import { FIELDS } from '../../schema/generated/fields.js';
import { KINDS, type Book, type Entry, type Kind, type Studio } from '../book.ts';
import { dayOfRecord } from './days.ts';
import { fieldChanges, type FieldChange } from './fields.ts';
import { type TypedFields, meaningOf, referencesIn } from './value.ts';

/**
 * What became of a record: it came, its values are others, it is gone, it only stands in another file,
 * it has another id; or it is there but has faults that keep it out of the book, or had such before.
 */
export type Became = 'added' | 'changed' | 'removed' | 'moved' | 'renamed' | 'unsound' | 'sound';

/** One record, or the settings (whose id is empty), before and after. */
export interface RecordChange {
  readonly kind: Kind | 'studio';
  /** Its id now, or the last one that it had. */
  readonly id: string;
  readonly became: Became;
  /** The id that it had before, where it was renamed. */
  readonly was?: string;
  readonly before: Entry | undefined;
  readonly after: Entry | undefined;
  readonly fields: readonly FieldChange[];
  /** References that only follow the renaming of what they name; not among the fields. */
  readonly follows: readonly FieldChange[];
}

/**
 * Every record that is not what it was, by kind and then by id; settings come last. Values are compared
 * by what they mean: how they are written, their order, comments and files make no difference to it.
 * Only sound records are in a book, so one that is no longer sound counts as removed here; see
 * `withFaulty`.
 */
export function changesSince(old: Book, now: Book): readonly RecordChange[] {
  const apart = KINDS.map((kind) => differencesOf(kind, old, now));
  const changes = apart.flatMap(({ pairs }) => pairs);
  const renamed = renamesIn(apart, changes);
  const kinds = apart.flatMap((each) => [
    ...withoutRenamed(each, renamed),
    ...renamed.changes.filter(({ kind }) => kind === each.kind),
  ]);
  return [
    ...kinds.map((change) => following(change, renamed.ids)).filter(isAny),
    ...settings(old, now),
  ];
}

/** Records of one kind that are in both books but not the same, and in one of them only. */
interface Apart {
  readonly kind: Kind;
  readonly pairs: readonly RecordChange[];
  readonly gone: ReadonlyMap<string, Entry>;
  readonly come: ReadonlyMap<string, Entry>;
}

function differencesOf(kind: Kind, old: Book, now: Book): Apart {
  const before: ReadonlyMap<string, Entry> = old[kind];
  const after: ReadonlyMap<string, Entry> = now[kind];
  const pairs: RecordChange[] = [];
  const come = new Map<string, Entry>();
  // Most records are the very same in both: nothing is made of those.
  for (const [id, record] of after) {
    const was = before.get(id);
    if (was === undefined) come.set(id, record);
    else if (was !== record) pairs.push(...pairOf(kind, was, record));
  }
  const gone = new Map<string, Entry>();
  for (const [id, record] of before) if (!after.has(id)) gone.set(id, record);
  return { kind, pairs, gone, come };
}

function pairOf(kind: Kind, before: Entry, after: Entry): RecordChange[] {
  const fields = contentChanges(kind, before, after);
  const common = { kind, id: after.id, before, after, fields, follows: [] };
  if (fields.length > 0) return [{ ...common, became: 'changed' }];
  return before.file === after.file ? [] : [{ ...common, became: 'moved' }];
}

function contentChanges(kind: Kind, before: Entry, after: Entry): FieldChange[] {
  const pair = { before: { ...before } as TypedFields, after: { ...after } as TypedFields };
  return fieldChanges(FIELDS[kind], pair);
}

/** Which ids stand for which new ones, and the records that bear them. */
interface Renames {
  /** Kind and old id → new id. */
  readonly ids: ReadonlyMap<string, string>;
  readonly changes: readonly RecordChange[];
}

/** Joins a kind and an id to one key. */
function kindAndId(kind: string, id: string): string {
  return `${kind} ${id}`;
}

/**
 * A record was renamed where one is gone and one of the same content came; or where other records name
 * the one that came in the place of the one that is gone.
 */
function renamesIn(apart: readonly Apart[], changes: readonly RecordChange[]): Renames {
  const named = namedInstead(changes);
  const renames = apart.flatMap(({ kind, gone, come }) => {
    const waiting = new Map([...come].map(([id, entry]) => [id, meaningOfRecord(kind, entry)]));
    return [...gone].flatMap(([was, before]) => {
      const content = meaningOfRecord(kind, before);
      const instead = named.get(kindAndId(kind, was));
      const id =
        instead !== undefined && waiting.has(instead)
          ? instead
          : [...waiting].find(([, other]) => other === content)?.[0];
      const after = come.get(id ?? '');
      if (id === undefined || !after) return [];
      waiting.delete(id);
      const fields = contentChanges(kind, before, after);
      return [{ kind, id, became: 'renamed' as const, was, before, after, fields, follows: [] }];
    });
  });
  return {
    ids: new Map(renames.map(({ kind, was, id }) => [kindAndId(kind, was), id])),
    changes: renames,
  };
}

function meaningOfRecord(kind: Kind, entry: Entry): string {
  return meaningOf(FIELDS[kind], { ...entry });
}

/** Kind and old id → the new id that changed references agree on. */
function namedInstead(changes: readonly RecordChange[]): ReadonlyMap<string, string> {
  const fields = changes.flatMap((change) => change.fields);
  const pairs = fields.flatMap(({ spec, before, after }) =>
    typeof before === 'string' && typeof after === 'string'
      ? referencesIn(spec).map((kind): [string, string] => [kindAndId(kind, before), after])
      : [],
  );
  return new Map(pairs);
}

function withoutRenamed({ kind, pairs, gone, come }: Apart, { ids }: Renames): RecordChange[] {
  const taken = new Set([...ids].filter(([key]) => key.startsWith(`${kind} `)).map(([, id]) => id));
  const added = [...come.values()].filter(({ id }) => !taken.has(id));
  const removed = [...gone.values()].filter(({ id }) => !ids.has(kindAndId(kind, id)));
  const common = { kind, fields: [], follows: [] };
  return [
    ...removed.map((before) => ({
      ...common,
      id: before.id,
      became: 'removed' as const,
      before,
      after: undefined,
    })),
    ...pairs,
    ...added.map((after) => ({
      ...common,
      id: after.id,
      became: 'added' as const,
      before: undefined,
      after,
    })),
  ];
}

/** Sets apart the references that only follow a renaming. */
function following(change: RecordChange, ids: Renames['ids']): RecordChange {
  const follows = change.fields.filter((field) => isFollowing(field, ids));
  if (follows.length === 0) return change;
  return { ...change, fields: change.fields.filter((field) => !follows.includes(field)), follows };
}

function isFollowing({ spec, before, after }: FieldChange, ids: Renames['ids']): boolean {
  return referencesIn(spec).some((kind) => ids.get(kindAndId(kind, String(before))) === after);
}

function isAny({ became, fields, follows }: RecordChange): boolean {
  return became !== 'changed' || fields.length > 0 || follows.length > 0;
}

function settings({ studio: before }: Book, { studio: after }: Book): RecordChange[] {
  const fields = fieldChanges(FIELDS.studio, { before: { ...before }, after: { ...after } });
  if (fields.length === 0) return [];
  const entry = ({ file, changes }: Studio): Entry & Pick<Studio, 'changes'> => ({
    id: '',
    file,
    ...(changes ? { changes } : {}),
  });
  return [
    {
      kind: 'studio',
      id: '',
      became: 'changed',
      before: entry(before),
      after: entry(after),
      fields,
      follows: [],
    },
  ];
}

/** What a book leaves out for its faults. */
export interface Faulty {
  readonly ids: ReadonlySet<string>;
  /** Files that could not be read whole. */
  readonly files: ReadonlySet<string>;
}

/** The changes, where a record that is only left out for a fault in one of the books is not gone or new. */
export function withFaulty(
  changes: readonly RecordChange[],
  { old, now }: { readonly old: Faulty; readonly now: Faulty },
): readonly RecordChange[] {
  const isIn = ({ ids, files }: Faulty, entry: Entry | undefined): boolean =>
    entry !== undefined && (ids.has(entry.id) || files.has(entry.file));
  return changes.map((change) => {
    if (change.became === 'removed' && isIn(now, change.before))
      return { ...change, became: 'unsound' };
    if (change.became === 'added' && isIn(old, change.after)) return { ...change, became: 'sound' };
    return change;
  });
}

/**
 * For every new event that says just what an event of the same day says that was there before, the id of
 * that one: it may be written down twice.
 */
export function twinsOf(
  old: Book,
  changes: readonly RecordChange[],
): ReadonlyMap<RecordChange, string> {
  const added = changes.filter(
    ({ became, after }) => became === 'added' && dayOfRecord(after) !== undefined,
  );
  const twins = new Map<RecordChange, string>();
  for (const change of added) {
    const twin =
      change.kind === 'studio' || !change.after
        ? undefined
        : twinIn(old[change.kind], change.kind, change.after);
    if (twin !== undefined) twins.set(change, twin);
  }
  return twins;
}

function twinIn(records: ReadonlyMap<string, Entry>, kind: Kind, entry: Entry): string | undefined {
  const day = dayOfRecord(entry);
  const content = meaningOfRecord(kind, entry);
  return [...records.values()].find(
    (other) => dayOfRecord(other) === day && meaningOfRecord(kind, other) === content,
  )?.id;
}
