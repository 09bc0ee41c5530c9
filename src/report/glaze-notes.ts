/** Sentences below the pieces: of which glazes how many may be there, where none was named. */
import { counted } from '../in-words.ts';
import type { Book } from '../book.ts';
import type { Flows } from '../reckon/flow.ts';
import { glazeDoubts, lotsWithoutGlaze, type DoubtfulGlaze } from '../reckon/glaze-doubts.ts';
import type { GlazeDoubt } from '../reckon/glaze-doubts.ts';
import { STUDIO_PLACE } from '../reckon/ware.ts';

/** What is uncertain of the pieces by glaze; nothing where every glaze is named. */
export function glazeNotes(book: Book, { ware }: Flows): string[] {
  const doubts = glazeDoubts(ware);
  const lots = lotsWithoutGlaze(book, ware);
  const ids = lots.map(({ id, product }) => `${id} (${product})`).join(', ');
  return [
    ...doubts.map(doubtText),
    ...(doubts.length === 0
      ? []
      : ['Counting what is there by glaze settles it: saggar add counted.']),
    ...(lots.length === 0
      ? []
      : [
          `${counted(lots.length, 'lot')} whose glaze is not named, though others of the product have one: ${ids}.`,
        ]),
  ];
}

/** `mug: 3 taken since 2026-03-04 with no glaze named, so rust may be 3 more, sea-green 2 fewer.` */
function doubtText({ product, grade, place, since, count, glazes }: GlazeDoubt): string {
  const seconds = grade === 'second' ? ' seconds' : '';
  const where = place === STUDIO_PLACE ? '' : ` at ${place}`;
  const each = glazes.map(glazeText).join(', ');
  return `${product}${seconds}${where}: ${count} taken since ${since} with no glaze named, so there may be up to ${each}.`;
}

function glazeText({ glaze, more, fewer }: DoubtfulGlaze): string {
  const ways = [
    ...(more === 0 ? [] : [`${more} more`]),
    ...(fewer === 0 ? [] : [`${fewer} fewer`]),
  ];
  return `${ways.join(' or ')} of ${glaze === '' ? 'those without a glaze' : glaze}`;
}
