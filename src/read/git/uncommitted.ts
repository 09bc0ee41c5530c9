/** Finds which files of a studio differ from what was last committed. */
import { withoutIndex } from './conversions.ts';
import { readIndex, type GitIndex, type IndexEntry } from './index-file.ts';
import { compareWithDisk } from './on-disk.ts';
import type { Environment } from './program.ts';
import { openRepository, type Repository } from './repository.ts';
import { AT_ONCE, askGit } from './run.ts';
import { SUBMODULE, treeEntries } from './tree.ts';

/** What is not, or may not be, as it was committed; paths are from the studio's root. */
export interface Uncommitted {
  readonly files: readonly string[];
  /** File → what would have to change its content before it can be compared, in words. */
  readonly uncompared: ReadonlyMap<string, string>;
}

/**
 * The files in the studio that git has not committed as they are now: new, changed, moved or deleted
 * ones, but none that it is told to ignore. Whether a file may be run makes no difference, and another
 * repository is not looked into. Undefined without git, outside a repository, and where git does not
 * answer at once. Never throws, and changes nothing.
 */
export function uncommittedFiles(
  studioDir: string,
  environment: Environment,
): Uncommitted | undefined {
  const repository = openRepository(studioDir, environment);
  if ('refused' in repository) return undefined;
  const committed = committedIn(repository);
  const there = committed && filesThere(repository);
  if (!there) return undefined;
  const index = readIndex(repository);
  const staged = index ? stagedIn(index, repository.prefix, committed) : committed;
  const { changed, uncompared } = changedOnDisk(repository, { staged, there, index });
  const files = new Set([
    ...[...committed].flatMap(([file, { id }]) => (staged.get(file)?.id === id ? [] : [file])),
    ...[...staged.keys()].filter((file) => !committed.has(file)),
    ...changed,
    ...[...there].filter((file) => !staged.has(file)),
  ]);
  return { files: [...files].sort(), uncompared };
}

/** What is committed or staged, by paths from the studio's root. */
type Contents = ReadonlyMap<string, Content>;

type Content = Pick<IndexEntry, 'id'> &
  Partial<Omit<IndexEntry, 'mode'>> & { readonly isOther: boolean };

/** Empty before the first commit. */
function committedIn(repository: Repository): Contents | undefined {
  const entries = treeEntries(repository, 'HEAD', { within: AT_ONCE });
  if ('failed' in entries)
    return entries.failed.startsWith('Not a valid object name') ? new Map() : undefined;
  return new Map(entries.map(({ mode, id, path }) => [path, { id, isOther: mode === SUBMODULE }]));
}

/** All files on the disk but those that are ignored, of which tracked ones may be; a folder for a repository. */
function filesThere(repository: Repository): ReadonlySet<string> | undefined {
  const { prefix } = repository;
  const below = prefix === '' ? [] : ['--', prefix];
  const words = ['ls-files', '--others', '--exclude-standard', '-z', ...below];
  const printed = askGit(withoutIndex(repository), words, { within: AT_ONCE });
  const paths = printed?.split('\0').filter((path) => path.startsWith(prefix) && path !== prefix);
  return paths && new Set(paths.map((path) => path.slice(prefix.length).replace(/\/$/, '')));
}

const FOLDER = 0o40000;
const OTHER = 0o160000;

/** A folder that is left out of the disk as a whole has one entry, for all that is committed in it. */
function stagedIn({ entries }: GitIndex, prefix: string, committed: Contents): Contents {
  const folders = [...entries].flatMap(([path, { mode }]) => (mode === FOLDER ? [path] : []));
  const isLeftOut = (file: string): boolean => folders.some((path) => file.startsWith(path));
  const leftOut = [...committed].filter(([file]) => isLeftOut(prefix + file));
  const listed = [...entries].filter(
    ([path, { mode }]) => mode !== FOLDER && path.startsWith(prefix),
  );
  return new Map<string, Content>([
    ...leftOut.map(([file, each]): [string, Content] => [file, { ...each, isSkipped: true }]),
    ...listed.map(([path, entry]): [string, Content] => [
      path.slice(prefix.length),
      { ...entry, isOther: entry.mode === OTHER },
    ]),
  ]);
}

interface Sides {
  readonly staged: Contents;
  readonly there: ReadonlySet<string>;
  readonly index: GitIndex | undefined;
}

function changedOnDisk(
  repository: Repository,
  { staged, there, index }: Sides,
): { changed: string[] } & Pick<Uncommitted, 'uncompared'> {
  const looked = [...staged].filter(
    ([file, { isOther, isAssumed = false, isSkipped = false }]) =>
      !isOther && !isAssumed && (!isSkipped || there.has(file)),
  );
  const blobs = new Map(looked.map(([file, { id }]) => [file, id]));
  const { same, uncompared } = compareWithDisk(repository, { blobs, index });
  const changed = looked.filter(
    ([file, { isUnmerged }]) => isUnmerged === true || !(same.has(file) || uncompared.has(file)),
  );
  return { changed: changed.map(([file]) => file), uncompared };
}
