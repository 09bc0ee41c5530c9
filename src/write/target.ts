/** Which file a new record goes to, and what id it gets. */
import type { DEFINITION_KINDS, EVENT_KINDS, Kind } from '../book.ts';

type DefinitionKind = (typeof DEFINITION_KINDS)[number];
type KindOfEvent = (typeof EVENT_KINDS)[number];

/** How the records of an event kind are spread over files: one file each, one a month or one a year. */
const SPREAD: Readonly<Record<KindOfEvent, 'each' | 'month' | 'year'>> = {
  bought: 'month',
  reclaimed: 'month',
  mixed: 'each',
  pieces: 'each',
  firings: 'each',
  used: 'month',
  counted: 'month',
  orders: 'year',
  sales: 'month',
  advances: 'month',
  consigned: 'month',
  fairs: 'year',
  spent: 'month',
  tests: 'month',
  filed: 'year',
};

/** The first letter of new ids of each event kind; g as in gallery, k as in market, e as in expense, d as in filed. */
export const KIND_LETTERS: Readonly<Record<KindOfEvent, string>> = {
  bought: 'b',
  reclaimed: 'r',
  mixed: 'm',
  pieces: 'p',
  firings: 'f',
  used: 'u',
  counted: 'c',
  orders: 'o',
  sales: 's',
  advances: 'a',
  consigned: 'g',
  fairs: 'k',
  spent: 'e',
  tests: 't',
  filed: 'd',
};

/** A record that has no file yet. */
interface NewEntry {
  readonly kind: Kind;
  readonly id: string;
  /** ISO date of an event; definitions have none. */
  readonly day?: string | undefined;
}

/** A form of path below the kind's folder, without the ending, and what it is for a new record. */
interface PathForm {
  readonly form: RegExp;
  readonly path: (entry: { year: string; month: string; id: string }) => string;
}

const BY_MONTH: PathForm = {
  form: /^\d{4}-\d\d$/,
  path: ({ year, month }) => `${year}-${month}`,
};
const BY_YEAR: PathForm = { form: /^\d{4}$/, path: ({ year }) => year };
const BY_ID: PathForm = { form: /^[^/]+$/, path: ({ id }) => id };

/** Names of devices, which Windows takes for no file whatever ending they have. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)$/i;

/** A file for many records of a month or a year. */
const DATED: readonly PathForm[] = [
  BY_MONTH,
  { form: /^\d{4}\/\d{4}-\d\d$/, path: ({ year, month }) => `${year}/${year}-${month}` },
  { form: /^\d{4}\/\d\d$/, path: ({ year, month }) => `${year}/${month}` },
  BY_YEAR,
  { form: /^\d{4}\/\d{4}$/, path: ({ year }) => `${year}/${year}` },
];

/** A file for each record. */
const NAMED: readonly PathForm[] = [
  BY_ID,
  { form: /^\d{4}\/[^/]+$/, path: ({ year, id }) => `${year}/${id}` },
  { form: /^\d{4}\/\d\d\/[^/]+$/, path: ({ year, month, id }) => `${year}/${month}/${id}` },
  { form: /^\d{4}-\d\d\/[^/]+$/, path: ({ year, month, id }) => `${year}-${month}/${id}` },
];

const USUAL = { each: BY_ID, month: BY_MONTH, year: BY_YEAR } as const;

/** An id as `newId` makes it, at the end of a path. */
const MADE_ID = /(?:^|\/)[a-z]\d{6}[a-z]{2,}$/;

/**
 * The file that a new record goes to, as a path from the studio's root.
 * A person's own choice comes first: where all records of the kind are in one file at the root, or
 * the year or month has a file already, the record goes there, and else to where most files of the
 * kind lie, such as in a folder a year. Without any, lots, mixes and firings get a file each, named by
 * id, fairs a file a year, the other events a file a month; definitions go to the kind's file at the
 * root, or to its only file.
 * @param files the files that the kind's records are in now, from the studio's root
 */
