/** Plans to take a record out, and says who still names it. */
import { FIELDS, type FieldSpec } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import type { Spot } from '../problem.ts';
import { wholeText } from '../read/disk.ts';
import { isList, type Path, type Raw, type RawFile } from '../read/raw.ts';
import type { Refused } from '../write/parts.ts';
import { removeRecord } from '../write/splice.ts';
import { modelineFor } from '../write/target.ts';
import type { FoundRecord } from './lexicon.ts';
import { planEdits, type ChangePlan, type OpenedStudio } from './plan.ts';

/** A plan to remove a record. */
export interface RemovePlan extends ChangePlan {
  /** The record as it stands in its file, with its own comments left out. */
  readonly removed: FoundRecord;
  /** Where other records name it. */
  readonly usedAt: readonly Spot[];
}

/**
 * Plans to remove a record with its comments; a file that it leaves empty, but for the line that names its
 * schema, goes too.
 */
export async function planRemove(
  opened: OpenedStudio,
  removed: FoundRecord,
): Promise<RemovePlan | Refused> {
  const { id, kind, file } = removed;
  const before = wholeText(opened.folder, file);
  if (before === undefined) return { refused: `${file} is gone; run the command again` };
  const spliced = removeRecord(before, id);
  if ('refused' in spliced) return { refused: `${file} was left as it is: ${spliced.refused}` };
  const rest = spliced.text.trim();
  const after = rest === '' || rest === modelineFor(kind, file) ? undefined : spliced.text;
  const files = [{ file, kind, before, after }];
  const plan = await planEdits(opened, { files, touched: [{ kind, id }] });
  return { ...plan, removed, usedAt: referencesTo(opened.reading.files, removed) };
}

/** All places in other records where the id of a record of that kind stands for it, file by file. */
export function referencesTo(
  files: readonly RawFile[],
  { id, kind }: { readonly id: string; readonly kind: Kind },
): readonly Spot[] {
  const search = { id, kind };
  return files.flatMap(({ file, kind: of, root }) =>
    of === 'studio'
      ? []
      : Object.entries(root)
          .filter(([other]) => other !== id)
          .flatMap(([other, raw]) =>
            namings(search, { spec: FIELDS[of], path: [other] }, raw).map((path) => ({
              file,
              path,
            })),
          ),
  );
}

interface SoughtRecord {
  readonly id: string;
  readonly kind: Kind;
}

interface ReferencePlace {
  readonly spec: FieldSpec;
  readonly path: Path;
}

function namings(search: SoughtRecord, { spec, path }: ReferencePlace, raw: Raw): Path[] {
  if (typeof raw === 'string') return isNaming(search, spec, { path, raw }) ? [path] : [];
  if (isList(raw)) {
    const of = spec.type === 'list' ? spec.of : undefined;
    return of
      ? raw.flatMap((item, index) => namings(search, { spec: of, path: [...path, index] }, item))
      : [];
  }
  return Object.entries(raw).flatMap(([key, value]) => {
    const at = { spec: specUnder(spec, key), path: [...path, key] };
    const byKey = spec.type === 'map' && spec.keysTo?.includes(search.kind) && key === search.id;
    return byKey ? [at.path] : at.spec ? namings(search, { ...at, spec: at.spec }, value) : [];
  });
}

function specUnder(spec: FieldSpec, key: string): FieldSpec | undefined {
  if (spec.type === 'record') return spec.fields[key];
  if (spec.type === 'either') return specUnder(spec.record, key);
  return spec.type === 'map' ? spec.of : undefined;
}

function isNaming(
  { id, kind }: SoughtRecord,
  spec: FieldSpec,
  { path, raw }: { path: Path; raw: string },
): boolean {
  if (raw !== id) return false;
  if (spec.type === 'reference') return spec.to.includes(kind);
  const isBag = path.at(-2) === 'lots' || (path.at(-2) === 'clay' && path.at(-1) === 'lot');
  return isBag && (kind === 'bought' || kind === 'mixed');
}
