/**
 * Files of records in every layout that a person may write, with the places of all scalars, entries
 * and comments: block and flow style, any indentation, quotes, comments, line ends, document marks.
 */
import { randomRecords, type Tree } from './layout-data.ts';
import {
  endLine,
  interlude,
  newLine,
  putComment,
  type Laid,
  type Pen,
  type Spot,
} from './layout-pen.ts';
import { keyText, writeScalar } from './layout-scalar.ts';
import { randomSource } from './random-source.js';

export type { Laid, LaidEntry, Path } from './layout-pen.ts';
export type { Tree } from './layout-data.ts';

/** A file made from a seed; `size` (0 to 4) is the most records that it has. */
export function layOut(seed: number, size: number): Laid {
  const random = randomSource('layout', seed);
  const pen: Pen = {
    random,
    lineBreak: random.chance(0.25) ? '\r\n' : '\n',
    step: random.pick([2, 2, 2, 3, 4, 5]),
    chatty: random.pick([0, 0.15, 0.5]),
    scalars: [],
    entries: [],
    comments: [],
    out: random.chance(0.15) ? '\ufeff' : '',
    keeps: false,
    belowBlock: false,
  };
  const tree = randomRecords(random, size);
  writeHead(pen);
  if (tree.size > 0 || random.chance(0.2)) writeRoot(pen, tree);
  writeTail(pen);
  const { out: text, scalars, entries, comments } = pen;
  return { text, tree, scalars, entries, comments };
}

function writeHead(pen: Pen): void {
  const { random } = pen;
  if (random.chance(0.2)) {
    putComment(pen);
    newLine(pen);
    if (random.chance(0.5)) newLine(pen);
  }
  const directive = random.chance(0.05);
  if (directive) {
    pen.out += '%YAML 1.2';
    newLine(pen);
  }
  if (directive || random.chance(0.15)) {
    pen.out += '---';
    endLine(pen);
  }
}

function writeTail(pen: Pen): void {
  const { random } = pen;
  if (random.chance(0.1)) {
    pen.out += '...';
    newLine(pen);
    if (random.chance(0.5)) {
      putComment(pen);
      newLine(pen);
    }
  }
  if (!pen.keeps && random.chance(0.2)) pen.out = pen.out.replace(/\r?\n$/, '');
}

function writeRoot(pen: Pen, tree: Map<string, Tree>): void {
  const { random } = pen;
  if (tree.size === 0 || random.chance(0.2)) {
    writeFlow(pen, tree, { path: [], column: 0, broken: random.chance(0.5) });
    endLine(pen);
  } else writeBlockMap(pen, tree, { path: [], column: random.chance(0.1) ? random.int(1, 3) : 0 });
  interlude(pen, 0, true);
}

// --- block style

interface MapSpot extends Spot {
  /** Whether its first key stands on the dash's line. */
  readonly compact?: boolean;
}

function writeBlockMap(pen: Pen, map: Map<string, Tree>, spot: MapSpot): void {
  let first = spot.compact === true;
  for (const [key, value] of map) {
    if (!first) {
      interlude(pen, spot.column);
      pen.out += ' '.repeat(spot.column);
    }
    first = false;
    pen.keeps = pen.belowBlock = false;
    const entry = { path: [...spot.path, key], start: pen.out.length, inFlow: false };
    const explicit = pen.random.chance(0.03);
    pen.out += explicit ? `? ${keyText(pen, key, false)}` : keyText(pen, key, false);
    if (explicit) {
      newLine(pen);
      pen.out += ' '.repeat(spot.column);
    } else if (pen.random.chance(0.05)) pen.out += ' ';
    pen.out += ':';
    writeBehind(pen, value, { ...entry, column: spot.column });
  }
}

