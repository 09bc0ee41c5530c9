/** Which two states of a studio `saggar review` compares, by what was typed. */
import {
  commitOf,
  openBareRepository,
  openRepository,
  startOf,
  type Commit,
  type Repository,
} from '../read/git/repository.ts';
import { studioPrefix } from '../read/git/tree.ts';
import { findAsked } from './find-studio.ts';
import type { States } from './review-input.ts';
import { isRefusal, textOption, type Asked, type Refusal, type World } from './world.ts';

/**
 * `BASE`: from where the branch left it to the working tree; `BASE HEAD`: from where HEAD left BASE to
 * HEAD; `A..B`: from A to B as they are; `A...B`: as `A B`.
 */
export function askedStates(asked: Asked, world: World): (States & { folder: string }) | Refusal {
  const [base = '', head, extra] = asked.words;
  if (extra !== undefined)
    return { refused: `review takes one or two revisions, and not "${extra}" as well` };
  const place = placeOf(asked, world);
  if (isRefusal(place)) return place;
  const range = /^(.*?)\.\.(\.?)(.*)$/.exec(base);
  if (range && head !== undefined)
    return { refused: `"${base}" names two commits already; leave out "${head}"` };
  const states = statesOf(place.repository, range ? ends(range) : { from: base, to: head });
  return isRefusal(states) ? states : inBare({ ...states, folder: place.folder });
}

interface StudioPlace {
  readonly folder: string;
  readonly repository: Repository;
}

/** The studio's repository, also one without files beside it, which has no studio on the disk. */
function placeOf(asked: Asked, world: World): StudioPlace | Refusal {
  const found = findAsked(asked, world);
  const folder = isRefusal(found) ? (textOption(asked, 'studio') ?? world.folder) : found.folder;
  const repository = isRefusal(found)
    ? (openBareRepository(folder, world.environment) ?? found)
    : openRepository(folder, world.environment);
  return isRefusal(repository) ? repository : { folder, repository };
}

interface Revisions {
  readonly from: string;
  readonly to: string | undefined;
  /** Whether the first is meant itself, and not where the second left it. */
  readonly isAsItIs?: boolean;
}

/** The ends of a range as git writes it, where an end that is left out is HEAD. */
function ends([, from = '', dot = '', to = '']: RegExpExecArray): Revisions {
  const orHead = (end: string): string => (end === '' ? 'HEAD' : end);
  return { from: orHead(from), to: orHead(to), isAsItIs: dot === '' };
}

function statesOf(repository: Repository, { from, to, isAsItIs }: Revisions): States | Refusal {
  const base = commitOf(repository, from);
  if (isRefusal(base)) return base;
  const now = commitOf(repository, to ?? 'HEAD');
  if (isRefusal(now)) return now;
  const old: Commit | Refusal = isAsItIs ? base : startOf(repository, base, now);
  if (isRefusal(old)) return old;
  if (to === undefined && repository.isBare)
    return { refused: 'a bare repository has no working tree; name two revisions: BASE HEAD' };
  return { repository, old, now: to === undefined ? undefined : now };
}

function inBare(states: States & { folder: string }): (States & { folder: string }) | Refusal {
  const { repository, now } = states;
  if (!repository.isBare || !now) return states;
  const prefix = studioPrefix(repository, now);
  if (prefix === undefined)
    return { refused: `there is no studio.yaml in ${now.name}, or more than one of them` };
  return { ...states, repository: { ...repository, prefix } };
}
