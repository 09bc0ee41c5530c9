/** Plans new records: what ids they get, and which files they go to. */
import { EVENT_KINDS, KINDS, type Kind } from '../book.ts';
import { ID } from '../check/schema.ts';
import { grouped } from '../grouping.ts';
import { isDay } from '../number/date.ts';
import { wholeText } from '../read/disk.ts';
import type { RawMap } from '../read/raw.ts';
import { emitRecord } from '../write/emit.ts';
import type { Refused } from '../write/parts.ts';
import { appendRecords } from '../write/append.ts';
import { SCHEMA_FOLDER, modelineFor, newId, targetFile } from '../write/target.ts';
import type { GivenRecord } from './given.ts';
import { lexiconOf, type Lexicon } from './lexicon.ts';
import { planEdits, type ChangePlan, type Edited, type OpenedStudio } from './plan.ts';
import { withSaleTax } from './sale-tax.ts';

/** Records of one kind that are whole (`expandRecord`), and where chance comes from. */
export interface Additions {
  readonly kind: Kind;
  readonly records: readonly GivenRecord[];
  /** A number from 0 to below 1. */
  readonly random: () => number;
}

/** A plan to add records. */
export interface AddPlan extends ChangePlan {
  readonly added: readonly Added[];
}

/**
 * Plans to add records at the end of the files that they belong to, sales with the tax by the rate of
 * their place. Refused where an id is taken, a
 * definition has neither id nor name, or a file can't take a record.
 */
export async function planAdd(
  opened: OpenedStudio,
  additions: Additions,
): Promise<AddPlan | Refused> {
  const edited = new Map<string, Edited>();
  const added = putRecords(opened, additions, edited);
  if ('refused' in added) return added;
  const touched = added.map(({ id }) => ({ kind: additions.kind, id }));
  const plan = await planEdits(opened, { files: [...edited.values()], touched });
  return { ...plan, added };
}

/** Puts records among the edited files; refused as `planAdd` is. */
export function putRecords(
  opened: OpenedStudio,
  { kind, records, random }: Additions,
  edited: Map<string, Edited>,
): readonly Added[] | Refused {
  const lexicon = lexiconOf(opened.reading.files);
  const named = nameRecords({ kind, lexicon, random, asOf: opened.asOf }, records);
  if ('refused' in named) return named;
  const files = opened.reading.files.filter((each) => each.kind === kind).map(({ file }) => file);
  const shelves = { folder: opened.folder, kind, files, edited };
  const placed = placeRecords(shelves, kind === 'sales' ? taxed(opened, named) : named);
  for (const [file, records] of grouped(placed, (each) => each.file)) {
    const put = putInto(shelves, file, records);
    if (put) return put;
  }
  return placed.map(({ id, file, fields }) => ({ id, file, text: emitRecord(id, fields) }));
}

function taxed({ book }: OpenedStudio, records: readonly NewRecord[]): readonly NewRecord[] {
  return records.map((record) => ({ ...record, fields: withSaleTax(book, record.fields) }));
}

interface NewNames {
  readonly kind: Kind;
  readonly lexicon: Lexicon;
  readonly random: () => number;
  readonly asOf: string;
}

function nameRecords(naming: NewNames, records: readonly GivenRecord[]): NewRecord[] | Refused {
  const named: NewRecord[] = [];
  const mine = new Set<string>();
  const inBook = namesTaken(naming.lexicon, records.length);
  const isTaken = (id: string): boolean => mine.has(id.toLowerCase()) || inBook(id);
  for (const { id: given, fields } of records) {
    const day = dayOfRecord(fields, naming.asOf);
    const id = given ?? ownId(naming, { day, fields }, isTaken);
    if (id === undefined)
      return { refused: 'it has neither an id nor a name to make one of; give it one with --id' };
    // Some files are named by their record's id, so it must be nothing but an id.
    if (!ID.test(id))
      return { refused: `"${id}" is not an id; write a letter, then letters, digits and hyphens` };
    if (isTaken(id)) return idTaken(naming.lexicon, id);
    mine.add(id.toLowerCase());
    named.push({ id, day, fields });
  }
  return named;
}

