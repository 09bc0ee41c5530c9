/** Words beside places of a drawing, as many as there is room for: none over another, nor over a dot. */
import type { Markup } from '../markup.ts';
import { type Anchor, type DrawnAt, NARROWEST, textWidth, words } from './marks.ts';

/** A text that is to stand beside a place. */
export interface WantedWords extends DrawnAt {
  readonly text: string;
  /** Whether it is sooner to stand below than above. */
  readonly isBelow?: boolean;
  /** Class of the text, if not that of a name. */
  readonly kind?: string;
}

/** A rectangle in pixels of the narrowest drawing. */
interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface Stand {
  readonly at: DrawnAt & { readonly anchor: Anchor };
  readonly box: Box;
}

/** How words may stand about a place, the best first. */
const STANDS: readonly { readonly anchor: Anchor; readonly dx: number; readonly dy: number }[] = [
  { anchor: 'middle', dx: 0, dy: -8 },
  { anchor: 'start', dx: 7, dy: 4 },
  { anchor: 'end', dx: 0, dy: -8 },
  { anchor: 'start', dx: 0, dy: -8 },
  { anchor: 'end', dx: -7, dy: 4 },
  { anchor: 'middle', dx: 0, dy: 18 },
  { anchor: 'start', dx: 0, dy: 18 },
  { anchor: 'end', dx: 0, dy: 18 },
  { anchor: 'start', dx: 0, dy: -22 },
  { anchor: 'end', dx: 0, dy: -22 },
];
const STANDS_BELOW = STANDS.toSorted((one, other) => other.dy - one.dy);
const ASCENT = 11;
const DESCENT = 4;
const DOT = 5;

/**
 * The words, the first ones first. What doesn't meet in the narrowest drawing doesn't in a wider one, for
 * every text hangs on a place whose distance from the others only grows.
 */
export function placedWords(
  wanted: readonly WantedWords[],
  { dots, height }: { readonly dots: readonly DrawnAt[]; readonly height: number },
): Markup[] {
  const taken: Box[] = dots.map(boxOfDot);
  return wanted.flatMap(({ kind = 'word', ...each }) => {
    const found = candidates(each).find(
      ({ box }) => isInDrawing(box, height) && taken.every((other) => !doMeet(box, other)),
    );
    if (found === undefined) return [];
    taken.push(found.box);
    return [words(kind, found.at, each.text)];
  });
}

function candidates({ text, x, y, isBelow = false }: WantedWords): Stand[] {
  const width = (textWidth(text) * NARROWEST) / 100;
  return (isBelow ? STANDS_BELOW : STANDS).map(({ anchor, dx, dy }) => {
    const from = (x * NARROWEST) / 100 + dx;
    const left = anchor === 'start' ? from : from - (anchor === 'end' ? width : width / 2);
    const base = y + dy;
    const box = { left, right: left + width, top: base - ASCENT, bottom: base + DESCENT };
    return { at: { x: (from * 100) / NARROWEST, y: base, anchor }, box };
  });
}

function boxOfDot({ x, y }: DrawnAt): Box {
  const at = (x * NARROWEST) / 100;
  return { left: at - DOT, right: at + DOT, top: y - DOT, bottom: y + DOT };
}

function isInDrawing({ left, right, top, bottom }: Box, height: number): boolean {
  return left >= 0 && right <= NARROWEST && top >= 0 && bottom <= height;
}

function doMeet(one: Box, other: Box): boolean {
  return (
    one.left < other.right &&
    other.left < one.right &&
    one.top < other.bottom &&
    other.top < one.bottom
  );
}
