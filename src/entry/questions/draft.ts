/** Looks at a record that is not written yet as the check would. */
import type { Book, Kind } from '../../book.ts';
import { yearsTyped } from '../../check/doubts/year-typed.ts';
import { NOUN } from '../../check/finding.ts';
import { checkFile } from '../../check/schema.ts';
import type { FileToCheck } from '../../check/taken.ts';
import { digestOf } from '../../digest.ts';
import type { Finding } from '../../problem.ts';
import { mapping, type Path, type RawMap } from '../../read/raw.ts';
import { filesBut, freshFindings, type OpenedStudio } from '../plan.ts';
import { withSaleTax } from '../sale-tax.ts';

/** A record, and the file that it stands in; a new one has a file of its own that is nowhere. */
export interface RecordDraft {
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
interface DraftVerdict {
  readonly findings: readonly Finding[];
  readonly book: Book | undefined;
}

/** What the last draft came to in a studio: an answer that is taken is looked at again to show it. */
const lastLook = new WeakMap<
  OpenedStudio,
  { readonly content: string; readonly verdict: DraftVerdict }
>();

/**
 * Checks the fields; where they are sound also the whole studio with them, and tells what is new. A new
 * sale is looked at with the tax that will be written.
 */
export function lookAtDraft(opened: OpenedStudio, draft: RecordDraft): DraftVerdict {
  const isSale = draft.kind === 'sales' && draft.file === undefined;
  const fields = isSale ? withSaleTax(opened.book, draft.fields) : draft.fields;
  const file = fileOf(opened, { ...draft, fields });
  const known = lastLook.get(opened);
  const content = `${file.file}\n${file.content}`;
  if (known?.content === content) return known.verdict;
  const verdict = looked(opened, draft, file);
  lastLook.set(opened, { content, verdict });
  return verdict;
}

function looked(opened: OpenedStudio, draft: RecordDraft, file: DraftFile): DraftVerdict {
  const own = checkFile(file, () => undefined).findings.filter(({ at }) => isIn(at, draft.id));
  if (own.length > 0) return { findings: own, book: undefined };
  const files = [...filesBut(opened, new Set([file.file])), file];
  const after = opened.judge({ ...opened.reading, files });
  const fresh = freshFindings(opened.findings, after.findings, new Set([draft.id]));
  const sides = { before: opened.book, after: after.book, asOf: opened.asOf };
  return { findings: [...fresh, ...yearsTyped(sides, [draft])], book: after.book };
}

/** A file whose content is known by its digest. */
type DraftFile = FileToCheck & { readonly content: string };

function fileOf({ reading }: OpenedStudio, { kind, id, fields, file }: RecordDraft): DraftFile {
  const known = reading.files.find((each) => each.file === file);
  const root = mapping([...Object.entries(known?.root ?? {}), [id, fields]]);
  // By it the months of one draft are told from those of another.
  const content = digestOf(JSON.stringify(root));
  return { file: known?.file ?? `new ${NOUN[kind]}`, kind, root, odd: false, content };
}

function isIn(at: Finding['at'], id: string): boolean {
  return 'path' in at && at.path[0] === id;
}

/** What is wrong, and what is odd, with the value at a path of a draft: each one line or empty. */
export function sayOf(
  { findings }: DraftVerdict,
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