/** So many records may ask the files for an id; for more of them all ids are gathered once. */
const FEW_RECORDS = 20;

function namesTaken(lexicon: Lexicon, records: number): (id: string) => boolean {
  if (records <= FEW_RECORDS) return (id) => lexicon.find(id) !== undefined;
  const all = new Set(lexicon.ids(KINDS).map((id) => id.toLowerCase()));
  return (id) => all.has(id.toLowerCase());
}

function idTaken(lexicon: Lexicon, id: string): Refused {
  const other = lexicon.find(id);
  const where = other ? `, in ${other.file}` : ' among these';
  return {
    refused: `there is a record ${other?.id ?? id} already${where}; give another id with --id`,
  };
}

function ownId(
  { kind, random }: NewNames,
  { day, fields }: Omit<NewRecord, 'id'>,
  isTaken: (id: string) => boolean,
): string | undefined {
  const event = EVENT_KINDS.find((each) => each === kind);
  if (event) return newId({ kind: event, day }, isTaken, random);
  const { name, fuel, from } = fields;
  const words = typeof name === 'string' ? [name] : [fuel, from];
  return idFrom(words.filter((word) => typeof word === 'string').join(' '));
}

/** An id of a name's words: `Silica 325 mesh` → `silica-325-mesh`; accents fall away. */
function idFrom(name: string): string | undefined {
  const plain = name.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  const id = plain.replace(/[^a-z0-9]+/g, '-').replace(/^[^a-z]+|-+$/g, '');
  return id === '' ? undefined : id;
}

/** A record that is to be added, and the text that it will stand there with. */
export interface Added {
  readonly id: string;
  readonly file: string;
  readonly text: string;
}

/** A record with its id, and the day that decides on its file. */
interface NewRecord {
  readonly id: string;
  readonly day: string;
  readonly fields: RawMap;
}

/** Where records of a kind go. */
interface Shelves {
  readonly folder: string;
  readonly kind: Kind;
  /** The files that the kind's records are in now, from the studio's root. */
  readonly files: readonly string[];
  /** Files that records were put into before this one; this one's is put among them. */
  readonly edited: Map<string, Edited>;
}

/** A new record, and the file that it goes to. */
interface PlacedRecord extends NewRecord {
  readonly file: string;
}

/** The file of each record: those of the ones before it are there already. */
function placeRecords(
  { kind, files, edited }: Shelves,
  records: readonly NewRecord[],
): readonly PlacedRecord[] {
  const known = new Set([...files, ...edited.keys()]);
  return records.map((record) => {
    const file = targetFile({ kind, id: record.id, day: record.day }, [...known]);
    known.add(file);
    return { ...record, file };
  });
}

/** Puts records at the end of a file; refused where it can't take them. */
function putInto(
  { folder, kind, edited }: Shelves,
  file: string,
  records: readonly PlacedRecord[],
): Refused | undefined {
  const earlier = edited.get(file);
  const before = earlier ? earlier.before : wholeText(folder, file);
  const text = earlier?.after ?? before ?? firstLines(folder, kind, file);
  const put = appendRecords(
    text,
    records.map(({ id, fields }) => [id, fields]),
  );
  if ('refused' in put) return { refused: `${file} was left as it is: ${put.refused}` };
  edited.set(file, { file, kind, before, after: put.text });
  return undefined;
}

/** The day that a record is of: its own, where it has a sound one. */
function dayOfRecord({ date }: RawMap, asOf: string): string {
  return typeof date === 'string' && isDay(date) ? date : asOf;
}

/** A new file tells the editor which schema it goes by, where the studio has the schemas beside it. */
function firstLines(folder: string, kind: Kind, file: string): string {
  const hasSchema = wholeText(folder, `${SCHEMA_FOLDER}/${kind}.json`) !== undefined;
  return hasSchema ? `${modelineFor(kind, file)}\n` : '';
}
