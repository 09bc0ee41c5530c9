/** Finds and reads the files that come with the program: the schemas, and the files of a new studio. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';

/** Files that came with the program: path from their folder, with forward slashes → text. */
export type PackageFiles = Readonly<Record<string, string>>;

/** Why the program's own files can't be used. */
interface Incomplete {
  readonly refused: string;
}

/** What tells the program's own folder from those above and below it. */
const LANDMARK = join('schema', 'studio.json');

/** The published schemas by their file names. */
export function schemaFiles(): PackageFiles | Incomplete {
  return filesOf('schema', (name) => name.endsWith('.json') && !name.includes('/'));
}

/** The files that a new studio is made from, with places for what is its own. */
export function newStudioFiles(): PackageFiles | Incomplete {
  return filesOf('schema/new-studio', (name) => name.endsWith('.yaml'));
}

/** The hooks and the workflow for git, with a place for the studio's path. */
export function gitFiles(): PackageFiles | Incomplete {
  return filesOf('schema/for-git', isForGit);
}

function isForGit(name: string): boolean {
  const isFolder = name.endsWith('.d');
  return name.endsWith('.yml') || (name.startsWith('hooks/') && !isFolder);
}

function filesOf(folder: string, isWanted: (name: string) => boolean): PackageFiles | Incomplete {
  try {
    const root = join(programFolder(import.meta.dirname), folder);
    const names = readdirSync(root, { recursive: true, encoding: 'utf8' })
      .map((name) => name.split(sep).join('/'))
      .filter(isWanted);
    return Object.fromEntries(
      names.sort().map((name) => [name, readFileSync(join(root, name), 'utf8')]),
    );
  } catch {
    return {
      refused: `the program is not whole: its folder ${folder} is missing; install it again`,
    };
  }
}

// The nearest folder upwards: the bundle and the sources are not equally deep in it.
function programFolder(folder: string): string {
  const above = dirname(folder);
  return above === folder || existsSync(join(folder, LANDMARK)) ? folder : programFolder(above);
}
