/** Finds the studio that a command is for, and the day; nothing of it is read yet. */
import type { Day } from '../book.ts';
import { findStudio } from '../read/find.ts';
import type { Commit, Repository } from '../read/git/repository.ts';
import type { StudioStore } from '../memory/store.ts';
import { askedStore } from './remembered.ts';
import { askedDay } from './span.ts';
import { isRefusal, textOption, type Asked, type Refusal, type World } from './world.ts';

/** A studio that was found, and the day that it is looked at. */
export interface Found {
  readonly folder: string;
  readonly asOf: Day;
  /** Where the book of a commit is asked for, and not the one on the disk. */
  readonly past?: Past;
  /** Where the studio is remembered, if anywhere. */
  readonly store: StudioStore | undefined;
  /** What is being done is said here, where somebody looks on. */
  readonly progress?: World['progress'];
}

/** A commit of the studio's repository. */
export interface Past {
  readonly repository: Repository;
  readonly commit: Commit;
}

/** The same, with the commit of `--at` where one is asked for; refuses what is no commit. */
export async function findInTime(asked: Asked, world: World): Promise<Found | Refusal> {
  const found = findAsked(asked, world);
  const revision = textOption(asked, 'at');
  if (isRefusal(found) || revision === undefined) return found;
  const { openRepository, snapshotOf } = await import('../read/git/repository.ts');
  const repository = openRepository(found.folder, world.environment);
  if (isRefusal(repository)) return repository;
  const commit = snapshotOf(repository, revision);
  if (isRefusal(commit)) return commit;
  return { ...found, past: { repository, commit } };
}

/** Finds the studio that is asked for; refuses when there is none or when the day is no day. */
export function findAsked(asked: Asked, world: World): Found | Refusal {
  const asOf = askedDay(asked, world);
  if (typeof asOf !== 'string') return asOf;
  const folder = askedFolder(asked, world);
  if (typeof folder !== 'string') return folder;
  return { folder, asOf, store: askedStore(folder, asked, world), progress: world.progress };
}

function askedFolder(asked: Asked, world: World): string | Refusal {
  const named = textOption(asked, 'studio');
  const folder = findStudio(named ?? world.folder);
  if (folder !== undefined) return folder;
  const where = named ?? 'this folder or any above it';
  return {
    refused: `there is no studio.yaml in ${where}; go to your studio's folder, or name it with --studio FOLDER`,
  };
}
