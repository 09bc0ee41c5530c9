/** Counts the lines and columns of findings, by re-reading just the files that have any. */
import { MOST_TOLD, countOf, untoldWords } from '../fold.ts';
import { grouped } from '../grouping.ts';
import type { Finding, Place, Problem, Spot } from '../problem.ts';
import { compareTexts } from '../text-order.ts';
import { readSource } from './disk.ts';
import { placeInText, wholeFile } from './lines.ts';
import { cutRecords } from './records.ts';

/** Gives the place of a spot, and a place as it is. */
type PlaceOf = (at: Spot | Place) => Place;

/**
 * The findings with their places, sorted by file, line, column and rule. A place that is known is
 * kept; a spot is looked up in its file as it is now, and is the beginning of a file that can't be
 * read.
 */
export async function locate(
  studioDir: string,
  findings: readonly Finding[],
): Promise<readonly Problem[]> {
  return locateIn((file) => textOnDisk(studioDir, file), findings);
}

/** The text of a file as it is to be looked at; undefined where there is none. */
export type TextOf = (file: string) => string | undefined;

/** The same with the files' texts from wherever they are. */
export async function locateIn(
  textOf: TextOf,
  findings: readonly Finding[],
): Promise<readonly Problem[]> {
  const groups = [...grouped(findings, sortOf).values()].map((group) => toldOf(textOf, group));
  const told = groups.flat().filter(({ untold }) => untold === undefined);
  const spots = told.flatMap(({ at, related = [] }) => [at, ...related.map((r) => r.at)]);
  const placeOf = spots.every(isPlace) ? sure : await placesOf(textOf);
  return groups.flatMap((group) => inPlaces(group, placeOf)).sort(inOrder);
}

function sortOf({ rule, severity, at }: Finding): string {
  return `${at.file}\n${rule}\n${severity}`;
}

/** Of many findings of one rule in one file the first ones, and one that counts the others. */
function toldOf(textOf: TextOf, group: readonly Finding[]): readonly Finding[] {
  const total = countOf(group);
  if (total === group.length && total <= MOST_TOLD) return group;
  const first = inFileOrder(
    textOf,
    group.filter(({ untold }) => untold === undefined),
  ).slice(0, MOST_TOLD);
  const [last] = first.slice(-1);
  if (last === undefined) return group;
  const { rule, severity, at } = last;
  const untold = total - first.length;
  return [
    ...first,
    { rule, severity, at, ...untoldWords({ rule, severity, count: untold }), untold },
  ];
}

/** By the beginnings of their records, which are soon found, so that only those told are placed. */
function inFileOrder(textOf: TextOf, group: readonly Finding[]): readonly Finding[] {
  const [first] = group;
  if (!first || group.every(({ at }) => isPlace(at))) return group;
  const { records } = cutRecords(textOf(first.at.file) ?? '');
  const starts = new Map(records.map(({ id, start }) => [id, start]));
  const startOf = ({ at }: Finding): number =>
    isPlace(at) ? 0 : (starts.get(String(at.path[0])) ?? 0);
  return group.toSorted((a, b) => startOf(a) - startOf(b));
}

/** In their order; what counts the others comes after them, at the place of the last one. */
function inPlaces(group: readonly Finding[], placeOf: PlaceOf): readonly Problem[] {
  const isTold = ({ untold }: Finding): boolean => untold === undefined;
  const told = group.filter(isTold).map((finding) => asProblem(finding, placeOf));
  const place = told.toSorted(inOrder).at(-1)?.place;
  const counts = group.filter((finding) => place !== undefined && !isTold(finding));
  return [
    ...told,
    ...counts.map(({ rule, severity, at, message, hint, untold = 1 }) => {
      const there = { ...(place ?? wholeFile(at.file)), source: '' };
      return { rule, severity, place: there, message, hint, related: [], untold };
    }),
  ];
}

/** The text of a file on the disk; undefined where it can't be read. */
export function textOnDisk(studioDir: string, file: string): string | undefined {
  const source = readSource(studioDir, file);
  return 'text' in source ? source.text : undefined;
}

function isPlace(at: Spot | Place): at is Place {
  return 'line' in at;
}

function sure(at: Spot | Place): Place {
  return isPlace(at) ? at : wholeFile(at.file);
}

/** Places by file; the yaml package is loaded only when there is something to look up. */
export async function placesOf(textOf: TextOf): Promise<PlaceOf> {
  const { placesIn } = await import('./yaml/spots.ts');
  const known = new Map<string, (spot: Spot) => Place>();
  return (at) => {
    if (isPlace(at)) return at;
    const placeOf = known.get(at.file) ?? fileLookup(at.file);
    known.set(at.file, placeOf);
    return placeOf(at);
  };

  function fileLookup(file: string): (spot: Spot) => Place {
    const text = textOf(file);
    return text === undefined ? sure : placesIn(file, text);
  }
}

function asProblem(finding: Finding, placeOf: PlaceOf): Problem {
  const { rule, severity, at, message, hint, related = [] } = finding;
  return {
    rule,
    severity,
    place: placeOf(at),
    ...recordOf(at),
    message: clipped(message),
    hint: clipped(hint),
    related: related.map((other) => ({
      place: placeOf(other.at),
      message: clipped(other.message),
    })),
  };
}

const LONGEST_SENTENCE = 2000;

/** A sentence that gives back some of the file, which may be a line of millions of characters. */
function clipped(sentence: string): string {
  return sentence.length > LONGEST_SENTENCE ? `${sentence.slice(0, LONGEST_SENTENCE)}…` : sentence;
}

function recordOf(at: Spot | Place): Pick<Problem, 'record'> {
  const first = isPlace(at) ? undefined : at.path[0];
  return first === undefined ? {} : { record: String(first) };
}

function inOrder(a: Problem, b: Problem): number {
  return (
    compareTexts(a.place.file, b.place.file) ||
    a.place.line - b.place.line ||
    a.place.column - b.place.column ||
    compareTexts(a.rule, b.rule)
  );
}

/** A record by its id, and its file from the studio's root. */
interface Located {
  readonly id: string;
  readonly file: string;
}

/**
 * Id → the line of its key, from 1. A record that doesn't stand at its file's margin
 * in so many letters (a quoted key, a file that is one mapping in braces) is looked up in the parsed
 * file. Records of a file that can't be read any more have no line.
 */
export async function recordLines(
  textOf: TextOf,
  records: Iterable<Located>,
): Promise<ReadonlyMap<string, number>> {
  const found = new Map<string, number>();
  for (const [file, those] of grouped(records, (each) => each.file)) {
    const text = textOf(file);
    const ids = those.map(({ id }) => id);
    if (text !== undefined) await findIn({ file, text }, ids, found);
  }
  return found;
}

interface SourceFile {
  readonly file: string;
  readonly text: string;
}

async function findIn(
  { file, text }: SourceFile,
  ids: readonly string[],
  found: Map<string, number>,
): Promise<void> {
  const starts = new Map(cutRecords(text).records.map(({ id, start }) => [id, start]));
  const hidden = ids.filter((id) => !starts.has(id));
  for (const id of ids) {
    const start = starts.get(id);
    if (start !== undefined) found.set(id, placeInText(file, text, { start, end: start }).line);
  }
  if (hidden.length === 0) return;
  const { placesIn } = await import('./yaml/spots.ts');
  const placeIn = placesIn(file, text);
  for (const id of hidden) found.set(id, placeIn({ file, path: [id], on: 'key' }).line);
}