function writeBlockList(pen: Pen, list: readonly Tree[], spot: Spot): void {
  list.forEach((item, index) => {
    interlude(pen, spot.column);
    pen.out += ' '.repeat(spot.column);
    pen.keeps = pen.belowBlock = false;
    const entry = { path: [...spot.path, index], start: pen.out.length, inFlow: false };
    pen.out += '-';
    const inner = { ...entry, column: spot.column };
    if (item instanceof Map && item.size > 0 && pen.random.chance(0.5)) {
      const gap = pen.random.pick([1, 1, 1, 2, 3]);
      pen.out += ' '.repeat(gap);
      writeBlockMap(pen, item, { ...inner, column: spot.column + 1 + gap, compact: true });
      pen.entries.push({ ...entry, end: lastEnd(pen) });
    } else writeBehind(pen, item, inner);
  });
}

function lastEnd(pen: Pen): number {
  return pen.entries.at(-1)?.end ?? 0;
}

/** The value behind a colon or a dash, and the line end. */
function writeBehind(pen: Pen, value: Tree, spot: Spot & { readonly start: number }): void {
  const { random } = pen;
  const entry = { path: spot.path, start: spot.start, inFlow: false };
  if (typeof value === 'string') {
    const end = writeScalar(pen, value, { ...spot, inFlow: false });
    pen.entries.push({ ...entry, end });
    return;
  }
  if (sizeOf(value) === 0 || random.chance(0.3)) {
    pen.out += random.pick([' ', ' ', '  ', '\t']);
    writeFlow(pen, value, { ...spot, broken: random.chance(0.2) });
    pen.entries.push({ ...entry, end: pen.out.length });
    endLine(pen);
    return;
  }
  endLine(pen);
  const isField = typeof spot.path.at(-1) === 'string';
  if (value instanceof Map) writeBlockMap(pen, value, { ...spot, column: spot.column + pen.step });
  else
    writeBlockList(pen, value, {
      ...spot,
      column: spot.column + (isField && random.chance(0.4) ? 0 : pen.step),
    });
  pen.entries.push({ ...entry, end: lastEnd(pen) });
}

function sizeOf(value: Tree[] | Map<string, Tree>): number {
  return value instanceof Map ? value.size : value.length;
}

// --- flow style

interface FlowSpot extends Spot {
  /** Whether each entry has a line of its own. */
  readonly broken: boolean;
}

function writeFlow(pen: Pen, value: Tree[] | Map<string, Tree>, spot: FlowSpot): void {
  const isMap = value instanceof Map;
  const { random } = pen;
  const entries = [...value.entries()];
  const pad = random.pick(['', ' ']);
  const margin = ' '.repeat(spot.column + pen.step);
  pen.out += isMap ? '{' : '[';
  if (spot.broken) endLine(pen);
  else pen.out += pad;
  entries.forEach(([key, inner], index) => {
    if (spot.broken) pen.out += margin;
    writeFlowEntry(pen, inner, { ...spot, path: [...spot.path, key] });
    const comma = index < entries.length - 1 || random.chance(0.2);
    if (comma) pen.out += ',';
    if (spot.broken) endLine(pen);
    else pen.out += comma ? random.pick([' ', ' ', '']) || (isMap ? ' ' : '') : '';
  });
  pen.out += spot.broken ? ' '.repeat(spot.column + 1) : pad;
  pen.out += isMap ? '}' : ']';
}

function writeFlowEntry(pen: Pen, value: Tree, spot: FlowSpot): void {
  const start = pen.out.length;
  const key = spot.path.at(-1);
  if (typeof key === 'string') {
    pen.out += keyText(pen, key, true);
    if (value === '' && pen.random.chance(0.2)) {
      const end = pen.out.length;
      pen.scalars.push({ path: spot.path, text: '', style: 'empty', start: end, end });
      pen.entries.push({ path: spot.path, start, end, inFlow: true });
      return;
    }
    pen.out += ':';
  }
  if (typeof value === 'string') writeScalar(pen, value, { ...spot, inFlow: true });
  else {
    if (typeof key === 'string') pen.out += ' ';
    writeFlow(pen, value, { ...spot, broken: false });
  }
  pen.entries.push({ path: spot.path, start, end: pen.out.length, inFlow: true });
}
