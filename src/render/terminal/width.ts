/** How many terminal cells a text takes, and fitting text into a given number of them. */

/*
 * Of our own, not from a library: string-width comes only by way of cli-table3, costs 4 ms to load,
 * and its release 4 counts most combining marks outside Latin as one cell. Each code point counts by
 * itself, as terminals without grapheme clusters draw it; where a terminal joins them, a line comes
 * out shorter, never longer.
 */
const NARROW = /^[\x20-\x7e\u00a0-\u02ff]*$/;
const NO_WIDTH = /[\p{Mn}\p{Me}\p{Default_Ignorable_Code_Point}\u1160-\u11ff\ud7b0-\ud7ff]/u;
const WIDE =
  /(?!\p{Regional_Indicator})[\p{Emoji_Presentation}\u1100-\u115f\u2329\u232a\u2e80-\u303e\u3041-\u4dbf\u4e00-\ua4cf\ua960-\ua97f\uac00-\ud7a3\uf900-\ufaff\ufe10-\ufe19\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{16fe0}-\u{18dff}\u{1aff0}-\u{1b2ff}\u{1f200}-\u{1f265}\u{20000}-\u{3fffd}]/u;

function signWidth(sign: string): number {
  if (NARROW.test(sign)) return 1;
  if (NO_WIDTH.test(sign)) return 0;
  return WIDE.test(sign) ? 2 : 1;
}

/**
 * Cells of a terminal that a text takes: 2 for wide East Asian signs and emoji, 0 for combining
 * marks, 1 for the rest (Unicode Standard Annex 11; ambiguous signs count 1). Expects a text
 * without controls, as `visible` leaves it.
 */
export function displayWidth(text: string): number {
  if (NARROW.test(text)) return text.length;
  let width = 0;
  for (const sign of text) width += signWidth(sign);
  return width;
}

/** The text filled up with spaces to so many cells; longer text comes back as it is. */
export function pad(text: string, width: number, right: boolean): string {
  const space = ' '.repeat(Math.max(0, width - displayWidth(text)));
  return right ? space + text : text + space;
}

/** The longest start of a text that fits; at least one sign with its marks, so that cutting ends. */
function firstPart(text: string, width: number): string {
  let end = 0;
  let used = 0;
  for (const sign of text) {
    used += signWidth(sign);
    if (used > width && end > 0) break;
    end += sign.length;
  }
  return text.slice(0, end);
}

/** Long ids and paths are parted after a hyphen or slash when that is not too early. */
function breakPart(word: string, width: number): string {
  const part = firstPart(word, width);
  const seam = Math.max(part.lastIndexOf('-'), part.lastIndexOf('/')) + 1;
  return seam > part.length / 2 ? part.slice(0, seam) : part;
}

interface Room {
  /** Cells of every line. */
  readonly width: number;
  /** Cells of the first line, where another text stands before it. */
  readonly first?: number;
}

/**
 * The text in lines that fit, broken at spaces, and inside a word only when the word alone is too
 * wide. Spaces at a break are dropped. A sign wider than the room still gets a line.
 */
export function wrap(text: string, room: Room): string[] {
  const lines: string[] = [];
  let line = '';
  const space = (): number => (lines.length === 0 ? (room.first ?? room.width) : room.width);
  const endLine = (): void => {
    if (line !== '') lines.push(line.trimEnd());
    line = '';
  };
  for (const part of text.match(/ +|[^ ]+/g) ?? []) {
    let rest = part;
    if (displayWidth(line + rest) > space()) endLine();
    while (displayWidth(rest) > space() && !rest.startsWith(' ')) {
      line = breakPart(rest, space());
      rest = rest.slice(line.length);
      endLine();
    }
    if (line !== '' || !rest.startsWith(' ')) line += rest;
  }
  endLine();
  return lines.length === 0 ? [''] : lines;
}
