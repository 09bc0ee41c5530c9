/** `saggar review`: what a branch of the book means, for whoever looks at it before it is merged. */
import { commitOf, openRepository, type Repository } from '../../read/git/repository.ts';
import { openMemory } from '../../read/kept/memory.ts';
import { printed } from '../../render/printable.ts';
import { usableWidth } from '../../render/render.ts';
import { lineAnnotations } from '../../render/problems/sarif.ts';
import { renderReview } from '../../render/review/render.ts';
import { reviewOf, type Review, type ReviewProblem } from '../../review/review.ts';
import { NOTHING_WITHHELD, type Withheld } from '../../review/value.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import { bareAsked, inBare } from '../studio/bare.ts';
import { askedStore, findAsked } from '../studio/find-studio.ts';
import { unknownWord } from '../ids.ts';
import { statesAsTheyAre, statesOfMerge, type States } from './merging.ts';
import { readSides } from './review-input.ts';
import { refuse } from '../reports/show.ts';
import { askedDay } from '../reports/span.ts';
import { EXIT, isRefusal, type Refusal, type World } from '../world.ts';

/** Shows what changes; the status tells whether the change brings errors, with `--strict` warnings too. */
export const review: CommandOf<'review'> = async (asked, world) => {
  const made = await reviewAsked(asked, world);
  if (isRefusal(made)) return refuse(world, made);
  const { as = 'text', strict } = asked.options;
  const { prefix } = made;
  world.write(
    as === 'annotations'
      ? lineAnnotations(made.brought.map(atLine), prefix)
      : renderReview(made, { as, width: usableWidth(world.width) }),
  );
  const wrong = strict ? made.errors + made.warnings - made.doubts : made.errors;
  return wrong === 0 ? EXIT.fine : EXIT.errors;
};

/** The place `sales/2026-06.yaml:12` of a problem, as file and line. */
function atLine({ at, ...problem }: ReviewProblem): ReviewProblem & { file: string; line: number } {
  const colon = at.lastIndexOf(':');
  return { ...problem, at, file: at.slice(0, colon), line: Number(at.slice(colon + 1)) };
}

/** A review, and the studio's path in its repository: empty, or with a slash at its end. */
type PlacedReview = Review & Pick<Repository, 'prefix'>;

async function reviewAsked(
  asked: AskedOf<'review'>,
  world: World,
): Promise<PlacedReview | Refusal> {
  const { options } = asked;
  const hidden = askedHidden(options);
  if (isRefusal(hidden)) return hidden;
  const asOf = askedDay(options, world);
  if (typeof asOf !== 'string') return asOf;
  const states = askedStates(asked, world);
  if (isRefusal(states)) return states;
  const keep = world.onExit?.(states.release);
  try {
    return await reviewStates(states, asked, { ...world, asOf, hidden });
  } finally {
    states.release();
    keep?.();
  }
}

async function reviewStates(
  states: StatesIn,
  { options }: AskedOf<'review'>,
  world: World & Pick<Parameters<typeof reviewOf>[0], 'asOf' | 'hidden'>,
): Promise<PlacedReview | Refusal> {
  const { folder } = states;
  const { asOf, hidden, progress } = world;
  const store = states.repository.isBare ? undefined : askedStore(folder, options, world);
  const memory = openMemory(folder, store);
  const sides = await readSides(states, { folder, memory, asOf, progress });
  if (isRefusal(sides)) return sides;
  progress?.(printed`Comparing their figures`);
  const made = reviewOf({ ...sides, asOf, hidden });
  sides.save();
  return { ...made, prefix: states.repository.prefix };
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
 * `BASE`: what merging the working tree into BASE gives; `BASE HEAD`: the same of HEAD; `A..B`: A and B as
 * they are; `A...B`: as `A B`.
 */
function askedStates(asked: AskedOf<'review'>, world: World): StatesIn | Refusal {
  const [base = '', head, extra] = asked.words;
  if (extra !== undefined)
    return { refused: `review takes one or two revisions, and not "${extra}" as well` };
  const range = /^(.*?)\.\.(\.?)(.*)$/.exec(base);
  if (range && head !== undefined)
    return { refused: `"${base}" names two commits already; leave out "${head}"` };
  const revisions = range ? ends(range) : { from: base, to: head };
  const found = findAsked(asked, world);
  const place = isRefusal(found) ? (bareAsked(asked.options, world) ?? found) : found;
  if (isRefusal(place)) return place;
  if ('folder' in place) return statesOnDisk(place.folder, revisions, world);
  const commit = commitOf(place.repository, revisions.to ?? revisions.from);
  if (isRefusal(commit)) return commit;
  const repository = inBare(place, commit);
  if (isRefusal(repository)) return repository;
  const states = statesOf(repository, revisions, world);
  return isRefusal(states) ? states : { ...states, folder: repository.gitDir };
}

type StatesIn = States & { readonly folder: string };

function statesOnDisk(folder: string, revisions: Revisions, world: World): StatesIn | Refusal {
  const repository = openRepository(folder, world.environment);
  if (isRefusal(repository)) return repository;
  const states = statesOf(repository, revisions, world);
  return isRefusal(states) ? states : { ...states, folder };
}

interface Revisions {
  readonly from: string;
  readonly to: string | undefined;
  /** Whether both are meant as they are, and not what merging them gives. */
  readonly isAsItIs?: boolean;
}

/** The ends of a range as git writes it, where an end that is left out is HEAD. */
function ends([, from = '', dot = '', to = '']: RegExpExecArray): Revisions {
  const orHead = (end: string): string => (end === '' ? 'HEAD' : end);
  return { from: orHead(from), to: orHead(to), isAsItIs: dot === '' };
}

function statesOf(
  repository: Repository,
  { from, to, isAsItIs = false }: Revisions,
  world: World,
): States | Refusal {
  const base = commitOf(repository, from);
  if (isRefusal(base)) return base;
  const head = commitOf(repository, to ?? 'HEAD');
  if (isRefusal(head)) return head;
  if (isAsItIs) return statesAsTheyAre({ repository, old: base, now: head });
  const isOnDisk = to === undefined;
  if (isOnDisk && repository.isBare)
    return { refused: 'a bare repository has no working tree; name two revisions: BASE HEAD' };
  return statesOfMerge({ repository, base, head, isOnDisk }, world);
}
