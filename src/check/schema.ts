/** The check of each file against its schema: fast where all is well, and plain words where it is not. */
import { FIELDS, PATTERNS } from '../../schema/generated/fields.js';
import { textValidators } from '../../schema/generated/text.js';
import { newFindings } from '../fold.ts';
import type { Finding } from '../problem.ts';
import { inQuotes, type CoreFile } from '../read/yaml/core.ts';
import { textUnder, type Raw, type RawFile, type RawMap } from '../read/raw.ts';
import { ALSO, faultsOf, hasFaults } from './faults/explain.ts';
import type { Suspect } from './faults/place.ts';
import type { RecordFault } from './faults/record-faults.ts';
import { wordingOf } from './faults/wording.ts';

/** What the check of one file gives. */
export interface CheckedFile {
  readonly findings: readonly Finding[];
  /** The records without an error; of `studio.yaml` the settings, or nothing when there is one. */
  readonly sound: RawMap;
}

/**
 * Checks one file's records against the schema of its kind, each fault at its own place (rules
 * `schema`, `needs-quotes` and `number-form`, all errors). `coreOf` gives the file as a YAML 1.2 core
 * reader sees it; it is asked at most once, and only where something may be wrong. Where it gives
 * nothing the texts are checked alone, so that quotes can't be missed.
 */
export function checkFile(
  file: RawFile,
  coreOf: (file: string) => CoreFile | undefined,
): CheckedFile {
  const suspects = suspectsIn(file);
  if (suspects.length === 0) return { findings: [], sound: file.root };
  const view = coreOf(file.file) ?? textView(file);
  const findings = newFindings();
  const ill = new Set<string>();
  const strays = fieldsAtMargin(file, suspects);
  for (const id of suspects) {
    const isExplained = ill.size < MOST_EXPLAINED;
    const lost = strays.get(id);
    const faults = isExplained ? faultsAt(file, id, view) : anyFault(file, id, view);
    if (faults.length > 0) ill.add(id);
    for (const fault of faults.filter(({ lacks = '' }) => lacks === '' || lacks !== lost))
      findings.add(fault.rule ?? 'schema', () => finding(file, fault));
  }
  return { findings: findings.all(), sound: ill.size === 0 ? file.root : without(file, ill) };
}

/** Id of a record → the field of it that is at the margin, below it, as if it were a record. */
function fieldsAtMargin(
  { kind, root }: RawFile,
  suspects: readonly string[],
): ReadonlyMap<string, string> {
  const strays = new Map<string, string>();
  if (kind === 'studio') return strays;
  const fields = suspects.filter((id) => isFieldAtMargin(kind, id, root[id]));
  const ids = fields.length === 0 ? [] : Object.keys(root);
  for (const field of fields) strays.set(ids[ids.indexOf(field) - 1] ?? '', field);
  return strays;
}

function isFieldAtMargin(kind: RawFile['kind'], id: string, value: Raw | undefined): boolean {
  return typeof value === 'string' && value !== '' && Object.hasOwn(FIELDS[kind].fields, id);
}

function atMargin({ root }: RawFile, id: string, view: CoreFile): RecordFault {
  const text = textUnder(root, id);
  const written = view.plain([id]) === false ? inQuotes(text) : text;
  return {
    path: [id],
    on: 'key',
    message: `${id} is at the margin, so it belongs to no record`,
    hint: `write the line as:   ${id}: ${written}`,
  };
}

function faultsAt(file: RawFile, id: string, view: CoreFile): readonly RecordFault[] {
  if (file.kind === 'studio') return faultsOf(suspectAt(file, [], view));
  if (isFieldAtMargin(file.kind, id, file.root[id])) return [atMargin(file, id, view)];
  const faults = faultsOf(suspectAt(file, [id], view));
  return ID.test(id) ? faults : [badId(id), ...faults];
}

/** In so many records of one file all faults are counted; in others, whether there is any. */
const MOST_EXPLAINED = 1000;

function anyFault(file: RawFile, id: string, view: CoreFile): readonly RecordFault[] {
  const isIll = !ID.test(id) || hasFaults(suspectAt(file, [id], view));
  return isIll ? [{ path: [id], on: 'key', ...ALSO }] : [];
}

function suspectAt(file: RawFile, path: readonly string[], view: CoreFile): Suspect {
  const value =
    path.reduce<unknown>(ownPart, view.root) ?? path.reduce<unknown>(ownPart, file.root);
  return { kind: file.kind, file: file.file, path, value, view };
}

function ownPart(whole: unknown, key: string): unknown {
  const has = typeof whole === 'object' && whole !== null && Object.hasOwn(whole, key);
  return has ? Reflect.get(whole, key) : undefined;
}

function badId(id: string): RecordFault {
  return { path: [id], on: 'key', ...wordingOf('id', { name: 'this id', text: id, example: '' }) };
}

function finding({ file }: RawFile, { rule, ...fault }: RecordFault): Finding {
  const { path, on, through, message, hint, meaning } = fault;
  const at = { file, path, ...(on && { on }), ...(through !== undefined && { through }) };
  const told = { rule: rule ?? 'schema', severity: 'error', at, message, hint } as const;
  return meaning ? { ...told, meaning } : told;
}

function without({ kind, root }: RawFile, ill: ReadonlySet<string>): RawMap {
  const sound = Object.create(null) as Record<string, Raw>;
  if (kind === 'studio') return sound;
  for (const [id, record] of Object.entries(root)) if (!ill.has(id)) sound[id] = record;
  return sound;
}

/** The texts in the place of a core reader's values: every number-like type takes a text too. */
function textView({ root }: RawFile): CoreFile {
  const at = (path: readonly (string | number)[]): unknown =>
    path.map(String).reduce<unknown>(ownPart, root);
  return {
    root,
    plain: () => undefined,
    text: (path) => {
      const value = at(path);
      return typeof value === 'string' ? value : '';
    },
  };
}

/** What an id looks like. */
export const ID = new RegExp(PATTERNS['id'] ?? '', 'u');

/** Stands for the whole of `studio.yaml` where other files have record ids. */
const SETTINGS = '';

/** Ids of the records, or the settings, that need a second look: all others are sound. */
export function suspectsIn(file: RawFile): readonly string[] {
  const { kind, root, odd } = file;
  if (kind === 'studio') return odd || !textValidators.studio(root) ? [SETTINGS] : [];
  const isSound = textValidators[kind];
  // Where nothing is odd, a record whose texts are sound needs no second look.
  return Object.keys(root).filter((id) => odd || !ID.test(id) || !isSound(root[id]));
}
