/** What is told of a file's records without a look at them: their days, what they move, what they name. */
import type { Kind } from '../book.ts';
import { EVENT_KINDS } from '../book.ts';
import { digestOf } from '../digest.ts';
import { addTo } from '../grouping.ts';
import { isList } from './at-path.ts';
import { movingText } from './moves.ts';
import type { Raw, RawFile, RawMap } from './raw.ts';

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
export const FROM_THE_BEGINNING = '';

/** A file of which nothing but its records is known. */
type Content = Pick<RawFile, 'file' | 'kind' | 'root'>;

const EVENTS: ReadonlySet<string> = new Set(EVENT_KINDS);

/** The days of a file. */
export function daysIn(root: Raw): FileDays {
  let [from, until] = ['', ''];
  lookInto(root, (_, text) => {
    if (!isDay(text)) return;
    if (from === '' || text < from) from = text;
    if (text > until) until = text;
  });
  return from === '' ? undefined : [from, until];
}

/** The outline of a file; of `studio.yaml` that of the settings. */
export function outlineOf({ file, kind, root }: Content): Outline {
  if (kind === 'studio') {
    const moves = [[FROM_THE_BEGINNING, digest([file, movingText(kind, root)])]] as const;
    return { moves, names: [], lots: [] };
  }
  const outline = {
    kind,
    texts: new Map<string, string[]>(),
    names: new Map<string, Set<string>>(),
  };
  const lots = Object.entries(root).map(([id, record]) => {
    const month = EVENTS.has(kind) ? (daysIn(record)?.[0] ?? '').slice(0, 7) : FROM_THE_BEGINNING;
    addMoves(outline, { id, month, record: record as RawMap });
    return [id, month] as const;
  });
  return {
    moves: [...outline.texts].map(([month, all]) => [month, digest([file, ...all])]),
    names: [...outline.names].map(([month, all]) => [month, [...all]]),
    lots: kind === 'pieces' ? lots : [],
  };
}

interface Made {
  readonly kind: Kind;
  readonly texts: Map<string, string[]>;
  readonly names: Map<string, Set<string>>;
}

interface Dated {
  readonly id: string;
  readonly month: string;
  readonly record: RawMap;
}

function addMoves({ kind, texts, names }: Made, { id, month, record }: Dated): void {
  const text = movingText(kind, record);
  if (text === '') return;
  addTo(texts, isOpening(kind, record) ? FROM_THE_BEGINNING : month, `${id} ${text}`);
  lookInto(record, (key, value) => {
    if (key === 'lot') names.set(month, (names.get(month) ?? new Set()).add(value));
  });
}

/** Shows every text with the key that it stands under, however deep. */
function lookInto(raw: Raw, show: (key: string, text: string) => void, under = ''): void {
  if (typeof raw === 'string') show(under, raw);
  else if (isList(raw)) for (const each of raw) lookInto(each, show, under);
  else for (const key in raw) lookInto(raw[key] ?? '', show, key);
}

const DAY = /^\d{4}-\d\d-\d\d$/;

function isDay(text: string): boolean {
  return text.length === 10 && DAY.test(text);
}

/** What was there when the book began changes what earlier records come to. */
function isOpening(kind: Kind, record: RawMap): boolean {
  let isFound = false;
  if (kind === 'counted')
    lookInto(record, (key) => {
      if (key === 'cost') isFound = true;
    });
  return isFound;
}

function digest(texts: readonly string[]): string {
  return digestOf(texts.join('\n')).slice(0, 24);
}
