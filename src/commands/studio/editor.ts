/** Keeps what an editor knows of a studio: its ids, and which schema is for which file. */
import { DEFINITION_KINDS, type Kind } from '../../book.ts';
import type { ChangePlan } from '../../entry/plan.ts';
import { lexiconOf, type FoundRecord } from '../../entry/lexicon.ts';
import { wholeText } from '../../read/disk.ts';
import { NO_MEMORY } from '../../read/kept/memory.ts';
import type { PackageFiles } from '../../read/package.ts';
import { isMap, type Raw, type RawFile } from '../../read/raw.ts';
import { readStudio } from '../../read/read.ts';
import {
  IDS_FILE,
  editorSchemas,
  idsInText,
  idsText,
  referredKinds,
  type IdLists,
  type OfferedId,
} from '../../write/editor-schemas.ts';
import { EDITOR_SETTINGS, hasSettings, settingsText } from '../../write/editor-settings.ts';
import { applyPlan, type FileToWrite } from '../../write/store.ts';
import { SCHEMA_FOLDER } from '../../write/target.ts';
import { isRefusal, type World } from '../world.ts';
import { writerIn } from '../records/writer.ts';

/** Of what happened, an editor is offered so many of a kind, the latest. */
const MOST_EVENTS = 500;

/** What is to be written for an editor, and the settings that somebody must put into a file of their own. */
export interface EditorParts {
  readonly changes: readonly FileToWrite[];
  readonly toAdd: readonly { readonly file: string; readonly text: string }[];
}

/** All that an editor is given, as changes from what is there. */
export function editorParts(
  folder: string,
  schemas: PackageFiles,
  files: readonly RawFile[],
): EditorParts {
  const named = Object.entries(editorSchemas(schemas)).map(([name, after]) => ({
    file: `${SCHEMA_FOLDER}/${name}`,
    after,
  }));
  const settings = EDITOR_SETTINGS.map((each) => ({ each, before: wholeText(folder, each.file) }));
  const given = settings.filter(({ before }) => before === undefined);
  const lacking = settings.filter(
    ({ each, before }) => before !== undefined && !hasSettings(before, each),
  );
  return {
    changes: [
      ...[...named, { file: IDS_FILE, after: idsText(allIds(files)) }].map((change) => ({
        ...change,
        before: wholeText(folder, change.file),
      })),
      ...given.map(({ each }) => ({
        file: each.file,
        before: undefined,
        after: settingsText(each),
      })),
      ignoring(wholeText(folder, GIT_IGNORE)),
    ],
    toAdd: lacking.map(({ each }) => ({ file: each.file, text: settingsText(each) })),
  };
}

const GIT_IGNORE = '.gitignore';
const IGNORED = `${SCHEMA_FOLDER}/`;

// The ids change with every record, and git has them in the records.
function ignoring(before: string | undefined): FileToWrite {
  const text = before ?? '';
  if (text.split(/\r?\n/).includes(IGNORED)) return { file: GIT_IGNORE, before, after: before };
  const gap = text === '' || text.endsWith('\n') ? '' : '\n';
  return { file: GIT_IGNORE, before, after: `${text}${gap}${IGNORED}\n` };
}

/** Lists the ids of a studio that was just made, for its editor. */
export async function firstIds(folder: string, world: World): Promise<void> {
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if (isRefusal(reading)) return;
  const after = idsText(allIds(reading.files));
  await applyPlan(folder, [{ file: IDS_FILE, before: undefined, after }], writerIn(world));
}

function allIds(files: readonly RawFile[]): IdLists {
  return { ...definitionIds(files), ...eventIds((kind) => latest(files, kind)) };
}

function definitionIds(files: readonly RawFile[]): IdLists {
  const lexicon = lexiconOf(files);
  const settings = files.find(({ kind }) => kind === 'studio')?.root['categories'];
  const categories = settings !== undefined && isMap(settings) ? Object.keys(settings) : [];
  return {
    ...Object.fromEntries(
      DEFINITION_KINDS.map((kind) => [kind, lexicon.records([kind]).map(offered)]),
    ),
    categories: categories.map((id) => ({ id, about: 'a category of your own' })),
  };
}

function eventIds(idsOf: (kind: Kind) => readonly OfferedId[]): IdLists {
  const definitions: ReadonlySet<Kind> = new Set(DEFINITION_KINDS);
  const events = [...referredKinds()].filter((kind) => !definitions.has(kind));
  return Object.fromEntries(events.map((kind) => [kind, idsOf(kind).slice(0, MOST_EVENTS)]));
}

function latest(files: readonly RawFile[], kind: Kind): readonly OfferedId[] {
  const dated = lexiconOf(files)
    .records([kind])
    .map((record) => ({ record, day: textOfField(record.raw, 'date') ?? '' }));
  return dated.sort((a, b) => (a.day < b.day ? 1 : -1)).map(({ record }) => offered(record));
}

const NAMED_BY = ['name', 'title', 'product', 'recipe', 'buyer', 'kind'];

/** `mug, 2026-03-08` */
function offered({ id, raw }: FoundRecord): OfferedId {
  const name = NAMED_BY.map((field) => textOfField(raw, field)).find((text) => text !== undefined);
  const about = [name, textOfField(raw, 'date')].filter((text) => text !== undefined);
  return { id, about: about.join(', ') };
}

function textOfField(raw: Raw, field: string): string | undefined {
  const value = isMap(raw) ? raw[field] : undefined;
  return typeof value === 'string' ? value : undefined;
}

/** What was changed, and in which studio. */
interface RecordsChanged {
  readonly folder: string;
  readonly files: readonly RawFile[];
  readonly plan: Partial<ChangePlan>;
}

/**
 * Brings the ids up to date that an editor offers, where a studio has them. The change itself is made:
 * whatever goes wrong here, the ids are those of before.
 */
export async function refreshIds(
  { folder, files, plan }: RecordsChanged,
  world: World,
): Promise<void> {
  const before = wholeText(folder, IDS_FILE);
  if (before === undefined || !plan.edited) return;
  try {
    const after = idsAfter(before, files, plan);
    await applyPlan(folder, [{ file: IDS_FILE, before, after }], writerIn(world));
  } catch {
    // A text that is not ours says nothing of ids.
  }
}

// To look through all events would take too long: what was changed is known.
function idsAfter(
  before: string,
  files: readonly RawFile[],
  { edited = [], touched = [] }: Partial<ChangePlan>,
): string {
  const changed = new Set(edited.map(({ file }) => file));
  const found = lexiconOf(edited);
  const known = [...files.filter(({ file }) => !changed.has(file)), ...edited];
  const events = eventIds((kind) => {
    const ids = new Set(touched.filter((each) => each.kind === kind).map(({ id }) => id));
    const fresh = found.records([kind]).filter(({ id }) => ids.has(id));
    const others = idsInText(before, kind).filter(({ id }) => !ids.has(id));
    return [...fresh.map(offered).reverse(), ...others];
  });
  return idsText({ ...definitionIds(known), ...events });
}
