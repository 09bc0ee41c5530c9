/** A page of labelled lines for a terminal: it says as much as there is room for on one screen. */
import { ended } from '../../in-words.ts';
import { GAP } from './fit.ts';
import type { Sheet, SheetLine } from '../../report/day/sheet.ts';
import { bar } from './bars.ts';
import { visible } from '../escape.ts';
import { paints, type Paints } from '../paint.ts';
import { printedLayout, type Printable } from '../printable.ts';
import type { TextOptions } from './text.ts';
import { displayWidth, pad, wrap } from './width.ts';

interface SheetOptions extends TextOptions {
  /** The most lines that the page may have; no limit when left out. */
  readonly height?: number;
}

const LONGEST_BAR = 16;
const SHORTEST_BAR = 8;
const EMPTY = '·';
const ELLIPSIS = '…';
/** Words have at least this much room beside their label, however narrow the terminal is. */
const LEAST_WORDS = 24;
/** Sentences get hard to read when they fill more lines than this. */
const MOST_LINES = 3;

interface SheetLook {
  readonly label: number;
  readonly room: number;
  readonly paints: Paints;
}

/** A line of the page with the number of terminal lines that it may take. */
interface Granted {
  readonly line: SheetLine;
  readonly lines: number;
}

/**
 * The page with a line end: the title, what it leads with, then the lines by group with an empty line
 * before each group. Every line gets one line of the terminal (the first sentence and a command as many
 * as they need); then the groups get their empty lines, the first ones first, and longer lists more
 * lines, where the height leaves some. Where even one line each is too much, the last of the bars are
 * left out and counted. What a list has no room for is counted too.
 */
export function renderSheet(sheet: Sheet, options: SheetOptions): Printable {
  const all = [...firstLines(sheet), ...sheet.lines];
  const look = lookFor(all, options);
  const below = (options.height ?? Infinity) - 1;
  const kept = leastOf(all, look) <= below ? all : withoutLastBars(all, below, look);
  const spare = below - leastOf(kept, look);
  const gaps = Math.max(0, Math.min(gapsIn(kept), spare));
  const title = cut([visible(sheet.title)], { width: options.width, lines: 1 });
  const granted = grant(kept, spare - gaps, look);
  const texts = [...title.map(look.paints.strong), ...groupedLines(granted, gaps, look)];
  return printedLayout(`${texts.join('\n')}\n`, options);
}

/** The terminal's lines, with an empty one before so many groups; the first ones have theirs first. */
function groupedLines(granted: readonly Granted[], gaps: number, look: SheetLook): string[] {
  let left = gaps;
  return granted.flatMap(({ line, lines }, at) => {
    const texts = labelledLines(line, lines, look);
    if (line.group === granted[at - 1]?.line.group || left === 0) return texts;
    left -= 1;
    return ['', ...texts];
  });
}

/** Before all groups. */
const FIRST_GROUP = -1;

/** What the page leads with, as lines: the sentence, and the command below it. */
function firstLines({ first }: Sheet): SheetLine[] {
  if (!first) return [];
  const { label, sentence, command } = first;
  const line = { group: FIRST_GROUP, list: [] };
  return [
    { ...line, label, lead: sentence, isFirst: true },
    ...(command === undefined ? [] : [{ ...line, label: '', lead: command, bare: true }]),
  ];
}

function lookFor(lines: readonly SheetLine[], { width, colour }: TextOptions): SheetLook {
  const label = Math.max(0, ...lines.map((line) => displayWidth(line.label))) + GAP;
  return { label, room: Math.max(LEAST_WORDS, width - label), paints: paints(colour) };
}

/** One empty line before each group, the first one too. */
function gapsIn(lines: readonly SheetLine[]): number {
  return new Set(lines.map(({ group }) => group)).size;
}

/** How many lines of the terminal they take at the least. */
function leastOf(lines: readonly SheetLine[], look: SheetLook): number {
  return lines.reduce((all, line) => all + leastLines(line, look), 0);
}

function leastLines({ lead, bare, isFirst }: SheetLine, { room }: SheetLook): number {
  if (bare !== true && isFirst !== true) return 1;
  return Math.min(MOST_LINES, wrap(visible(lead), { width: room }).length);
}

function withoutLastBars(
  lines: readonly SheetLine[],
  most: number,
  look: SheetLook,
): readonly SheetLine[] {
  const bars = lines.filter(({ share }) => share !== undefined);
  for (let kept = bars.length; kept > 0; kept -= 1) {
    const dropped = new Set(bars.slice(kept));
    const rest = lines.flatMap((line) => {
      if (line === bars[kept]) return [leftOut(line, dropped.size)];
      return dropped.has(line) ? [] : [line];
    });
    if (leastOf(rest, look) <= most) return rest;
  }
  return lines.filter(({ share }) => share === undefined);
}

