/** The ids and fields of a studio that a command line can go on with; read through the cache, not checked. */
import { FIELDS, PATTERNS } from '../../schema/generated/fields.js';
import { DEFINITION_KINDS, KINDS, type Kind } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import type { StudioStore } from '../memory/store.ts';
import { findStudio } from '../read/find.ts';
import { idsIn } from '../read/ids.ts';
import { openMemory } from '../read/memory.ts';
import { isMap, type Raw, type RawFile } from '../read/raw.ts';
import { readStudio } from '../read/read.ts';
import type { Answer } from './answer-words.ts';
import { standingIn } from './field-options.ts';
import type { TypedLine } from './typed-line.ts';

/** Where the book is, and where it is remembered. */
export interface Shelf {
  /** The studio's folder, or one in it. */
  readonly studio: string;
  /** Where a studio is remembered, if anywhere. */
  readonly storeFor: (folder: string) => StudioStore | undefined;
}

/**
 * The ids of some kinds that begin so: definitions in the order of their files, then what happened,
 * latest first.
 */
export async function idAnswers(
  kinds: readonly Kind[],
  start: string,
  shelf: Shelf,
): Promise<readonly Answer[]> {
  const things = await recordsOf(kinds.filter(isDefinition), shelf, (id) => id.startsWith(start));
  const events = await eventsOf(kinds, start, shelf);
  return [...things, ...events].map(({ id, kind, about }) => ({
    word: id,
    about: kinds.length > 1 && about !== undefined ? `${NOUN[kind]} ${about}` : (about ?? ''),
  }));
}

/**
 * Of more than these a shell is told only how they begin, so nothing is said of each any more, and the
 * order of the files, backwards, stands for that of the days.
 */
const MANY = 1000;

async function eventsOf(
  kinds: readonly Kind[],
  start: string,
  shelf: Shelf,
): Promise<readonly Named[]> {
  const folder = findStudio(shelf.studio);
  const wanted = kinds.filter((kind) => !isDefinition(kind));
  if (folder === undefined || wanted.length === 0) return [];
  const { ids, contentOf } = idsIn(folder, { store: shelf.storeFor(folder), kinds: wanted, start });
  const fitting = ids.filter(({ id }) => ID.test(id));
  if (fitting.length > MANY) return fitting.reverse();
  const found: Found[] = [];
  // Only the files that they are in are read.
  const files = new Map(fitting.map(({ file, kind }) => [file, kind]));
  for (const [file, kind] of files) {
    const told = { kind, root: await contentOf(file) };
    found.push(...recordsIn(told, (id) => id.startsWith(start)));
  }
  return found.sort(byDayBackwards);
}

/** `FIELD=` for the fields of the record that the line names; behind the `=`, what may stand there. */
export async function fieldAnswers(line: TypedLine, shelf: Shelf): Promise<readonly Answer[]> {
  const [named] = line.words;
  const [record] = await recordsOf(KINDS, shelf, (id) => id === named);
  if (!record) return [];
  const { fields } = FIELDS[record.kind];
  const [name = '', value] = line.current.split('=');
  if (value === undefined)
    return Object.entries(fields).map(([field, { title }]) => ({
      word: `${field}=`,
      about: title,
    }));
  const spec = fields[name];
  const { choices = [], offers = [] } = spec ? standingIn(spec) : {};
  const words = choices.map((word) => ({ word, about: '' }));
  const ids = typeof offers === 'string' ? [] : await idAnswers(offers, value, shelf);
  return [...words, ...ids].map(({ word, about }) => ({ word: `${name}=${word}`, about }));
}

/** A record by its id; of many, nothing more is known. */
interface Named {
  readonly id: string;
  readonly kind: Kind;
  readonly about?: string;
}

interface Found extends Named {
  readonly day: string;
  readonly about: string;
}

// An id that no record may have could act on the terminal, so it is left out.
const ID = new RegExp(PATTERNS['id'] ?? '', 'u');

async function recordsOf(
  kinds: readonly Kind[],
  { studio, storeFor }: Shelf,
  isWanted: (id: string) => boolean,
): Promise<Found[]> {
  const folder = kinds.length === 0 ? undefined : findStudio(studio);
  if (folder === undefined) return [];
  const memory = openMemory(folder, storeFor(folder));
  const found: Found[] = [];
  // Kind by kind, so that not all of a long life's records are held at once.
  for (const kind of kinds) {
    const reading = await readStudio(folder, { memory, kinds: [kind] });
    if ('refused' in reading) continue;
    for (const file of reading.files) found.push(...recordsIn(file, isWanted));
  }
  return found;
}

function recordsIn(
  { kind, root }: Pick<RawFile, 'kind' | 'root'>,
  isWanted: (id: string) => boolean,
): Found[] {
  if (kind === 'studio') return [];
  const ids = Object.keys(root).filter((id) => isWanted(id) && ID.test(id));
  return ids.map((id) => {
    const raw = root[id] ?? '';
    return { id, kind, day: textIn(raw, 'date'), about: aboutRecord(kind, raw) };
  });
}

function isDefinition(kind: Kind): boolean {
  return DEFINITION_KINDS.some((each) => each === kind);
}

function byDayBackwards(a: Found, b: Found): number {
  if (a.day !== b.day) return a.day < b.day ? 1 : -1;
  return a.id < b.id ? 1 : -1;
}

/** What tells one record of a kind from the next, beside its day. */
const TELLING: Readonly<Record<Kind, readonly string[]>> = {
  materials: ['name'],
  recipes: ['name'],
  products: ['name'],
  classes: ['name'],
  kilns: ['name'],
  tariffs: ['fuel', 'from'],
  channels: ['name'],
  bought: ['supplier'],
  reclaimed: ['material'],
  mixed: ['recipe'],
  pieces: ['product'],
  firings: ['kind', 'cone', 'kiln'],
  used: ['material', 'for'],
  counted: [],
  sales: ['channel', 'buyer'],
  advances: ['for', 'buyer'],
  consigned: ['channel'],
  fairs: ['name'],
  spent: ['for', 'to'],
  tests: ['kind', 'recipe'],
  filed: ['period', 'sheet'],
};

/** An answer stands on one line of a terminal. */
const LONGEST = 50;

function aboutRecord(kind: Kind, raw: Raw): string {
  const told = ['date', ...TELLING[kind]].map((field) => textIn(raw, field));
  const words = told.filter((word) => word !== '').join(' ');
  return words.length > LONGEST ? `${words.slice(0, LONGEST - 1)}…` : words;
}

function textIn(raw: Raw, field: string): string {
  if (typeof raw === 'string' || !isMap(raw)) return '';
  const value = raw[field];
  return typeof value === 'string' ? value : '';
}
