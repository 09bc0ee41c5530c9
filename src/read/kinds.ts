/** Which kind of record a file holds, by its path, and what a file that holds none may be meant for. */
import { KINDS, type Kind } from '../book.ts';
import { nearest } from '../nearest.ts';

/** The file of settings, which makes a folder a studio. */
export const SETTINGS_FILE = 'studio.yaml';

/** The file of buyers' addresses: no part of the book, and read for papers alone. */
export const ADDRESS_FILE = 'buyers.yaml';

const KIND_NAMES: ReadonlySet<string> = new Set(KINDS);
const ENDING = '.yaml';
const ANY_ENDING = /\.ya?ml$/i;

/** The folder of the maps by which lists are taken in. */
export const LISTS_FOLDER = 'lists';

/** Whether a file, by its path from the studio's root, is the map of a list. */
export function isListFile(file: string): boolean {
  return file.startsWith(`${LISTS_FOLDER}/`) && file.endsWith(ENDING);
}

/** Whether a file's name says that it is YAML. */
export function isYamlName(name: string): boolean {
  return ANY_ENDING.test(name);
}

/**
 * The kind of the records of a file, by its path from the studio's root with forward slashes:
 * `KIND.yaml`, or any `.yaml` file below `KIND/`; undefined for a file that belongs to no kind.
 */
export function kindOf(file: string): Kind | 'studio' | undefined {
  if (file === SETTINGS_FILE) return 'studio';
  if (!file.endsWith(ENDING)) return undefined;
  return asKind(territory(file));
}

/** The kind that a path belongs to if it is a file or a folder of records, whatever is in it. */
export function kindOfPath(path: string): Kind | undefined {
  return asKind(territory(path));
}

/**
 * The path that a YAML file of no kind is most likely meant to have: the kind's name mistyped, in
 * capitals or in another folder, or another ending. Undefined when nothing is near enough.
 */
export function likelyPath(file: string): string | undefined {
  const [first = '', ...rest] = file.replace(ANY_ENDING, '').split('/');
  const kind = likelyKind(first);
  if (kind !== undefined) return [kind, ...rest].join('/') + ENDING;
  if (rest.length === 0) return nearest(first, ['studio']) && SETTINGS_FILE;
  const inner = likelyKind(rest.at(-1) ?? '');
  return inner && `${inner}/${[first, ...rest.slice(0, -1)].join('-')}${ENDING}`;
}

function territory(path: string): string {
  const slash = path.indexOf('/');
  if (slash >= 0) return path.slice(0, slash);
  return path.endsWith(ENDING) ? path.slice(0, -ENDING.length) : path;
}

function asKind(name: string): Kind | undefined {
  return KIND_NAMES.has(name) ? (name as Kind) : undefined;
}

function likelyKind(name: string): Kind | undefined {
  return asKind(nearest(name, KINDS) ?? '');
}