function leftOut({ group }: SheetLine, count: number): SheetLine {
  return { label: '', group, lead: `${count} more`, list: [] };
}

/**
 * Deals the spare lines out to those that don't fit: first to lists of which nothing could be named,
 * or only in fewer words, then a second line to each before any gets a third.
 */
function grant(lines: readonly SheetLine[], spare: number, look: SheetLook): Granted[] {
  const wanted = lines.map((line) => textLines(line, Infinity, look).length);
  if (spare === Infinity) return lines.map((line, at) => ({ line, lines: wanted[at] ?? 1 }));
  const given = lines.map((line) => leastLines(line, look));
  let left = spare;
  const giveOne = (at: number, round: number): void => {
    if (left <= 0 || (wanted[at] ?? 1) < round || (given[at] ?? 1) >= round) return;
    given[at] = round;
    left -= 1;
  };
  const order = [...lines.keys()];
  const unsaid = (at: number, isBrief: boolean): boolean =>
    namesNothing(lines[at], { width: look.room, lines: given[at] ?? 1 }, isBrief);
  for (const isBrief of [true, false]) {
    const silent = order.filter((at) => unsaid(at, isBrief));
    for (const at of silent) giveOne(at, (given[at] ?? 1) + 1);
  }
  for (let round = 2; round <= MOST_LINES; round += 1) {
    for (const at of order) giveOne(at, round);
  }
  return lines.map((line, at) => ({ line, lines: given[at] ?? 1 }));
}

/** Whether nothing of a list is named: not even in fewer words, if those may do. */
function namesNothing(line: SheetLine | undefined, room: LineRoom, isBrief: boolean): boolean {
  if (!line || line.bare === true || line.list.length === 0) return false;
  if (listedIn(line, room)) return false;
  return !isBrief || !line.brief || listedIn({ ...line, list: line.brief }, room) === undefined;
}

function labelledLines(line: SheetLine, most: number, look: SheetLook): string[] {
  const texts = textLines(line, most, look);
  return texts.map((text, index) => {
    const label = pad(index === 0 ? visible(line.label) : '', look.label, false);
    const words = line.isFirst === true ? look.paints.strong(text) : text;
    return (look.paints.quiet(label) + words).trimEnd();
  });
}

function textLines(line: SheetLine, most: number, look: SheetLook): string[] {
  if (line.share === undefined) return saidIn(line, { width: look.room, lines: most });
  const cells = Math.max(SHORTEST_BAR, Math.min(LONGEST_BAR, Math.floor(look.room / 4)));
  const filled = bar(line.share, { largest: 1, cells });
  const drawn = filled + EMPTY.repeat(cells - displayWidth(filled)) + ' '.repeat(GAP);
  const room = { width: Math.max(1, look.room - displayWidth(drawn)), lines: 1 };
  return saidIn(line, room).map((text) => drawn + text);
}

interface LineRoom {
  readonly width: number;
  readonly lines: number;
}

/** The lead and as much of the list as fits in the lines, in fewer words where none of it does. */
function saidIn(line: SheetLine, room: LineRoom): string[] {
  const { brief } = line;
  const inBrief = (): string[] | undefined => brief && listedIn({ ...line, list: brief }, room);
  return listedIn(line, room) ?? inBrief() ?? withoutList(line, room);
}

function listedIn(line: SheetLine, room: LineRoom): string[] | undefined {
  for (let named = line.list.length; named > 0; named -= 1) {
    const lines = wrap(sentenceWith(line, named), room);
    if (lines.length <= room.lines) return lines;
  }
  return undefined;
}

function withoutList(line: SheetLine, room: LineRoom): string[] {
  return cut(wrap(sentenceWith(line, 0), room), room);
}

function sentenceWith({ lead, list, bare }: SheetLine, named: number): string {
  if (bare === true) return [lead, ...list.slice(0, named)].map(visible).join('   ');
  const items = list.slice(0, named).map(visible).join('; ');
  const left = list.length - named;
  if (named === 0) return ended(lead === '' ? `${left} things` : visible(lead));
  const more = left === 0 ? '' : ` and ${left} more`;
  return ended((lead === '' ? '' : `${visible(lead)}: `) + items + more);
}

/** So many lines, the last one with an ellipsis where more would follow. */
function cut(lines: readonly string[], { width, lines: most }: LineRoom): string[] {
  const fitting = lines.flatMap((line) => wrap(line, { width }));
  if (fitting.length <= most) return fitting;
  const [last = ''] = wrap(fitting[most - 1] ?? '', {
    width: Math.max(1, width - ELLIPSIS.length),
  });
  return [...fitting.slice(0, most - 1), last + ELLIPSIS];
}
