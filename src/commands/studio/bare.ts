/** Finds a studio in a repository that has no files beside it. */
import { dirname, relative, resolve, sep } from 'node:path';
import { looksBare } from '../../read/git/around.ts';
import { openBareRepository, type Commit, type Repository } from '../../read/git/repository.ts';
import { studiosIn } from '../../read/git/tree.ts';
import type { FindingOptions } from '../options.ts';
import { shellQuoted } from '../records/undo.ts';
import { isRefusal, type Refusal, type World } from '../world.ts';

/** The repository, and the path in it by which a studio was named, without slashes around it. */
interface BarePlace {
  readonly repository: Repository;
  readonly path: string;
}

/** The repository that a folder is, or that a path leads into; undefined where there is none. */
export function bareAsked(
  { studio = '.' }: Pick<FindingOptions, 'studio'>,
  { folder, environment }: Pick<World, 'folder' | 'environment'>,
): BarePlace | Refusal | undefined {
  const asked = resolve(folder, studio);
  const around = bareAround(asked);
  const repository = around === undefined ? undefined : openBareRepository(around, environment);
  if (around === undefined || !repository) return undefined;
  if (isRefusal(repository)) return repository;
  return { repository, path: relative(around, asked).split(sep).join('/') };
}

function bareAround(path: string): string | undefined {
  if (looksBare(path)) return path;
  const above = dirname(path);
  return above === path ? undefined : bareAround(above);
}

/** The repository with the studio that a commit has at the path; without a path the only one there is. */
export function inBare({ repository, path }: BarePlace, commit: Commit): Repository | Refusal {
  const studios = studiosIn(repository, commit);
  const wanted = path === '' ? onlyOf(studios) : `${path}/`;
  if (wanted !== undefined && studios.includes(wanted)) return { ...repository, prefix: wanted };
  const choices = studios.map((each) => `--studio ${shellQuoted(each.slice(0, -1) || '.')}`);
  if (choices.length === 0) return { refused: `there is no studio.yaml in ${commit.name}` };
  const what =
    path === ''
      ? `${commit.name} has more than one studio`
      : `${commit.name} has no studio.yaml in ${path}`;
  return { refused: `${what}; name it: ${choices.join(' or ')}` };
}

/** One at the root comes before all others. */
function onlyOf(studios: readonly string[]): string | undefined {
  const [first, ...others] = studios.includes('') ? [''] : studios;
  return others.length === 0 ? first : undefined;
}
