/** Lists the studio's files in a commit, by the rules of those on the disk. */
import { compareTexts } from '../../text-order.ts';
import { asStray, isPassedOver, type ListedFile, type StudioListing } from '../find.ts';
import { ADDRESS_FILE, SETTINGS_FILE, isYamlName, kindOf } from '../kinds.ts';
import { noAnswer, type Commit, type NoAnswer, type Repository } from './repository.ts';
import { askGit, runGit, type Failed, type GitWay } from './run.ts';

/** What a commit has that is not looked into: a link or another repository. */
export interface PassedOver {
  readonly path: string;
  readonly what: 'link' | 'submodule';
}

/** The studio's files in a commit. */
export interface CommitListing extends StudioListing {
  /** Path from the studio's root → id of the file's content. */
  readonly blobs: ReadonlyMap<string, string>;
  readonly passedOver: readonly PassedOver[];
}

/** A file, link or other repository in a commit. */
interface TreeEntry {
  readonly mode: string;
  readonly id: string;
  /** From the studio's root. */
  readonly path: string;
}

const LINK = '120000';

const SUBMODULE = '160000';

const PLAIN = '100';

/** All that a commit has of the studio, or why git does not list it. */
export function treeEntries(
  repository: Repository,
  revision: string,
  way?: GitWay,
): readonly TreeEntry[] | Failed {
  const { prefix } = repository;
  const below = prefix === '' ? [] : ['--', prefix];
  const words = ['ls-tree', '-r', '-z', '--full-tree', revision, ...below];
  const printed = runGit(repository, words, way);
  if ('failed' in printed) return printed;
  return printed.text.split('\0').flatMap((line) => entryOf(line, prefix));
}

/** The files of the studio in a commit, or why git can't list them. */
export function listCommit(repository: Repository, { id, name }: Commit): CommitListing | NoAnswer {
  const entries = treeEntries(repository, id);
  if ('failed' in entries)
    return entries.isLate
      ? { refused: noAnswer(repository.gitDir, entries.failed) }
      : { refused: `git can't list the files of ${name}` };
  const kept = entries.filter(
    ({ path }) => path !== ADDRESS_FILE && !path.split('/').some(isPassedOver),
  );
  const plain = kept.filter(({ mode, path }) => isFile(mode) && isYamlName(path));
  return {
    files: plain.flatMap(({ path }) => asListed(path)).sort((a, b) => compareTexts(a.file, b.file)),
    strays: plain.filter(({ path }) => !kindOf(path)).map(({ path }) => asStray(path)),
    findings: [],
    blobs: new Map(
      kept.filter(({ mode }) => isFile(mode)).map(({ path, id: blob }) => [path, blob]),
    ),
    passedOver: kept.flatMap(asPassedOver),
  };
}

/** Id of the content that a commit has of a file, by its path from the studio's root; links have none. */
export function blobAt(
  repository: Repository,
  { id }: Pick<Commit, 'id'>,
  file: string,
): string | undefined {
  const { prefix } = repository;
  const words = ['ls-tree', '-z', '--full-tree', id, '--', prefix + file];
  const entries = (askGit(repository, words) ?? '')
    .split('\0')
    .flatMap((line) => entryOf(line, prefix));
  return entries.find(({ mode, path }) => path === file && mode.startsWith(PLAIN))?.id;
}

/** One line of git's: mode, type, id, a tab, the path from the repository's root. */
function entryOf(line: string, prefix: string): TreeEntry[] {
  const tab = line.indexOf('\t');
  const path = line.slice(tab + 1);
  if (tab < 0 || !path.startsWith(prefix)) return [];
  const id = line.slice(line.lastIndexOf(' ', tab) + 1, tab);
  return [{ mode: line.slice(0, 6), id, path: path.slice(prefix.length) }];
}

function isFile(mode: string): boolean {
  return mode !== LINK && mode !== SUBMODULE;
}

function asListed(file: string): ListedFile[] {
  const kind = kindOf(file);
  return kind === undefined ? [] : [{ file, kind, linked: false }];
}

function asPassedOver({ mode, path }: TreeEntry): PassedOver[] {
  if (mode === SUBMODULE) return [{ path, what: 'submodule' }];
  return mode === LINK ? [{ path, what: 'link' }] : [];
}

/** Paths of the studios in a commit, each empty or with a slash at its end. */
export function studiosIn(repository: Repository, { id }: Pick<Commit, 'id'>): readonly string[] {
  const printed = askGit(repository, ['ls-tree', '-r', '-z', '--name-only', '--full-tree', id]);
  const paths = (printed ?? '').split('\0');
  const settings = paths.filter((path) => path === SETTINGS_FILE || path.endsWith(IN_FOLDER));
  return settings.map((path) => path.slice(0, -SETTINGS_FILE.length));
}

const IN_FOLDER = `/${SETTINGS_FILE}`;
