/** Finds the studio that a command is for, and the day; nothing of it is read yet. */
import type { Day } from '../../book.ts';
import { forgetFolder, storeOf, type StudioStore } from '../../memory/store.ts';
import { findStudio } from '../../read/find.ts';
import type { Commit, Repository } from '../../read/git/repository.ts';
import type { AT, FindingOptions } from '../options.ts';
import { askedDay } from '../reports/span.ts';
import type { ValuesOf } from '../spec.ts';
import { isRefusal, type Asked, type Refusal, type World } from '../world.ts';

/** A studio that was found, and the day that it is looked at. */
export interface StudioFound {
  readonly folder: string;
  readonly asOf: Day;
  /** Where the book of a commit is asked for, and not the one on the disk. */
  readonly past?: { readonly repository: Repository; readonly commit: Commit };
  /** Where the studio is remembered, if anywhere. */
  readonly store: StudioStore | undefined;
  /** What is being done is said here, where somebody looks on. */
  readonly progress?: World['progress'];
}

/** The same, with the commit of `--at` where one is asked for; refuses what is not a commit. */
export async function findInTime(
  asked: Asked<FindingOptions & ValuesOf<typeof AT>>,
  world: World,
): Promise<StudioFound | Refusal> {
  const found = findAsked(asked, world);
  const { at } = asked.options;
  if (isRefusal(found)) return (await findBare(asked, world)) ?? found;
  if (at === undefined) return found;
  const { openRepository, snapshotOf } = await import('../../read/git/repository.ts');
  const repository = openRepository(found.folder, world.environment);
  if (isRefusal(repository)) return repository;
  const commit = snapshotOf(repository, at);
  return isRefusal(commit) ? commit : { ...found, past: { repository, commit } };
}

/** A studio that is in no folder, only in a repository. */
async function findBare(
  { options }: Asked<FindingOptions & ValuesOf<typeof AT>>,
  world: World,
): Promise<StudioFound | Refusal | undefined> {
  const asOf = askedDay(options, world);
  if (typeof asOf !== 'string') return asOf;
  const { bareAsked, inBare } = await import('./bare.ts');
  const place = bareAsked(options, world);
  if (!place || isRefusal(place)) return place;
  if (options.at === undefined)
    return { refused: 'a bare repository has no working tree; name a commit, such as --at main' };
  const { snapshotOf } = await import('../../read/git/repository.ts');
  const commit = snapshotOf(place.repository, options.at);
  if (isRefusal(commit)) return commit;
  const repository = inBare(place, commit);
  if (isRefusal(repository)) return repository;
  const { progress } = world;
  return {
    folder: repository.gitDir,
    asOf,
    store: undefined,
    progress,
    past: { repository, commit },
  };
}

/** Finds the studio that is asked for; refuses when there is none or when the day is not a day. */
export function findAsked({ options }: Asked<FindingOptions>, world: World): StudioFound | Refusal {
  const asOf = askedDay(options, world);
  if (typeof asOf !== 'string') return asOf;
  const folder = askedFolder(options, world);
  if (typeof folder !== 'string') return folder;
  return { folder, asOf, store: askedStore(folder, options, world), progress: world.progress };
}

/** The folder of the studio that is asked for. */
export function askedFolder(
  { studio }: Pick<FindingOptions, 'studio'>,
  world: World,
): string | Refusal {
  const folder = findStudio(studio ?? world.folder);
  if (folder !== undefined) return folder;
  const where = studio ?? 'this folder or any above it';
  return {
    refused: `there is no studio.yaml in ${where}; go to your studio's folder, or name it with --studio FOLDER`,
  };
}

/** Where a studio is remembered; undefined where nothing is. */
export function storeFor(
  folder: string,
  { memory, stamp }: Pick<World, 'memory' | 'stamp'>,
): StudioStore | undefined {
  const store = memory && storeOf(folder, { place: memory, stamp });
  return store && 'because' in store ? undefined : store;
}

/** The same for a command; with `--afresh` what was remembered is forgotten first. */
export function askedStore(
  folder: string,
  { afresh }: Pick<FindingOptions, 'afresh'>,
  world: World,
): StudioStore | undefined {
  const store = storeFor(folder, world);
  if (store && world.memory && afresh) forgetFolder(folder, world.memory);
  return store;
}
