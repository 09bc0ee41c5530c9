/** Plans to take records out, and says who still names them. */
import { FIELDS, type FieldSpec } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { grouped } from '../grouping.ts';
import type { Spot } from '../problem.ts';
import { wholeText } from '../read/disk.ts';
import { isList, type Path, type Raw, type RawFile } from '../read/raw.ts';
import type { Refused } from '../write/parts.ts';
import { removeRecord, removeRecords } from '../write/splice.ts';
import { modelineFor } from '../write/target.ts';
import type { FoundRecord } from './lexicon.ts';
import { planEdits, type ChangePlan, type Edited, type OpenedStudio } from './plan.ts';

/** A plan to remove records. */
export interface RemovePlan extends ChangePlan {
  /** Each record with its file's text before it was taken out and after that, in turn. */
  readonly taken: readonly TakenRecord[];
  /** Where other records name one. */
  readonly usedAt: readonly { readonly at: Spot; readonly id: string }[];
}

/** A record that is taken out of a text. */
export interface TakenRecord {
  readonly record: FoundRecord;
  readonly before: string;
  /** Empty where the file goes. */
  readonly after: string;
}

/**
 * Plans to remove records with their comments; a file that is left empty, but for the line that names its
 * schema, goes too.
 */
export async function planRemove(
  opened: OpenedStudio,
  records: readonly FoundRecord[],
): Promise<RemovePlan | Refused> {
  const texts = new Map<string, string>();
  const taken: TakenRecord[] = [];
  for (const record of records) {
    const before = texts.get(record.file) ?? wholeText(opened.folder, record.file);
    if (before === undefined) return { refused: `${record.file} is gone; run the command again` };
    const spliced = removeRecord(before, record.id);
    if ('refused' in spliced)
      return { refused: `${record.file} was left as it is: ${spliced.refused}` };
    const after = isOver(spliced.text, record) ? '' : spliced.text;
    texts.set(record.file, after);
    taken.push({ record, before, after });
  }
  const plan = await planEdits(opened, {
    files: editsOf(taken),
    touched: records.map(({ kind, id }) => ({ kind, id })),
  });
  return { ...plan, taken, usedAt: usesOfRecords(opened, records) };
}

function usesOfRecords(
  { reading }: OpenedStudio,
  records: readonly FoundRecord[],
): RemovePlan['usedAt'] {
  const kinds = new Map(records.map(({ id, kind }) => [id, kind]));
  return usesIn(reading.files, kinds).filter(({ at }) => !kinds.has(String(at.path[0])));
}

/** Plans to remove many records: as `planRemove`, each file in one go. */
export async function planRemoveAll(
  opened: OpenedStudio,
  records: readonly FoundRecord[],
): Promise<RemovePlan | Refused> {
  const files: Edited[] = [];
  for (const [file, [first, ...more]] of grouped(records, (record) => record.file)) {
    if (!first) continue;
    const before = wholeText(opened.folder, file) ?? '';
    const spliced = removeRecords(
      before,
      [first, ...more].map(({ id }) => id),
    );
    if ('refused' in spliced) return { refused: `${file} was left as it is: ${spliced.refused}` };
    const after = isOver(spliced.text, first) ? undefined : spliced.text;
    files.push({ file, kind: first.kind, before, after });
  }
  const touched = records.map(({ kind, id }) => ({ kind, id }));
  const plan = await planEdits(opened, { files, touched });
  return { ...plan, taken: [], usedAt: usesOfRecords(opened, records) };
}

function isOver(text: string, { kind, file }: FoundRecord): boolean {
  const rest = text.trim();
  return rest === '' || rest === modelineFor(kind, file);
}

/** The first text and the last of each file. */
function editsOf(taken: readonly TakenRecord[]): Edited[] {
  const edits = new Map<string, Edited>();
  for (const { record, before, after } of taken) {
    const { file, kind } = record;
    const earlier = edits.get(file);
    edits.set(file, {
      file,
      kind,
      before: earlier ? earlier.before : before,
      after: after === '' ? undefined : after,
    });
  }
  return [...edits.values()];
}

/** All places in other records where the id of a record of that kind stands for it, file by file. */
export function referencesTo(
  files: readonly RawFile[],
  { id, kind }: { readonly id: string; readonly kind: Kind },
): readonly Spot[] {
  const used = usesIn(files, new Map([[id, kind]]));
  return used.flatMap(({ at }) => (at.path[0] === id ? [] : [at]));
}

/** Where records name others: the kinds of those by their ids. */
function usesIn(files: readonly RawFile[], sought: SoughtRecords): RemovePlan['usedAt'] {
  return files.flatMap(({ file, kind: of, root }) => {
    if (of === 'studio') return [];
    return Object.entries(root).flatMap(([record, raw]) =>
      namings(sought, { spec: FIELDS[of], path: [record] }, raw).map(({ path, id }) => ({
        at: { file, path },
        id,
      })),
    );
  });
}

type SoughtRecords = ReadonlyMap<string, Kind>;

interface ReferencePlace {
  readonly spec: FieldSpec;
  readonly path: Path;
}

/** A place where an id stands for its record. */
interface IdPlace {
  readonly path: Path;
  readonly id: string;
}

function namings(sought: SoughtRecords, { spec, path }: ReferencePlace, raw: Raw): IdPlace[] {
  if (typeof raw === 'string')
    return isNaming(sought, spec, { path, raw }) ? [{ path, id: raw }] : [];
  if (isList(raw)) {
    const of = spec.type === 'list' ? spec.of : undefined;
    return of
      ? raw.flatMap((item, index) => namings(sought, { spec: of, path: [...path, index] }, item))
      : [];
  }
  return Object.entries(raw).flatMap(([key, value]) => {
    const at = { spec: specUnder(spec, key), path: [...path, key] };
    const kind = sought.get(key);
    const byKey = spec.type === 'map' && kind !== undefined && spec.keysTo?.includes(kind);
    if (byKey) return [{ path: at.path, id: key }];
    return at.spec ? namings(sought, { ...at, spec: at.spec }, value) : [];
  });
}

function specUnder(spec: FieldSpec, key: string): FieldSpec | undefined {
  if (spec.type === 'record') return spec.fields[key];
  if (spec.type === 'either') return specUnder(spec.record, key);
  return spec.type === 'map' ? spec.of : undefined;
}

function isNaming(
  sought: SoughtRecords,
  spec: FieldSpec,
  { path, raw }: { path: Path; raw: string },
): boolean {
  const kind = sought.get(raw);
  if (kind === undefined) return false;
  if (spec.type === 'reference') return spec.to.includes(kind);
  const isBag = path.at(-2) === 'lots' || (path.at(-2) === 'clay' && path.at(-1) === 'lot');
  return isBag && (kind === 'bought' || kind === 'mixed');
}
