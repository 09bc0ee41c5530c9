/** Shows where a typed sentence could not be understood: in an option, or in a text that was given. */
import type { Kind } from '../book.ts';
import type { Place, Problem } from '../problem.ts';
import type { Path } from '../read/raw.ts';
import { placesIn } from '../read/yaml/spots.ts';
import type { TypedFault } from './expand.ts';
import { fieldOptions } from './fields.ts';
import { STANDARD_INPUT } from './given.ts';

/** Where a fault stands for the person who typed. */
type PlaceOfFault = (fault: TypedFault) => Place;

/** The faults as problems, all errors, in their order. */
export function typedProblems(
  faults: readonly TypedFault[],
  placeOf: PlaceOfFault,
): readonly Problem[] {
  return faults.map((fault) => {
    const { rule, message, hint } = fault;
    return { rule, severity: 'error', place: placeOf(fault), message, hint, related: [] };
  });
}

/** In the options of a kind: the option stands for the file, its turn for the line. */
export function inOptions(kind: Kind): PlaceOfFault {
  const options = fieldOptions(kind);
  return (fault) => {
    const fits = (path: Path): boolean => path.every((step, index) => step === fault.path[index]);
    const name = options.find(({ path }) => fits(path))?.name ?? String(fault.path[0]);
    return inWord(`--${name}`, fault);
  };
}

/** In a word of the command line. */
export function inWord(name: string, { path, sentence, start, width }: TypedFault): Place {
  const turn = path.findLast((step) => typeof step === 'number') ?? 0;
  return {
    file: name,
    line: turn + 1,
    column: start + 1,
    width: Math.max(1, width),
    source: sentence,
  };
}

/**
 * In the text on standard input.
 * @param id under which the record stands in it, where it holds records by id
 */
export function inText(text: string, id: string | undefined): PlaceOfFault {
  const placeOf = placesIn(STANDARD_INPUT, text);
  return ({ path, sentence, start, width }) => {
    const full = id === undefined ? path : [id, ...path];
    const place = placeOf({ file: STANDARD_INPUT, path: full });
    const at = place.source.indexOf(sentence, place.column - 1);
    return at < 0 ? place : { ...place, column: at + start + 1, width: Math.max(1, width) };
  };
}
