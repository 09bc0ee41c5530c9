/** Makes a commit of a studio's files as they are on the disk, in a repository beside the studio's own. */
import { Buffer } from 'node:buffer';
import { isThere } from '../disk.ts';
import { listFiles } from '../find.ts';
import type { Beside } from './beside.ts';
import type { Checkout } from './checkout.ts';
import { conversionsOf, withGitLineEnds, type Conversion } from './conversions.ts';
import { compareWithDisk, readContent, type OnDisk } from './on-disk.ts';
import { commitOf, noAnswer, type Commit, type NoAnswer, type Repository } from './repository.ts';
import { runGit } from './run.ts';
import { listCommit } from './tree.ts';

/** The commit, and the files of it that are as in the one before, since they can't be compared. */
interface DiskCommit {
  readonly commit: Commit;
  readonly uncompared: OnDisk['uncompared'];
}

/**
 * The files on the disk as git would commit them: without what it ignores, and with what the checkout
 * leaves out. What only a filter could make of a file is not made.
 */
export function commitDisk(
  { place, repository }: Beside,
  head: Commit,
  { leftOut, ignored }: Checkout,
): DiskCommit | NoAnswer {
  const listing = listCommit(repository, head);
  if ('refused' in listing) return listing;
  const { blobs } = listing;
  const { same, uncompared } = compareWithDisk(repository, { blobs });
  const kept = new Set([...same, ...uncompared.keys(), ...leftOut, ...ignored]);
  const all = new Set([...blobs.keys(), ...filesOnDisk(repository)]);
  const changes = changesOnDisk(
    repository,
    [...all].filter((file) => !kept.has(file)),
  );
  if ('refused' in changes) return changes;
  const input = Buffer.concat([commitLines(head), ...changes.lines, Buffer.from('done\n')]);
  const run = runGit(place, ['fast-import', '--quiet', '--done'], { input });
  if ('failed' in run) return { refused: noAnswer(head.name, run.failed) };
  const commit = commitOf({ ...repository, ...place }, BRANCH);
  if ('refused' in commit) return commit;
  return {
    commit: { ...commit, name: 'the working tree' },
    uncompared: new Map([...uncompared, ...changes.filtered]),
  };
}

function filesOnDisk({ root = '', prefix }: Repository): string[] {
  const { files } = listFiles(`${root}/${prefix}`);
  return files.filter(({ linked }) => !linked).map(({ file }) => file);
}

interface DiskChanges {
  readonly lines: readonly Buffer[];
  /** File → the filter that nothing is passed through. */
  readonly filtered: OnDisk['uncompared'];
}

function changesOnDisk(repository: Repository, files: readonly string[]): DiskChanges | NoAnswer {
  const { root = '', prefix } = repository;
  const lines: Buffer[] = [];
  const filtered = new Map<string, string>();
  const conversions = conversionsOf(repository, files);
  for (const file of files) {
    const path = `${root}/${prefix}${file}`;
    const { through, lineEnds } = conversions.get(file) ?? {};
    const content = readContent(path);
    if (through !== undefined) filtered.set(file, through);
    else if (!content && isThere(path)) return { refused: `${file} can't be read whole` };
    else lines.push(fileLines(prefix + file, inGit(content, lineEnds)));
  }
  return { lines, filtered };
}

const BRANCH = 'refs/disk/now';

function commitLines({ id }: Commit): Buffer {
  return Buffer.from(`commit ${BRANCH}\ncommitter saggar <> 0 +0000\ndata 0\nfrom ${id}\n`);
}

function inGit(content: Buffer | undefined, lineEnds: Conversion['lineEnds']): typeof content {
  return content && lineEnds ? withGitLineEnds(content, lineEnds) : content;
}

/** Sets a file, or takes it away where it has no content. */
function fileLines(path: string, content: Buffer | undefined): Buffer {
  const quoted = `"${path.replace(/["\\]/g, '\\$&').replaceAll('\n', '\\n')}"`;
  if (!content) return Buffer.from(`D ${quoted}\n`);
  const head = Buffer.from(`M 100644 inline ${quoted}\ndata ${content.length}\n`);
  return Buffer.concat([head, content, Buffer.from('\n')]);
}
