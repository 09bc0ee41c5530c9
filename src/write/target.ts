/** Which file a new record goes to, and what id it gets. */
import type { DEFINITION_KINDS, EVENT_KINDS, Kind } from '../book.ts';

type DefinitionKind = (typeof DEFINITION_KINDS)[number];
type EventKind = (typeof EVENT_KINDS)[number];

/** How the records of an event kind are spread over files: one file each, one a month or one a year. */
const SPREAD: Readonly<Record<EventKind, 'each' | 'month' | 'year'>> = {
  bought: 'month',
  reclaimed: 'month',
  mixed: 'each',
  pieces: 'each',
  firings: 'each',
  used: 'month',
  counted: 'month',
  sales: 'month',
  advances: 'month',
  consigned: 'month',
  fairs: 'year',
  spent: 'month',
  tests: 'month',
};

/** The first letter of new ids of each event kind; g as in gallery, k as in market, e as in expense. */
export const KIND_LETTERS: Readonly<Record<EventKind, string>> = {
  bought: 'b',
  reclaimed: 'r',
  mixed: 'm',
  pieces: 'p',
  firings: 'f',
  used: 'u',
  counted: 'c',
  sales: 's',
  advances: 'a',
  consigned: 'g',
  fairs: 'k',
  spent: 'e',
  tests: 't',
};

/** A record that has no file yet. */
export interface NewEntry {
  readonly kind: Kind;
  readonly id: string;
  /** ISO date of an event; definitions have none. */
  readonly day?: string | undefined;
}

/**
 * The file that a new record goes to, as a path from the studio's root.
 * A person's own choice comes first: where all records of the kind are in one file at the root, or
 * the year or month has a file already, the record goes there. Else lots, mixes and firings get a
 * file each, named by id, fairs a file a year, the other events a file a month; definitions go to the kind's file at the
 * root, or to its only file.
 * @param files the files that the kind's records are in now, from the studio's root
 */
export function targetFile({ kind, id, day }: NewEntry, files: readonly string[]): string {
  const [only] = files.length === 1 ? files : [];
  if (isDefinition(kind)) return definitionFile(kind, files);
  if (only !== undefined && isAtRoot(only)) return only;
  if (SPREAD[kind] === 'each') return `${kind}/${id}.yaml`;
  const month = (day ?? '').slice(0, 7);
  const year = month.slice(0, 4);
  const names = [month, `${year}/${month}`, `${year}/${month.slice(5)}`, year, `${year}/${year}`];
  const taken = names.flatMap((name) => [`${kind}/${name}.yaml`, `${kind}/${name}.yml`]);
  return (
    taken.find((file) => files.includes(file)) ??
    `${kind}/${SPREAD[kind] === 'year' ? year : month}.yaml`
  );
}

function definitionFile(kind: DefinitionKind, files: readonly string[]): string {
  const [only] = files.length === 1 ? files : [];
  return files.find(isAtRoot) ?? only ?? `${kind}.yaml`;
}

function isAtRoot(file: string): boolean {
  return !file.includes('/');
}

function isDefinition(kind: Kind): kind is DefinitionKind {
  return !(kind in SPREAD);
}

/** Consonants that no one mistakes for a digit or for another: they also spell no words. */
const LETTERS = 'bcdfghjkmnprstwxz';

/** A new event that has no id yet. */
export interface NewEvent {
  readonly kind: EventKind;
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