export function targetFile({ kind, id, day }: NewEntry, files: readonly string[]): string {
  const [only] = files.length === 1 ? files : [];
  if (isDefinition(kind)) return definitionFile(kind, files);
  if (only !== undefined && isAtRoot(only)) return only;
  const entry = {
    id: DEVICE.test(id) ? `${id}-record` : id,
    year: (day ?? '').slice(0, 4),
    month: (day ?? '').slice(5, 7),
  };
  const form = commonForm(kind, files);
  const usual = `${kind}/${form.path(entry)}.yaml`;
  if (NAMED.includes(form)) return usual;
  const taken = DATED.flatMap(({ path }) => [
    `${kind}/${path(entry)}.yaml`,
    `${kind}/${path(entry)}.yml`,
  ]);
  return taken.find((file) => files.includes(file)) ?? usual;
}

/** The form of most of the kind's paths; the usual one where none leads. */
function commonForm(kind: KindOfEvent, files: readonly string[]): PathForm {
  const counts = new Map<PathForm, number>([[USUAL[SPREAD[kind]], 0]]);
  for (const file of files) {
    const form = formOf(kind, file);
    if (form) counts.set(form, (counts.get(form) ?? 0) + 1);
  }
  return [...counts].reduce((most, next) => (next[1] > most[1] ? next : most))[0];
}

/** What is named by no date tells something only of kinds that get a file each, or named by an id. */
function formOf(kind: KindOfEvent, file: string): PathForm | undefined {
  const path = file.slice(kind.length + 1).replace(/\.ya?ml$/, '');
  const dated = DATED.find(({ form }) => form.test(path));
  if (dated || (SPREAD[kind] !== 'each' && !MADE_ID.test(path))) return dated;
  return NAMED.find(({ form }) => form.test(path));
}

function definitionFile(kind: DefinitionKind, files: readonly string[]): string {
  const [only] = files.length === 1 ? files : [];
  return files.find(isAtRoot) ?? only ?? `${kind}.yaml`;
}

function isAtRoot(file: string): boolean {
  return !file.includes('/');
}

/** Consonants that no one mistakes for a digit or for another: they also spell no words. */
const LETTERS = 'bcdfghjkmnprstwxz';

/** A new event that has no id yet. */
interface NewEvent {
  readonly kind: KindOfEvent;
  /** ISO date. */
  readonly day: string;
}

/**
 * A new id: the kind's letter, the date as yymmdd and two random letters, `s260308kt`; three letters
 * and more once all pairs of the day are taken.
 * @param taken whether an id is in use anywhere in the studio, without regard to capitals
 * @param random a number from 0 to below 1, asked once for each length tried
 */
export function newId(
  { kind, day }: NewEvent,
  taken: (id: string) => boolean,
  random: () => number,
): string {
  const stem = KIND_LETTERS[kind] + day.replaceAll('-', '').slice(2);
  for (let length = 2; ; length++) {
    const count = LETTERS.length ** length;
    const first = Math.floor(random() * count);
    const id = firstFree(count, (step) => stem + ending((first + step) % count, length), taken);
    if (id !== undefined) return id;
  }
}

function firstFree(
  count: number,
  idAt: (step: number) => string,
  taken: (id: string) => boolean,
): string | undefined {
  for (let step = 0; step < count; step++) {
    const id = idAt(step);
    if (!taken(id)) return id;
  }
  return undefined;
}

function ending(number: number, length: number): string {
  const letters = Array.from({ length }, (_, place) =>
    LETTERS.charAt(Math.floor(number / LETTERS.length ** place) % LETTERS.length),
  );
  return letters.reverse().join('');
}

/** The folder of a studio that holds the schemas for the editor; readers skip it. */
export const SCHEMA_FOLDER = '.schema';

/**
 * The comment line, without a line end, by which editors with YAML support find the schema of a file:
 * the path is relative to the file, as they expect it.
 * @param file path from the studio's root, with forward slashes
 */
export function modelineFor(kind: Kind | 'studio', file: string): string {
  const upward = '../'.repeat(file.split('/').length - 1);
  return `# yaml-language-server: $schema=${upward}${SCHEMA_FOLDER}/${kind}.json`;
}

function isDefinition(kind: Kind): kind is DefinitionKind {
  return !(kind in SPREAD);
}
