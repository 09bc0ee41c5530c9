/** Books of studios that are edited: what was not touched is the same object in the next one. */
import { KINDS, type Book, type Entry, type Kind, type Studio } from '../../../src/book.ts';
import type { UnsoundRecord } from '../../../src/check/draft.ts';
import type { Unsound } from '../../../src/check/rule.ts';
import { checkFile } from '../../../src/check/schema.ts';
import { typeRecord, typeStudio } from '../../../src/check/typed.ts';
import { unsoundIn } from '../../../src/check/unsound.ts';
import type { RawFile, RawMap } from '../../../src/read/raw.ts';

/** The book of files whose texts could all be read, and what it leaves out. */
export function bookOf(files: readonly RawFile[]): {
  readonly book: Book;
  readonly unsound: Unsound;
} {
  const all = new Map<Kind, Map<string, Entry>>(KINDS.map((kind) => [kind, new Map()]));
  let studio: Studio = { file: 'studio.yaml', format: '1', name: '', currency: '' };
  const unsound: UnsoundRecord[] = [];
  for (const file of files) {
    const taken = takenFrom(file);
    unsound.push(...taken.unsound);
    studio = taken.studio ?? studio;
    const records = file.kind === 'studio' ? undefined : all.get(file.kind);
    const fresh = taken.records.filter(({ id }) => !records?.has(id));
    for (const record of fresh) records?.set(record.id, record);
  }
  const book = { studio, ...Object.fromEntries(all) } as unknown as Book;
  return { book, unsound: unsoundIn(unsound, []) };
}

interface Taken {
  readonly studio?: Studio;
  readonly records: readonly Entry[];
  readonly unsound: readonly UnsoundRecord[];
}

const known = new WeakMap<RawMap, Taken>();

function takenFrom(file: RawFile): Taken {
  const taken = known.get(file.root) ?? takeIn(file);
  known.set(file.root, taken);
  return taken;
}

function takeIn({ file, kind, root, odd }: RawFile): Taken {
  const { sound, findings } = checkFile({ file, kind, root, odd }, () => undefined);
  if (kind === 'studio') {
    const faulty = new Set(findings.map(({ at }) => ('path' in at ? at.path[0] : undefined)));
    const kept = Object.entries(root).filter(([key]) => !faulty.has(key));
    const none = { file, format: '1', name: '', currency: '' };
    const studio = { ...none, ...typeStudio(Object.fromEntries(kept), file) };
    const unsound = findings.length > 0 ? [{ kind, id: '', raw: root }] : [];
    return { studio, records: [], unsound };
  }
  const ids = Object.keys(root);
  return {
    records: ids.flatMap((id) => {
      const raw = sound[id] as RawMap | undefined;
      return raw === undefined ? [] : typed(kind, raw, { id, file });
    }),
    unsound: ids
      .filter((id) => sound[id] === undefined)
      .map((id) => ({ kind, id, raw: root[id] ?? '' })),
  };
}

const typedBefore = new WeakMap<RawMap, Map<string, Entry>>();

function typed(kind: Kind, raw: RawMap, sited: { id: string; file: string }): Entry {
  const before = typedBefore.get(raw) ?? new Map<string, Entry>();
  const key = `${sited.file} ${sited.id}`;
  const record = before.get(key) ?? typeRecord(kind, raw, sited);
  typedBefore.set(raw, before.set(key, record));
  return record;
}
