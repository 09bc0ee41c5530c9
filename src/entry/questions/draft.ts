/** Looks at a record that is not written yet as the check would. */
import type { Book, Entry, Kind } from '../../book.ts';
import { checkStudio } from '../../check/check.ts';
import { NOUN } from '../../check/finding.ts';
import { runRules } from '../../check/rules.ts';
import { checkFile } from '../../check/schema.ts';
import { typeRecord } from '../../check/typed.ts';
import type { Finding } from '../../problem.ts';
import type { RawFile, RawMap } from '../../read/raw.ts';
import { shareCounts } from '../../reckon/flow.ts';
import { TIMELINE_KINDS } from '../../reckon/timeline.ts';
import { mapping, type Path } from '../at-path.ts';
import { freshFindings } from '../fresh.ts';
import { vouchedDraft } from '../plain-draft.ts';
import type { OpenedStudio } from '../plan.ts';

/** A record, and the file that it stands in; a new one has a file of its own that is nowhere. */
export interface Draft {
  readonly kind: Kind;
  readonly id: string;
  readonly fields: RawMap;
  /** Of a record that is in a file already. */
  readonly file?: string;
}

/** The id that a new record has in the meantime. */
export function draftId(kind: Kind): string {
  return `this-${NOUN[kind]}`;
}

/** What the check says of a draft, and the book with it where nothing is wrong with its fields. */
export interface Looked {
  readonly findings: readonly Finding[];
  readonly book: Book | undefined;
}

/** Checks the fields; where they are sound also the whole studio with them, and tells what is new. */
export function lookAt(opened: OpenedStudio, draft: Draft): Looked {
  const file = fileOf(opened, draft);
  const own = checkFile(file, () => undefined).findings.filter(({ at }) => isIn(at, draft.id));
  if (own.length > 0) return { findings: own, book: undefined };
  const isNew = draft.file === undefined;
  const vouched = isNew ? vouchedDraft(opened, { ...draft, file: file.file }) : undefined;
  if (vouched) return { findings: [], book: vouched };
  const { findings, book } = opened;
  const isSound = findings.every(({ severity }) => severity !== 'error');
  // What was filed is looked at with its tax sheets, which are files of the studio.
  const isFiled = draft.kind === 'filed' || book.filed.size > 0;
  const after = isSound && !isFiled ? judged(opened, draft, file.file) : checkAll(opened, file);
  const fresh = freshFindings(findings, after.findings, new Set([draft.id]));
  return { findings: fresh, book: after.book };
}

/** What the rules say of a book without errors that has the draft in it. */
function judged({ book, asOf }: OpenedStudio, draft: Draft, path: string): Judged {
  const { kind, id, fields, file } = draft;
  const record = typeRecord(kind, fields, { id, file: path });
  const records = new Map<string, Entry>(book[kind]).set(id, record);
  const whole: Book = { ...book, [kind]: records };
  if (file === undefined && !MOVING.has(kind)) shareCounts(whole, book);
  return { book: whole, findings: runRules(whole, asOf) };
}

/** New records of these kinds take something out of stock or move pieces; what comes in leaves nothing short. */
const MOVING: ReadonlySet<Kind> = new Set(
  TIMELINE_KINDS.filter((kind) => kind !== 'bought' && kind !== 'reclaimed'),
);

interface Judged {
  readonly book: Book;
  readonly findings: readonly Finding[];
}

/** What is wrong with some records decides on what is said of others. */
function checkAll({ reading, findings, book, asOf }: OpenedStudio, file: RawFile): Judged {
  const ill = new Set(findings.map(({ at }) => at.file));
  const others = reading.files
    .filter((each) => each.file !== file.file)
    .map((each) => ({ ...each, clean: !ill.has(each.file), before: { book, root: each.root } }));
  return checkStudio({ ...reading, files: [...others, file] }, asOf);
}

function fileOf({ reading }: OpenedStudio, { kind, id, fields, file }: Draft): RawFile {
  const known = reading.files.find((each) => each.file === file);
  const root = mapping([...Object.entries(known?.root ?? {}), [id, fields]]);
  return { file: known?.file ?? `new ${NOUN[kind]}`, kind, root, odd: false };
}

function isIn(at: Finding['at'], id: string): boolean {
  return 'path' in at && at.path[0] === id;
}

/** What is wrong, and what is odd, with the value at a path of a draft: each one line or empty. */
export function sayOf(
  { findings }: Looked,
  id: string,
  path: Path,
): { readonly error: string; readonly warning: string } {
  const mine = findings.filter((finding) => concerns(finding, [id, ...path]));
  const first = (severity: Finding['severity']): string => {
    const found = mine.find((finding) => finding.severity === severity);
    return found ? `${found.message}; ${found.hint}` : '';
  };
  return { error: first('error'), warning: first('warning') };
}

// What a rule finds elsewhere in the book is new by this record, so it concerns the answer too.
function concerns({ at, rule }: Finding, path: Path): boolean {
  if (!('path' in at)) return false;
  if (at.path[0] !== path[0]) return rule !== 'schema';
  const isBelow = path.every((step, index) => at.path[index] === step);
  const isAbove = at.path.every((step, index) => path[index] === step);
  // A finding about the record as a whole waits for the record to be whole.
  return isBelow || (isAbove && at.path.length > 1 && rule !== 'schema');
}
