/** How a change is undone: the words of a command, and the text that it is given. */
import { pathWords } from '../../in-words.ts';
import { valueAt } from '../../read/raw.ts';
import { linesOfRecord, takenLines } from '../../write/put-back.ts';
import { amendText } from '../amend.ts';
import { readAmendment, type Amendable, type Amendment } from '../amendment.ts';
import type { EntryGround } from '../defaults.ts';
import { lexiconOf } from '../lexicon.ts';
import type { TakenRecord } from '../remove.ts';
import { freshFindings, type ChangePlan, type OpenedStudio } from '../plan.ts';

/** A command that undoes a change, or a part of it. */
export interface UndoStep {
  /** What is typed after the program's name, before it is quoted. */
  readonly words: readonly string[];
  /** What it is given on standard input. */
  readonly given?: string;
  /** What will not be as it was; absent where everything will. */
  readonly note?: string;
}

/** What an undo is made from: the studio as it was, and the change. */
export interface Undoable {
  readonly opened: Pick<OpenedStudio, 'reading' | 'findings' | 'asOf'>;
  readonly plan: Pick<ChangePlan, 'changes' | 'after' | 'edited'>;
}

/** Takes out again what was added. */
export function undoAdded({ opened, plan }: Undoable, ids: readonly string[]): readonly UndoStep[] {
  if (ids.length === 0) return [];
  // Records that named it before it was there would not be sound without it.
  const more = bringsErrors({ opened, plan }) ? ['--even-if-used'] : [];
  return [{ words: ['remove', ...ids, ...more] }];
}

function bringsErrors({ opened, plan }: Undoable): boolean {
  const fresh = freshFindings(plan.after.findings, opened.findings, new Set());
  return fresh.some(({ severity }) => severity === 'error');
}

/** What was changed in one record. */
export interface RecordAmended {
  readonly record: Amendable;
  readonly amendments: readonly Amendment[];
}

/**
 * Puts the old values of records back: value by value where that gives the files' very bytes, else all
 * lines of the records as they were.
 */
export function undoAmended(
  undoable: Undoable,
  amended: readonly RecordAmended[],
): readonly UndoStep[] {
  const ways = amended.map((each) => ({ ...each, words: oldValues(each) ?? [] }));
  const isByValue = ways.every(({ words }) => words.length > 0) && !bringsErrors(undoable);
  if (isByValue && isWayBack(undoable, ways))
    return ways.map(({ record, words }) => ({ words: ['amend', typedName(record), ...words] }));
  const { changes } = undoable.plan;
  return amended.map(({ record }) =>
    asItWas(record, changes.find(({ file }) => file === record.file)?.before ?? ''),
  );
}

function typedName({ id, file }: Pick<Amendable, 'id' | 'file'>): string {
  return id === '' ? file : id;
}

/** Puts all lines of a record back as they are in a text. */
export function asItWas(record: Pick<Amendable, 'id' | 'file'>, text: string): UndoStep {
  const { id } = record;
  const given = id === '' ? text : (linesOfRecord(text, id) ?? '');
  return { words: ['amend', typedName(record), '--as-it-was'], given };
}

/** The words that put single values back; undefined where more than those were changed. */
function oldValues({ record: { raw }, amendments }: RecordAmended): readonly string[] | undefined {
  const words = amendments.map(({ path, value, isNew = false }) => {
    const old = isNew ? undefined : valueAt(raw, path);
    if (old === undefined) return `${pathWords(path)}=`;
    const isSingle = typeof old === 'string' && (value === undefined || typeof value === 'string');
    return isSingle && !UNTYPED.test(old) ? `${pathWords(path)}=${old}` : undefined;
  });
  return words.every((word) => word !== undefined) ? words : undefined;
}

// The end of a text of C, and half a sign of UTF-16.
const UNTYPED = /[\0\p{Surrogate}]/u;

interface WayBack {
  readonly record: Amendable;
  readonly words: readonly string[];
}

function isWayBack({ opened, plan }: Undoable, ways: readonly WayBack[]): boolean {
  const ground = { lexicon: lexiconOf(opened.reading.files), day: opened.asOf };
  const texts = new Map(plan.changes.map(({ file, after = '' }) => [file, after]));
  for (const { record, words } of ways) {
    const root = plan.edited.find(({ file }) => file === record.file)?.root;
    const raw = record.id === '' ? root : root?.[record.id];
    const back = words.flatMap((word) => soundAmendment(word, record, ground));
    if (raw === undefined || back.length < words.length) return false;
    const amended = amendText(texts.get(record.file) ?? '', { ...record, raw }, back);
    if ('refused' in amended) return false;
    texts.set(record.file, amended.text);
  }
  const files = new Set(ways.map(({ record }) => record.file));
  return plan.changes.every(({ file, before }) => !files.has(file) || texts.get(file) === before);
}

function soundAmendment(word: string, { kind }: Amendable, ground: EntryGround): Amendment[] {
  const read = readAmendment(word, kind, ground);
  return 'refused' in read || read.faults.length > 0 ? [] : [read];
}

/** Puts records back that were taken out in turn, the last one first, each word for word where it was. */
export function undoRemoved(taken: readonly TakenRecord[]): readonly UndoStep[] {
  return taken.toReversed().map(({ record: { id, kind, file }, before, after }) => {
    const lines = takenLines(before, after);
    const to = lines ? `${file}:${lines.line}` : file;
    return {
      words: ['add', kind, '--back-to', to],
      given: lines?.text ?? linesOfRecord(before, id) ?? '',
      ...(lines ? {} : { note: `it goes to the end of ${file}` }),
    };
  });
}
