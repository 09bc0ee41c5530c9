/** The ids and fields of a studio that a command line can go on with; read through the cache, not checked. */
import { FIELDS, PATTERNS } from '../../schema/generated/fields.js';
import { DEFINITION_KINDS, KINDS, type Kind } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { findStudio } from '../read/find.ts';
import type { Raw, RawFile } from '../read/raw.ts';
import { readStudio } from '../read/read.ts';
import type { Answer } from './answer-words.ts';
import { standingIn } from './field-options.ts';
import type { TypedLine } from './typed-line.ts';

/** Where the book is, and by which stamp its cache is known. */
export interface Shelf {
  /** The studio's folder, or one in it. */
  readonly studio: string;
  readonly stamp: string;
}

/** The ids of some kinds: definitions in the order of their files, then what happened, latest first. */
export async function idAnswers(kinds: readonly Kind[], shelf: Shelf): Promise<readonly Answer[]> {
  const records = await recordsOf(kinds, shelf);
  const things = records.filter(({ kind }) => isDefinition(kind));
  const events = records.filter(({ kind }) => !isDefinition(kind)).sort(byDayBackwards);
  return [...things, ...events].map((record) => ({
    word: record.id,
    about: aboutRecord(record, kinds.length > 1),
  }));
}

/** `FIELD=` for the fields of the record that the line names; behind the `=`, what may stand there. */
export async function fieldAnswers(line: TypedLine, shelf: Shelf): Promise<readonly Answer[]> {
  const [id] = line.words;
  const record = (await recordsOf(KINDS, shelf)).find((each) => each.id === id);
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
  const ids = typeof offers === 'string' ? [] : await idAnswers(offers, shelf);
  return [...words, ...ids].map(({ word, about }) => ({ word: `${name}=${word}`, about }));
}

interface Found {
  readonly id: string;
  readonly kind: Kind;
  readonly raw: Raw;
  readonly day: string;
}

// An id that no record may have could act on the terminal, so it is left out.
const ID = new RegExp(PATTERNS['id'] ?? '', 'u');

async function recordsOf(kinds: readonly Kind[], { studio, stamp }: Shelf): Promise<Found[]> {
  const folder = kinds.length === 0 ? undefined : findStudio(studio);
  if (folder === undefined) return [];
  const reading = await readStudio(folder, { cache: true, stamp, kinds });
  if ('refused' in reading) return [];
  const found = reading.files.flatMap(recordsIn);
  return [...new Map(found.map((record) => [record.id, record])).values()];
}

function recordsIn({ kind, root }: RawFile): Found[] {
  if (kind === 'studio') return [];
  return Object.entries(root)
    .filter(([id]) => ID.test(id))
    .map(([id, raw]) => ({ id, kind, raw, day: textIn(raw, 'date') }));
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
  consigned: ['channel'],
  spent: ['for', 'to'],
  tests: ['kind', 'recipe'],
};

/** An answer stands on one line of a terminal. */
const LONGEST = 50;

function aboutRecord({ kind, raw, day }: Found, saysKind: boolean): string {
  const told = TELLING[kind].map((field) => textIn(raw, field));
  const words = [saysKind ? NOUN[kind] : '', day, ...told].filter((word) => word !== '').join(' ');
  return words.length > LONGEST ? `${words.slice(0, LONGEST - 1)}…` : words;
}

function textIn(raw: Raw, field: string): string {
  if (typeof raw === 'string' || !isMap(raw)) return '';
  const value = raw[field];
  return typeof value === 'string' ? value : '';
}

function isMap(raw: Exclude<Raw, string>): raw is Exclude<Raw, string | readonly Raw[]> {
  return !Array.isArray(raw);
}
