/** Finds where the keys and values of a file stand, with the yaml package and only where asked. */
import { isCollection, isMap, isScalar, isSeq, type Document, type Pair, type YAMLMap } from 'yaml';
import type { Place, Spot } from '../../problem.ts';
import { readOnce, readWithin } from './budget.ts';
import { placeInText, type TextSpan } from '../lines.ts';
import { spanOf } from './nodes.ts';
import { cutRecords, mostIn } from '../records.ts';

/**
 * The places of a file's keys and values. Where a path leads nowhere, the place is that of the
 * nearest key or list entry on its way that is there; a value that is empty, or a mapping or a list
 * on lines of its own, is marked at its key.
 */
export function placesIn(file: string, text: string): (spot: Spot) => Place {
  let pieceOf: ReturnType<typeof piecesOfText> | undefined;
  return (spot) => {
    pieceOf ??= piecesOfText(file, text);
    const { document, text: piece, start } = pieceOf(spot.path[0]);
    const { start: from, end } = document ? spanAt(document, spot) : roughly(piece, spot);
    return placeInText(file, text, { start: start + from, end: start + end });
  };
}

/** A part of a text that was parsed alone; without a document where it asks too much of the package. */
interface ParsedPiece {
  readonly document: Document.Parsed | undefined;
  readonly text: string;
  readonly start: number;
}

/**
 * Parses the record of an id; or the whole text, where it can't be cut into records without a look
 * at it and has no faults. Each part is parsed once.
 */
function piecesOfText(
  file: string,
  text: string,
): (id: string | number | undefined) => ParsedPiece {
  const cut = cutRecords(text);
  // Of two records of one id the first counts.
  const records = new Map(cut.records.map((record) => [record.id, record] as const).reverse());
  const known = new Map<string, ParsedPiece>();
  const piece = (span: TextSpan): ParsedPiece => {
    const key = `${span.start}-${span.end}`;
    const made = known.get(key) ?? parse(text, span);
    known.set(key, made);
    return made;
  };
  return (id) => {
    const all = { start: 0, end: text.length };
    const record = records.get(String(id));
    // What leads nowhere is placed at the first key, which the first record has.
    if (cut.regular || cut.records.length > mostIn(file))
      return piece(record ?? cut.records[0] ?? all);
    const whole = piece(all);
    return whole.document?.errors.length === 0 ? whole : piece(record ?? all);
  };
}

function parse(text: string, { start, end }: TextSpan): ParsedPiece {
  const piece = text.slice(start, end);
  const read = piece.length === text.length ? readOnce(text) : readWithin(piece);
  return { document: 'document' in read ? read.document : undefined, text: piece, start };
}

/** The keys on a path as they come one after the other in a text, for one that is too large to parse. */
function roughly(text: string, { path }: Spot): TextSpan {
  let found: TextSpan = { start: 0, end: Math.max(0, text.search(/[\s:]/)) };
  for (const key of path) {
    const next = keyAfter(text, String(key), found.end);
    if (next) found = next;
  }
  return found;
}

function keyAfter(text: string, key: string, from: number): TextSpan | undefined {
  let start = text.indexOf(`${key}:`, from);
  while (start > 0 && /[\w-]/.test(text.charAt(start - 1)))
    start = text.indexOf(`${key}:`, start + 1);
  return start < 0 ? undefined : { start, end: start + key.length };
}

/** One step on a path: a key with its value; for an entry of a list, the entry in both places. */
interface PathStep {
  readonly key: unknown;
  readonly value: unknown;
}

function spanAt(document: Document.Parsed, spot: Spot): TextSpan {
  const { path, through } = spot;
  const span = spanOfPath(document, spot);
  if (through === undefined) return span;
  const last = spanOfPath(document, { ...spot, path: [...path.slice(0, -1), through], on: 'key' });
  return { start: span.start, end: Math.max(span.end, last.end) };
}

function spanOfPath(document: Document.Parsed, { path, on }: Spot): TextSpan {
  const root: PathStep = { key: firstKey(document.contents), value: document.contents };
  let step = root;
  for (const name of path) {
    const next = below(step.value, name);
    if (next === undefined) return spanOf(step.key);
    step = next;
  }
  return spanOf(on === 'key' || step === root || isBelowKey(step) ? step.key : step.value);
}

function firstKey(contents: unknown): unknown {
  return isMap(contents) ? (contents.items[0]?.key ?? contents) : contents;
}

function below(node: unknown, name: string | number): PathStep | undefined {
  if (isMap(node)) return pairsOf(node).get(String(name));
  const entry = isSeq(node) && typeof name === 'number' ? node.items[name] : undefined;
  return entry === undefined ? undefined : { key: entry, value: entry };
}

const knownPairs = new WeakMap<YAMLMap, ReadonlyMap<string, Pair>>();

/** A mapping's pairs by their keys; of two with one key the first. */
function pairsOf(map: YAMLMap): ReadonlyMap<string, Pair> {
  const made = knownPairs.get(map);
  if (made) return made;
  const pairs = new Map<string, Pair>();
  for (const pair of map.items.toReversed())
    if (isScalar(pair.key)) pairs.set(pair.key.source ?? '', pair);
  knownPairs.set(map, pairs);
  return pairs;
}

/** Whether a value has no place of its own in its key's line. */
function isBelowKey({ key, value }: PathStep): boolean {
  if (key === value) return false;
  if (isScalar(value)) return value.type === 'PLAIN' && value.source === '';
  return value === null || (isCollection(value) && value.flow !== true);
}
