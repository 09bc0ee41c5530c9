/** Plans the outcome of a firing: what came out of each load line that is still in the kiln. */
import { FIELDS, type RecordSpec } from '../../schema/generated/fields.js';
import { isList, isMap, type Path, type RawMap } from '../read/raw.ts';
import type { Amendment } from './amendment.ts';
import type { TypedFault } from './expand.ts';
import type { Form } from './form.ts';
import type { Lexicon, FoundRecord } from './lexicon.ts';
import { LOST_TO } from './meant.ts';
import { readSentence } from './sentence.ts';

/** What `unload` takes for one load line; the lot or class may be left out when lines are given in order. */
export const UNLOAD_FORM: Form = {
  kind: 'firings',
  field: 'load',
  option: 'line',
  shape: '[LOT or CLASS] OUTCOME',
  about: 'counts of first, second, lost and of causes, those of lost pieces after lost-to',
  examples: ['p260301ab 22 first 1 second 1 lost 1 cracked', '24 first'],
  grammar: { middle: ['lot', 'class'], outcome: true },
};

/** The changes of a firing's load lines, and the sentences that could not be understood. */
export interface ReadOutcomes {
  readonly amendments: readonly Amendment[];
  readonly faults: readonly TypedFault[];
}

const OUTCOME = ['first', 'second', 'lost', 'why', LOST_TO] as const;

/**
 * Finds for each sentence the load line that it is about: first for those that name a lot or class,
 * then, for those that don't, the next in the firing's order; only lines that are still in the kiln
 * count.
 */
export function readUnloading(
  firing: FoundRecord,
  sentences: readonly string[],
  lexicon: Lexicon,
): ReadOutcomes {
  const open = linesInKiln(firing);
  const outcomes = sentences.map((sentence, index) => {
    const read = readSentence(sentence, { form: UNLOAD_FORM, spec: loadLineSpec(), lexicon });
    const lacks = read.faults.length > 0 ? lacksCount(sentence, open[index]) : undefined;
    return { sentence, path: ['load', index], ...read, ...(lacks && { faults: [lacks] }) };
  });
  const understood = outcomes.filter(({ faults }) => faults.length === 0);
  const inTurn = [...understood.filter(isNamed), ...understood.filter((each) => !isNamed(each))];
  const placed = inTurn.map((each) => placeOutcome(firing, open, each));
  return {
    amendments: placed.flatMap(({ amendments }) => amendments),
    faults: [
      ...outcomes.flatMap(({ faults, path, sentence }) =>
        faults.map((fault) => ({ ...fault, path, sentence })),
      ),
      ...placed.flatMap(({ faults }) => faults),
    ],
  };
}

/** `first`, `all first` and `22`: a count or what it counts is missing. */
function lacksCount(
  sentence: string,
  line: LineInKiln | undefined,
): Omit<TypedFault, 'path' | 'sentence'> | undefined {
  const [, named = '', all = '', grade] =
    /^(\S+ )??(all )?(first|second|lost)s?$/i.exec(sentence.trim()) ?? [];
  const [bare] = /^\d+$/.exec(sentence.trim()) ?? [];
  if (grade === undefined && bare === undefined) return undefined;
  const went = typeof line?.fields['in'] === 'string' ? line.fields['in'] : '24';
  const isNamed = named !== '' && !/^\d/.test(named);
  if (named !== '' && !isNamed) return undefined;
  const start = isNamed ? named.length : 0;
  const says = grade === undefined ? `${bare ?? ''} first` : `${named}${went} ${grade}`;
  return {
    rule: 'schema',
    start,
    width: sentence.length - start,
    message:
      grade === undefined
        ? `"${sentence}" does not say what came out`
        : `"${all}${grade}" has no count`,
    hint: `write "${says}"`,
  };
}

interface ReadOutcome {
  readonly sentence: string;
  readonly path: Path;
  readonly fields: RawMap;
}

function isNamed({ fields }: ReadOutcome): boolean {
  return (fields['lot'] ?? fields['class']) !== undefined;
}

function placeOutcome(
  firing: FoundRecord,
  open: LineInKiln[],
  { sentence, path, fields }: ReadOutcome,
): ReadOutcomes {
  const line = takeLine(open, fields);
  const amendments = line ? outcomeOfLine(line.index, fields) : [];
  if (amendments.length > 0) return { amendments, faults: [] };
  const missing = line ? noOutcome(sentence) : notInKiln(firing, fields, sentence);
  return { amendments, faults: [{ ...missing, path, sentence }] };
}

/** A load line without an outcome, and its place in the load. */
export interface LineInKiln {
  readonly index: number;
  readonly fields: RawMap;
}

/** The fields of a load line. */
export function loadLineSpec(): RecordSpec {
  const load = FIELDS.firings.fields['load'];
  if (load?.type !== 'list' || load.of.type !== 'record') throw new Error('firings have no load');
  return load.of;
}

/** The load lines of a firing that are still in the kiln, in their order. */
export function linesInKiln({ raw }: FoundRecord): LineInKiln[] {
  const load = isMap(raw) ? raw['load'] : undefined;
  if (!isList(load)) return [];
  return load.flatMap((fields, index) =>
    isMap(fields) && !OUTCOME.some((field) => fields[field] !== undefined)
      ? [{ index, fields }]
      : [],
  );
}

function takeLine(open: LineInKiln[], { lot, class: taught }: RawMap): LineInKiln | undefined {
  const at = open.findIndex(
    ({ fields }) =>
      (lot === undefined || fields['lot'] === lot) &&
      (taught === undefined || fields['class'] === taught),
  );
  return at < 0 ? undefined : open.splice(at, 1)[0];
}

function outcomeOfLine(index: number, read: RawMap): Amendment[] {
  return OUTCOME.flatMap((field) => {
    const value = read[field];
    return value === undefined ? [] : [{ path: ['load', index, field], value }];
  });
}

function noOutcome(sentence: string): Omit<TypedFault, 'path' | 'sentence'> {
  return {
    rule: 'schema',
    start: 0,
    width: sentence.length,
    message: 'it does not say what came out',
    hint: `write ${UNLOAD_FORM.shape}, as in "${UNLOAD_FORM.examples[0] ?? ''}"`,
  };
}

function notInKiln(
  { id, raw }: FoundRecord,
  { lot, class: taught }: RawMap,
  sentence: string,
): Omit<TypedFault, 'path' | 'sentence'> {
  const named = lot ?? taught;
  const load = isMap(raw) ? raw['load'] : undefined;
  const isLoaded =
    isList(load) && load.some((line) => isMap(line) && (line['lot'] ?? line['class']) === named);
  const at = { rule: 'schema' as const, start: 0, width: sentence.length };
  if (typeof named !== 'string')
    return {
      ...at,
      message: `no line of firing ${id} is still in the kiln for this`,
      hint: `name the lot; what came out already is changed with saggar amend ${id}`,
    };
  return isLoaded
    ? {
        ...at,
        message: `"${named}" is out of firing ${id} already`,
        hint: `change what came out with saggar amend ${id} load.1.first=…`,
      }
    : { ...at, message: `"${named}" was not loaded in firing ${id}`, hint: 'name a lot that was' };
}
