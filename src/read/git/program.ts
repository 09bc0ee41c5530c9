/** Which program git is, and the environment that it is run with. */
import { accessSync, constants, realpathSync, statSync } from 'node:fs';
import { delimiter, isAbsolute, join, sep } from 'node:path';
import { isInFolder } from './around.ts';

/** Variables of the environment. */
export type Environment = Readonly<Record<string, string | undefined>>;

const GIT_NAME = sep === '\\' ? 'git.exe' : 'git';

/**
 * Git's program by the PATH, but never one in the folder that is looked at, nor by a path that is not
 * absolute: such a one leads to wherever somebody happens to be. Undefined where there is none.
 */
export function gitProgram(environment: Environment, folder: string): string | undefined {
  const places = searchPath(environment).map((place) => join(place, GIT_NAME));
  return places.find((path) => isProgramOutside(path, folder));
}

function searchPath(environment: Environment): readonly string[] {
  const path = Object.entries(environment).find(([name]) => name.toUpperCase() === 'PATH')?.[1];
  return (path ?? '').split(delimiter).filter((place) => isAbsolute(place));
}

function isProgramOutside(path: string, folder: string): boolean {
  try {
    if (!statSync(path).isFile()) return false;
    accessSync(path, constants.X_OK);
    return !isInFolder(folder, path) && !isInFolder(realpathSync(folder), realpathSync(path));
  } catch {
    return false;
  }
}

/** What the system needs to start a program, and whose folder is the home with its settings. */
const KEPT: ReadonlySet<string> = new Set([
  'SYSTEMDRIVE',
  'SYSTEMROOT',
  'WINDIR',
  'HOMEDRIVE',
  'HOMEPATH',
  'PROGRAMDATA',
  'TEMP',
  'TMP',
  // Whose repositories may be read where somebody works as root.
  'SUDO_UID',
  'GIT_CONFIG_NOSYSTEM',
]);

/** The same by a path, which must not depend on where somebody is. */
const KEPT_PATHS: ReadonlySet<string> = new Set([
  'HOME',
  'USERPROFILE',
  'XDG_CONFIG_HOME',
  'GIT_CONFIG_GLOBAL',
  'GIT_CONFIG_SYSTEM',
]);

/** Plain English, no questions, no network, no log of what is done, and no content in place of other. */
const OURS: Environment = {
  LC_ALL: 'C',
  GIT_TERMINAL_PROMPT: '0',
  GIT_OPTIONAL_LOCKS: '0',
  GIT_NO_LAZY_FETCH: '1',
  // A protocol can't be called that, so none is allowed, whatever the settings say.
  GIT_ALLOW_PROTOCOL: '/',
  GIT_NO_REPLACE_OBJECTS: '1',
  GIT_LITERAL_PATHSPECS: '1',
  GIT_TRACE2: '0',
  GIT_TRACE2_EVENT: '0',
  GIT_TRACE2_PERF: '0',
};

/**
 * The environment that git is run with. A hook is run with variables that name the repository that it
 * belongs to, and others name programs: of all these none is handed on.
 */
export function gitEnvironment(environment: Environment): Environment {
  const kept = Object.entries(environment).filter(([name, value = '']) => {
    const known = name.toUpperCase();
    return KEPT.has(known) || (KEPT_PATHS.has(known) && isAbsolute(value));
  });
  return { ...Object.fromEntries(kept), PATH: searchPath(environment).join(delimiter), ...OURS };
}

/**
 * While a push is received its objects lie in a place that only variables name: a folder among the
 * repository's own objects, which is where it is believed to be.
 */
export function duringPush(environment: Environment, gitDir: string): Environment {
  const place = environment['GIT_QUARANTINE_PATH'];
  const objects = join(gitDir, 'objects');
  if (place === undefined || !isAbsolute(place) || !isFolderWithin(objects, place)) return {};
  return {
    GIT_OBJECT_DIRECTORY: place,
    // A list, in which quotes keep a path whole.
    GIT_ALTERNATE_OBJECT_DIRECTORIES: JSON.stringify(objects),
  };
}

function isFolderWithin(folder: string, path: string): boolean {
  try {
    const [outer, inner] = [realpathSync(folder), realpathSync(path)];
    return outer !== inner && isInFolder(outer, inner) && statSync(inner).isDirectory();
  } catch {
    return false;
  }
}
