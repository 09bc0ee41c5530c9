/** A repository of our own in a temporary folder, which sees the objects of a studio's and takes new ones. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { delimiter, isAbsolute, join } from 'node:path';
import { attempt } from '../../attempt.ts';
import { sharedDirOf } from './around.ts';
import type { Environment } from './program.ts';
import { noAnswer, type Commit, type NoAnswer, type Repository } from './repository.ts';
import type { GitPlace } from './run.ts';

/** The repository; nothing in it comes from the studio's but objects, so no setting of that one holds. */
export interface Beside {
  /** To run git in it. */
  readonly place: GitPlace;
  /** The studio's repository, which sees the new objects too. */
  readonly repository: Repository;
  /** What git is to call a commit here: like its name, where a branch may have that, else its id. */
  readonly nameOf: (commit: Commit) => string;
  /** Deletes it. */
  readonly release: () => void;
}

/** Makes one; refuses where nothing can be written in the folder for temporary files. */
export function openBeside(repository: Repository, environment: Environment): Beside | NoAnswer {
  const folder = attempt(() => mkdtempSync(join(temporaryFolder(environment), 'saggar-')));
  if (folder === undefined)
    return { refused: noAnswer(repository.gitDir, 'no temporary folder can be made') };
  const objects = join(folder, 'objects');
  fill(folder, repository);
  const seen = {
    ...repository.environment,
    GIT_OBJECT_DIRECTORY: objects,
    GIT_ALTERNATE_OBJECT_DIRECTORIES: objectFolders(repository).map(quoted).join(delimiter),
  };
  return {
    place: {
      program: repository.program,
      environment: { ...seen, ...NOBODYS, HOME: folder, XDG_CONFIG_HOME: folder },
      where: ['-C', folder, `--git-dir=${folder}`],
    },
    repository: { ...repository, environment: seen },
    nameOf: (commit) => nameBranch(folder, commit),
    release: () => {
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** No settings but those of the folder itself, and no attributes. */
const NOBODYS: Environment = {
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_SYSTEM: '/dev/null',
  GIT_CONFIG_NOSYSTEM: '1',
  GIT_ATTR_NOSYSTEM: '1',
};

function temporaryFolder(environment: Environment): string {
  const named = ['TMPDIR', 'TEMP', 'TMP'].map((name) => environment[name] ?? '');
  return named.find((path) => isAbsolute(path)) ?? '/tmp';
}

function fill(folder: string, { gitDir, idLength }: Repository): void {
  mkdirSync(join(folder, 'objects'));
  mkdirSync(join(folder, 'refs'));
  writeFileSync(join(folder, 'HEAD'), 'ref: refs/heads/none\n');
  writeFileSync(
    join(folder, 'config'),
    idLength === 32 ? `${OWN_SETTINGS}${LONG_IDS}` : OWN_SETTINGS,
  );
  const shallow = attempt(() => readFileSync(join(sharedDirOf(gitDir), 'shallow')));
  if (shallow) writeFileSync(join(folder, 'shallow'), shallow);
}

// In a conflict each side is shown with what it was before, so that each record is whole.
const OWN_SETTINGS =
  '[core]\n\trepositoryformatversion = 1\n\tbare = true\n[merge]\n\tconflictStyle = diff3\n';
const LONG_IDS = '[extensions]\n\tobjectFormat = sha256\n';

/** The real objects, and those that are just being received. */
function objectFolders({ gitDir, environment }: Repository): string[] {
  const received = environment['GIT_OBJECT_DIRECTORY'];
  const real = join(sharedDirOf(gitDir), 'objects');
  return received === undefined ? [real] : [received, real];
}

/** In git's list of folders quotes keep a path whole. */
function quoted(path: string): string {
  return JSON.stringify(path);
}

/** What git would take for a file of the repository's own. */
const NOT_A_BRANCH = /^(?:config|objects|refs|shallow)$|\.lock(?:\/|$)|\.\./;

function nameBranch(folder: string, { name, id }: Commit): string {
  const branch = name === 'HEAD' ? 'this-branch' : name.replace(/^the /, '').replaceAll(' ', '-');
  const isPlain = /^[A-Za-z][\w-]*(?:[./][\w-]+)*$/.test(branch) && !NOT_A_BRANCH.test(branch);
  const path = join(folder, 'refs/heads', branch);
  const isWritten =
    isPlain &&
    attempt(() => {
      mkdirSync(join(path, '..'), { recursive: true });
      writeFileSync(path, `${id}\n`, { flag: 'wx' });
      return true;
    });
  return isWritten ? branch : id;
}
