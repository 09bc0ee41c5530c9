/** Finds the studio that is to be changed, and what is known of it before a file of it is read. */
import { keptOfStudio, type KeptOfStudio } from '../read/answers.ts';
import { findAsked, type Found } from './find-studio.ts';
import { isRefusal, type Asked, type Refusal, type World } from './world.ts';

/** A studio that was found, and what was kept of the state that its files are in. */
export interface KnownStudio extends Pick<Found, 'folder' | 'asOf' | 'store'> {
  readonly kept: KeptOfStudio;
}

/** Looks for the studio that is asked for; what is kept of it is of this moment. */
export function openKnown(asked: Asked, world: World): KnownStudio | Refusal {
  const found = findAsked(asked, world);
  if (isRefusal(found)) return found;
  return { ...found, kept: keptOfStudio(found.folder, found.store) };
}
