/** The exact command that takes a change back. */
import { isAbsolute, join, relative, resolve } from 'node:path';
import { trackingOf } from '../../read/git/tracked.ts';
import { visible } from '../../render/escape.ts';
import type { FileToWrite } from '../../write/store.ts';
import type { FindingOptions } from '../options.ts';
import type { World } from '../world.ts';

/** Where the person stands, and where the studio is. */
interface Standpoint {
  readonly world: World;
  readonly opened: { readonly folder: string };
}

/**
 * The command of git and the shell that puts the files back as they are now, to be asked before they
 * are changed. Undefined where none does: without git, or where a file has changes that git does not
 * have, which would go with it.
 */
export function takeBack(scene: Standpoint, changes: readonly FileToWrite[]): string | undefined {
  const { folder } = scene.opened;
  const files = changes.map(({ file }) => file);
  const tracked = trackingOf(folder, files, scene.world.environment);
  const isNew = changes.map(({ before }) => before === undefined);
  const canGoBack = tracked.every((each, index) =>
    isNew[index] === true ? each === 'untracked' : each === 'same',
  );
  if (!canGoBack || changes.length === 0) return undefined;
  const [fresh, old] = [true, false].map((wanted) =>
    changes.filter((_, index) => isNew[index] === wanted).map(({ file }) => file),
  );
  return [removal(scene, fresh ?? []), checkout(scene, old ?? [])].filter(Boolean).join(' && ');
}

function removal(scene: Standpoint, files: readonly string[]): string {
  if (files.length === 0) return '';
  return `rm ${files.map((file) => shellQuoted(pathFrom(scene, file))).join(' ')}`;
}

// git looks for its repository from where it is run, so from elsewhere it has to be told.
function checkout(scene: Standpoint, files: readonly string[]): string {
  if (files.length === 0) return '';
  const { folder } = scene.opened;
  const isInside = !isOutside(relative(folder, scene.world.folder));
  const names = files.map((file) => shellQuoted(isInside ? pathFrom(scene, file) : file));
  return `git ${isInside ? '' : `-C ${shellQuoted(folder)} `}checkout -- ${names.join(' ')}`;
}

function pathFrom({ world, opened }: Standpoint, file: string): string {
  const path = relative(resolve(world.folder), join(opened.folder, file));
  return isOutside(path) && path.split('..').length > 3 ? join(opened.folder, file) : path;
}

function isOutside(path: string): boolean {
  return path.startsWith('..') || isAbsolute(path);
}

/** A command of this program, for the same studio. */
export function saggarCommand({ studio }: Pick<FindingOptions, 'studio'>, words: string): string {
  return `saggar ${words}${studio === undefined ? '' : ` --studio ${shellQuoted(studio)}`}`;
}

/**
 * A word as a shell takes it whole; in double quotes where these read easier. Signs that act or can't
 * be seen are written as the bytes that a shell makes of them between `$'` and `'`.
 */
export function shellQuoted(word: string): string {
  if (visible(word) !== word) return `$'${Array.from(word, inBytes).join('')}'`;
  if (/^[\w./@%+=:,-]+$/.test(word)) return word;
  return /["$`\\!]/.test(word) ? `'${word.replaceAll("'", `'\\''`)}'` : `"${word}"`;
}

// Octal, since a shell may take more digits than two of a hexadecimal number.
function inBytes(sign: string): string {
  if (sign === '\n') return '\\n';
  if (visible(sign) === sign && !/['\\!]/.test(sign)) return sign;
  const bytes = [...Buffer.from(sign)];
  return bytes.map((byte) => `\\${byte.toString(8).padStart(3, '0')}`).join('');
}
