/** Finds which files of a studio differ from what was last committed. */
import { withoutIndex } from './conversions.ts';
import { readIndex, type GitIndex, type IndexEntry } from './index-file.ts';
import { compareWithDisk } from './on-disk.ts';
import type { Environment } from './program.ts';
import { openRepository, type Repository } from './repository.ts';
import { AT_ONCE, askGit } from './run.ts';
import { treeEntries } from './tree.ts';

/** What is not, or may not be, as it was committed; paths are from the studio's root. */
interface Uncommitted {
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
    ...[...committed.keys()].filter((file) => staged.get(file)?.id !== committed.get(file)?.id),
    ...[...staged.keys()].filter((file) => !committed.has(file)),
    ...changed,
    ...[...there].filter((file) => !staged.has(file)),
  ]);
  return { files: [...files].sort(), uncompared };
}

/** What is committed or staged, by paths from the studio's root. */
export type Contents = ReadonlyMap<string, Content>;

type Content = Pick<IndexEntry, 'id' | 'mode'> & Partial<IndexEntry>;

/** Empty before the first commit. */
function committedIn(repository: Repository): Contents | undefined {
  const entries = treeEntries(repository, 'HEAD', { within: AT_ONCE });
  if ('failed' in entries)
    return entries.failed.startsWith('Not a valid object name') ? new Map() : undefined;
  const committed = new Map<string, Content>();
  for (const { mode, id, path } of entries) committed.set(path, { id, mode: parseInt(mode, 8) });
  return committed;
}

/** All files on the disk but those that are ignored, of which tracked ones may be; a folder for a repository. */
export function filesThere(repository: Repository): ReadonlySet<string> | undefined {
  const { prefix } = repository;
  const below = prefix === '' ? [] : ['--', prefix];
  const words = ['ls-files', '--others', '--exclude-standard', '-z', ...below];
  const printed = askGit(withoutIndex(repository), words, { within: AT_ONCE });
  const paths = printed?.split('\0').filter((path) => path.startsWith(prefix) && path !== prefix);
  return paths && new Set(paths.map((path) => path.slice(prefix.length).replace(/\/$/, '')));
}

const FOLDER = 0o40000;
const SUBMODULE = 0o160000;

/** A folder that is left out of the disk as a whole has one entry, for all that is committed in it. */
export function stagedIn({ entries }: GitIndex, prefix: string, committed: Contents): Contents {
  const staged = new Map<string, Content>();
  const leftOut: string[] = [];
  for (const [path, entry] of entries) {
    if (entry.mode === FOLDER) leftOut.push(path);
    else if (path.startsWith(prefix)) staged.set(path.slice(prefix.length), entry);
  }
  const isLeftOut = (file: string): boolean => leftOut.some((path) => file.startsWith(path));
  const hidden =
    leftOut.length === 0 ? [] : [...committed.keys()].filter((file) => isLeftOut(prefix + file));
  for (const file of hidden)
    staged.set(file, { id: '', mode: FOLDER, ...committed.get(file), isSkipped: true });
  return staged;
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
  const blobs = new Map<string, string>();
  for (const [file, { id, mode, isAssumed = false, isSkipped = false }] of staged)
    if (mode !== SUBMODULE && !isAssumed && (!isSkipped || there.has(file))) blobs.set(file, id);
  const { same, uncompared } = compareWithDisk(repository, { blobs, index });
  const isKnown = (file: string): boolean => same.has(file) || uncompared.has(file);
  const changed = [...blobs.keys()].filter(
    (file) => staged.get(file)?.isUnmerged === true || !isKnown(file),
  );
  return { changed, uncompared };
}
