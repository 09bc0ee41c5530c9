/** Counts the lines and columns of findings, by re-reading just the files that have any. */
import type { Finding, Place, Problem, Spot } from '../problem.ts';
import { compareTexts } from '../text-order.ts';
import { readSource } from './disk.ts';
import { wholeFile } from './lines.ts';

/** Gives the place of a spot, and a place as it is. */
export type PlaceOf = (at: Spot | Place) => Place;

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
  const spots = findings.flatMap(({ at, related = [] }) => [at, ...related.map((r) => r.at)]);
  const placeOf = spots.every(isPlace) ? sure : await placesOf(textOf);
  return findings.map((finding) => asProblem(finding, placeOf)).sort(inOrder);
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
  const { placesIn } = await import('./spots.ts');
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
    message,
    hint,
    related: related.map((other) => ({ place: placeOf(other.at), message: other.message })),
  };
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
