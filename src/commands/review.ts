/** `saggar review`: what a branch of the book means, for whoever looks at it before it is merged. */
import { openMemory } from '../read/memory.ts';
import { printed } from '../render/printable.ts';
import { usableWidth } from '../render/render.ts';
import { renderReview, type ReviewFormat } from '../render/review/render.ts';
import { reviewOf, type Review } from '../review/review.ts';
import { NOTHING_WITHHELD, type Withheld } from '../review/value.ts';
import { unknownWord } from './ids.ts';
import { readSides } from './review-input.ts';
import { askedStore } from './remembered.ts';
import { askedStates } from './review-states.ts';
import { refuse } from './show.ts';
import { askedDay } from './span.ts';
import {
  EXIT,
  isRefusal,
  textOption,
  type Asked,
  type Command,
  type Refusal,
  type World,
} from './world.ts';

/** Shows what changes; the status tells whether the change brings errors, with `--strict` warnings too. */
export const review: Command = async (asked, world) => {
  const made = await madeOf(asked, world);
  if (isRefusal(made)) return refuse(world, made);
  const as = (textOption(asked, 'as') ?? 'text') as ReviewFormat;
  world.write(renderReview(made, { as, width: usableWidth(world.width) }));
  const counted = asked.options['strict'] === true ? made.errors + made.warnings : made.errors;
  return counted === 0 ? EXIT.fine : EXIT.errors;
};

async function madeOf(asked: Asked, world: World): Promise<Review | Refusal> {
  const hidden = askedHidden(asked);
  if (isRefusal(hidden)) return hidden;
  const asOf = askedDay(asked, world);
  if (typeof asOf !== 'string') return asOf;
  const states = askedStates(asked, world);
  if (isRefusal(states)) return states;
  const { folder } = states;
  const store = states.repository.isBare ? undefined : askedStore(folder, asked, world);
  const memory = openMemory(folder, store);
  const sides = await readSides(states, { folder, memory, asOf, progress: world.progress });
  if (isRefusal(sides)) return sides;
  world.progress?.(printed`Comparing their figures`);
  const made = reviewOf({ ...sides, asOf, hidden });
  sides.save();
  return made;
}

const HIDEABLE = ['names', 'prices'] as const;

function askedHidden(asked: Asked): Withheld | Refusal {
  const text = textOption(asked, 'without');
  if (text === undefined) return NOTHING_WITHHELD;
  const words = text.split(',').map((word) => word.trim());
  const odd = words.find((word) => !HIDEABLE.some((each) => each === word));
  if (odd !== undefined) return unknownWord('--without', odd, HIDEABLE);
  return { names: words.includes('names'), prices: words.includes('prices') };
}
