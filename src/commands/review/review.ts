/** `saggar review`: what a branch of the book means, for whoever looks at it before it is merged. */
import {
  commitOf,
  openBareRepository,
  openRepository,
  startOf,
  type Commit,
  type Repository,
} from '../../read/git/repository.ts';
import { studioPrefix } from '../../read/git/tree.ts';
import { openMemory } from '../../read/kept/memory.ts';
import { printed } from '../../render/printable.ts';
import { usableWidth } from '../../render/render.ts';
import { renderReview } from '../../render/review/render.ts';
import { reviewOf, type Review } from '../../review/review.ts';
import { NOTHING_WITHHELD, type Withheld } from '../../review/value.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import { askedStore, findAsked } from '../studio/find-studio.ts';
import { unknownWord } from '../ids.ts';
import { readSides, type States } from './review-input.ts';
import { refuse } from '../reports/show.ts';
import { askedDay } from '../reports/span.ts';
import { EXIT, isRefusal, type Refusal, type World } from '../world.ts';

/** Shows what changes; the status tells whether the change brings errors, with `--strict` warnings too. */
export const review: CommandOf<'review'> = async (asked, world) => {
  const made = await reviewAsked(asked, world);
  if (isRefusal(made)) return refuse(world, made);
  const { as = 'text', strict } = asked.options;
  world.write(renderReview(made, { as, width: usableWidth(world.width) }));
  const wrong = strict ? made.errors + made.warnings - made.doubts : made.errors;
  return wrong === 0 ? EXIT.fine : EXIT.errors;
};

async function reviewAsked(asked: AskedOf<'review'>, world: World): Promise<Review | Refusal> {
  const { options } = asked;
  const hidden = askedHidden(options);
  if (isRefusal(hidden)) return hidden;
  const asOf = askedDay(options, world);
  if (typeof asOf !== 'string') return asOf;
  const states = askedStates(asked, world);
  if (isRefusal(states)) return states;
  const { folder } = states;
  const store = states.repository.isBare ? undefined : askedStore(folder, options, world);
  const memory = openMemory(folder, store);
  const sides = await readSides(states, { folder, memory, asOf, progress: world.progress });
  if (isRefusal(sides)) return sides;
  world.progress?.(printed`Comparing their figures`);
  const made = reviewOf({ ...sides, asOf, hidden });
  sides.save();
  return made;
}

const HIDEABLE = ['names', 'prices'] as const;

function askedHidden({ without: text }: OptionsOf<'review'>): Withheld | Refusal {
  if (text === undefined) return NOTHING_WITHHELD;
  const words = text.split(',').map((word) => word.trim());
  const odd = words.find((word) => !HIDEABLE.some((each) => each === word));
  if (odd !== undefined) return unknownWord('--without', odd, HIDEABLE);
  return { names: words.includes('names'), prices: words.includes('prices') };
}

/**
 * `BASE`: from where the branch left it to the working tree; `BASE HEAD`: from where HEAD left BASE to
 * HEAD; `A..B`: from A to B as they are; `A...B`: as `A B`.
 */
function askedStates(
  asked: AskedOf<'review'>,
  world: World,
): (States & { readonly folder: string }) | Refusal {
  const [base = '', head, extra] = asked.words;
  if (extra !== undefined)
    return { refused: `review takes one or two revisions, and not "${extra}" as well` };
  const place = repositoryAsked(asked, world);
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
function repositoryAsked(asked: AskedOf<'review'>, world: World): StudioPlace | Refusal {
  const found = findAsked(asked, world);
  const folder = isRefusal(found) ? (asked.options.studio ?? world.folder) : found.folder;
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
