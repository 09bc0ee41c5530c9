/** Counts the keys that a record takes at a terminal and in an editor. */

/**
 * Keys of a command line as it is typed, and of what is typed afterwards: every character, Tab and
 * Enter is one, a capital too. `--as-of` is left out, for a record of today needs none; here it only
 * says which day that is.
 */
export function keysOfEntry(words: readonly string[], typed: readonly string[]): number {
  const quoted = words.map((word) => (/[ ;&|'"]/.test(word) ? `"${word}"` : word));
  return Array.from([['saggar', ...quoted].join(' '), '\n', ...typed].join('')).length;
}

/**
 * Keys that an editor needs for the same: every character that the files have more, line ends too.
 * What is kind to the editor: indentation comes by itself, and so does an empty line between records;
 * finding the file and the place in it costs nothing, nor does taking anything out, and an id or a
 * price needs no looking up.
 */
export function keysOfEditor(
  before: Readonly<Record<string, string>>,
  after: Readonly<Record<string, string>>,
): number {
  const added = Object.entries(after).map(([file, text]) => typedBetween(before[file] ?? '', text));
  return added.reduce((sum, count) => sum + count, 0);
}

/**
 * Keys that a correction takes in an editor of a terminal that has to be opened for it, as is common
 * practice: four letters and a space for the editor, the file by its first letters and Tab; a search for
 * the end of the record's id; down to the line; what is taken out and typed; saving and leaving. What is
 * kind to the editor: moving along the line costs nothing, nor does looking the id up.
 */
export function keysOfCorrection(
  { file, id }: { readonly file: string; readonly id: string },
  before: string,
  after: string,
): number {
  const [folder = '', name = ''] = file.split('/');
  const open = `edit ${folder.slice(0, 2)}\t${name.slice(0, 7)}\t\n`.length;
  const search = `^${id.slice(-2)}\n`.length;
  const [old, now] = [before.split('\n'), after.split('\n')];
  const at = old.findIndex((line, index) => line !== now[index]);
  const down = at - old.findIndex((line) => line.startsWith(`${id}:`));
  const [line = '', changed = ''] = [old[at], now[at]];
  const kept = sameAtStart(line, changed) + sameAtStart(reversed(line), reversed(changed));
  const erased = line.length - kept;
  const SAVE_AND_LEAVE = 3;
  return open + search + down + erased + typedBetween(line, changed) + SAVE_AND_LEAVE;
}

function typedBetween(before: string, after: string): number {
  const [old, now] = [bare(before), bare(after)];
  const start = sameAtStart(old, now);
  const [oldRest, nowRest] = [old.slice(start), now.slice(start)];
  const end = sameAtStart(reversed(oldRest), reversed(nowRest));
  const [from, to] = [
    oldRest.slice(0, oldRest.length - end),
    nowRest.slice(0, nowRest.length - end),
  ];
  return to.length - longestCommon(from, to);
}

/** A text without indentation and empty lines. */
function bare(text: string): string {
  return text.replaceAll(/^\s+/gm, '');
}

function reversed(text: string): string {
  return Array.from(text).reverse().join('');
}

function sameAtStart(one: string, other: string): number {
  let at = 0;
  while (at < one.length && one[at] === other[at]) at++;
  return at;
}

/** How many characters of a text need not be typed, since they are there in that order. */
function longestCommon(one: string, other: string): number {
  let row = Array.from({ length: other.length + 1 }, () => 0);
  for (const sign of one) {
    const above = row;
    row = [0];
    for (let at = 1; at <= other.length; at++) {
      const longest = Math.max(row[at - 1] ?? 0, above[at] ?? 0);
      row.push(sign === other[at - 1] ? (above[at - 1] ?? 0) + 1 : longest);
    }
  }
  return row.at(-1) ?? 0;
}
