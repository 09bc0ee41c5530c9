/** What is told of a file's records without a look at them: their days, what they move, what they name. */
import { EVENT_KINDS } from '../../book.ts';
import { digestOf } from '../../digest.ts';
import { addTo } from '../../grouping.ts';
import { movingText } from './moves.ts';
import { isList, type Raw, type RawFile, type RawMap } from '../raw.ts';

/** The first and the last of all days that stand in a file; none where no day does. */
export type FileDays = readonly [from: string, until: string] | undefined;

/** An outline of the sound records of one file. */
export interface Outline {
  /** Month of the first day of each record → fingerprint of all that those records move. */
  readonly moves: readonly (readonly [month: string, digest: string])[];
  /** The lots that those records name. */
  readonly names: readonly (readonly [month: string, lots: readonly string[]])[];
  /** The lots that it has, with their months. */
  readonly lots: readonly (readonly [id: string, month: string])[];
}

/** The month of what holds from the beginning. */
const FROM_THE_BEGINNING = '';

/** A file of which nothing but its records is known. */
type ContentToOutline = Pick<RawFile, 'file' | 'kind' | 'root'>;

const EVENTS: ReadonlySet<string> = new Set(EVENT_KINDS);

/** The days of a file. */
export function daysIn(root: Raw): FileDays {
  lookThrough(root);
  return seen.from === '' ? undefined : [seen.from, seen.until];
}

/** The outline of a file; of `studio.yaml` that of the settings. */
export function outlineOf({ file, kind, root }: ContentToOutline): Outline {
  if (kind === 'studio') {
    const moves = [[FROM_THE_BEGINNING, digest([file, movingText(kind, root)])]] as const;
    return { moves, names: [], lots: [] };
  }
  const texts = new Map<string, string[]>();
  const names = new Map<string, Set<string>>();
  const lots: [id: string, month: string][] = [];
  for (const id in root) {
    const record = root[id] as RawMap;
    lookThrough(record);
    const month = EVENTS.has(kind) ? seen.from.slice(0, 7) : FROM_THE_BEGINNING;
    if (kind === 'pieces') lots.push([id, month]);
    const text = movingText(kind, record);
    if (text === '') continue;
    // What was there when the book began changes what earlier records come to.
    const isOpening = kind === 'counted' && seen.hasCost;
    addTo(texts, isOpening ? FROM_THE_BEGINNING : month, `${id} ${text}`);
    const named = names.get(month) ?? new Set();
    for (const lot of seen.lots) names.set(month, named.add(lot));
  }
  return {
    moves: [...texts].map(([month, all]) => [month, digest([file, ...all])]),
    names: [...names].map(([month, all]) => [month, [...all]]),
    lots,
  };
}

/** What was seen in the last look; one object, as in the fast reader. */
const seen = { from: '', until: '', lots: [] as string[], hasCost: false };

function lookThrough(raw: Raw): void {
  seen.from = '';
  seen.until = '';
  seen.hasCost = false;
  if (seen.lots.length > 0) seen.lots = [];
  lookInto(raw, '');
}

/** Goes through every text with the key that it stands under, however deep. */
function lookInto(raw: Raw, under: string): void {
  if (typeof raw === 'string') lookAtText(raw, under);
  else if (isList(raw)) for (const each of raw) lookInto(each, under);
  else for (const key in raw) lookInto(raw[key] ?? '', key);
}

function lookAtText(text: string, under: string): void {
  if (under === 'lot') seen.lots.push(text);
  else if (under === 'cost') seen.hasCost = true;
  if (text.length !== 10 || !DAY_ALONE.test(text)) return;
  if (seen.from === '' || text < seen.from) seen.from = text;
  if (text > seen.until) seen.until = text;
}

const DAY_ALONE = /^\d{4}-\d\d-\d\d$/;

function digest(texts: readonly string[]): string {
  return digestOf(texts.join('\n')).slice(0, 24);
}

/**
 * The key of a month: two books in which it is the same come to the same up to the end of that month. It
 * is made of all that moves something up to then; of lots that are named before they were made, too.
 */
export type KeyOf = (month: string) => string;

/** The keys of the months of a book that these files make, in the order of their paths. */
export function monthKeys(outlines: readonly Outline[]): KeyOf {
  const moved = new Map<string, string[]>();
  const lots = new Map<string, { readonly month: string; readonly at: number }>();
  outlines.forEach(({ moves, lots: made }, at) => {
    for (const [month, digest] of moves) addTo(moved, month, digest);
    for (const [id, month] of made) lots.set(id, { month, at });
  });
  const namings = outlines.flatMap(({ names }) =>
    names.flatMap(([month, ids]) => ids.map((id) => ({ month, id }))),
  );
  for (const { month, id } of namings) {
    const lot = lots.get(id);
    if (lot && lot.month <= month) continue;
    addTo(moved, month, `${id} ${JSON.stringify(lot ? outlines[lot.at]?.moves : [])}`);
  }
  return monthKeysOf(moved);
}

function monthKeysOf(moved: ReadonlyMap<string, readonly string[]>): KeyOf {
  const months = [...moved.keys()].sort();
  const keys = new Map<string, string>();
  let last = digestOf((moved.get(FROM_THE_BEGINNING) ?? []).join('\n'));
  for (const month of months) {
    last = digestOf([last, month, ...(moved.get(month) ?? [])].join('\n'));
    keys.set(month, last);
  }
  return (month) => {
    const at = months.findLast((each) => each <= month);
    return `${month} ${at === undefined ? last : (keys.get(at) ?? '')}`;
  };
}
