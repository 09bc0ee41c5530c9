/** The marks of drawings: across in percent and down in pixels, so that text keeps its size on any screen. */
import { type Markup, markup } from '../markup.ts';

/** A place in a drawing: percent of its width, and pixels from its top. */
export interface DrawnAt {
  readonly x: number;
  readonly y: number;
}

export type Anchor = 'start' | 'middle' | 'end';

/** The narrowest that a drawing gets, in pixels: on a phone. */
export const NARROWEST = 320;

/** A rectangle; of the sides across either may come first. */
export function box(
  kind: string,
  { from, to, y, height }: { from: number; to: number; y: number; height: number },
): Markup {
  return markup`<rect class="${kind}" x="${inPercent(Math.min(from, to))}" width="${inPercent(Math.abs(to - from))}" y="${short(y)}" height="${short(height)}"/>`;
}

export function stroke(kind: string, from: DrawnAt, to: DrawnAt): Markup {
  return markup`<line class="${kind}" x1="${inPercent(from.x)}" x2="${inPercent(to.x)}" y1="${short(from.y)}" y2="${short(to.y)}"/>`;
}

export function dot({ x, y }: DrawnAt, radius: number, title?: string): Markup {
  const tip = title === undefined ? '' : markup`<title>${title}</title>`;
  return markup`<circle class="dot" cx="${inPercent(x)}" cy="${short(y)}" r="${radius}">${tip}</circle>`;
}

/** A small outline about a place, as a path in pixels from it. */
export function outline(kind: string, { x, y }: DrawnAt, path: string): Markup {
  return markup`<svg class="${kind}" x="${inPercent(x)}" y="${short(y)}" width="1" height="1"><path d="${path}"/></svg>`;
}

export function words(
  kind: string,
  { x, y, anchor = 'start' }: DrawnAt & { readonly anchor?: Anchor },
  text: string | Markup,
): Markup {
  const to = anchor === 'start' ? '' : markup` text-anchor="${anchor}"`;
  return markup`<text class="${kind}"${to} x="${inPercent(x)}" y="${short(y)}">${text}</text>`;
}

/** How wide a text is at the most, in percent of the narrowest drawing. */
export function textWidth(text: string): number {
  return (Array.from(text).length * SIGN * 100) / NARROWEST;
}

/** Pixels of a sign at the most, but for the widest letters, which don't follow on each other. */
const SIGN = 6.8;

/** As much of a text as has room in so many percent of the narrowest drawing. */
export function cutToRoom(text: string, room: number): string {
  const signs = Array.from(text);
  const most = Math.max(MOST_CUT, Math.floor((room * NARROWEST) / 100 / SIGN));
  return signs.length <= most ? text : `${signs.slice(0, most - 1).join('')}…`;
}

const MOST_CUT = 6;

/** Where a text about a place has to end or begin so that it stays within the drawing. */
export function withinSides(
  text: string,
  x: number,
  y: number,
): DrawnAt & { readonly anchor: Anchor } {
  const half = textWidth(text) / 2;
  if (x + half > 100) return { x: 100, y, anchor: 'end' };
  return x - half < 0 ? { x: 0, y, anchor: 'start' } : { x, y, anchor: 'middle' };
}

function inPercent(value: number): string {
  return `${short(value)}%`;
}

/** Two decimals are finer than any screen. */
function short(value: number): string {
  return String(Math.round(value * 100) / 100);
}
