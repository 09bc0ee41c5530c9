/** What is told of a file's records without a look at them: their days, what they move, what they name. */
import type { Kind } from '../book.ts';
import { EVENT_KINDS } from '../book.ts';
import { digestOf } from '../digest.ts';
import { addTo } from '../grouping.ts';
import { movingText } from './moves.ts';
import type { Raw, RawFile, RawMap } from './raw.ts';

/** An outline of the sound records of one file. */
export interface Outline {
  /** The first and the last of all days that stand in it; none where no day does. */
  readonly days: readonly [from: string, until: string] | undefined;
  /** Month of the first day of each record → fingerprint of all that those records move. */
  readonly moves: readonly (readonly [month: string, digest: string])[];
  /** The lots that those records name. */
  readonly names: readonly (readonly [month: string, lots: readonly string[]])[];
  /** The lots that it has, with their months. */
  readonly lots: readonly (readonly [id: string, month: string])[];
}

/** The month of what holds from the beginning. */
export const FROM_THE_BEGINNING = '';

/** Nothing at all. */
export const NO_OUTLINE: Outline = { days: undefined, moves: [], names: [], lots: [] };

const EVENTS: ReadonlySet<string> = new Set(EVENT_KINDS);
const MOVES_NOTHING = '[]';

/** The outline of a file; of `studio.yaml` that of the settings. */
export function outlineOf({ file, kind, root }: Pick<RawFile, "file" | "kind" | "root">): Outline {
  if (kind === 'studio') {
    const moves = [[FROM_THE_BEGINNING, digest([file, movingText(kind, root)])]] as const;
    return { ...NO_OUTLINE, moves };
  }
  const texts = new Map<string, string[]>();
  const names = new Map<string, Set<string>>();
  const lots: [string, string][] = [];
  const span: Span = { from: undefined, until: '' };
  for (const [id, record] of Object.entries(root)) {
    const own: Span = { from: undefined, until: '' };
    const named = new Set<string>();
    look(record, own, named);
    widen(span, own);
    const month = EVENTS.has(kind) ? (own.from ?? '').slice(0, 7) : FROM_THE_BEGINNING;
    if (kind === 'pieces') lots.push([id, month]);
    const text = movingText(kind, record as RawMap);
    if (text === MOVES_NOTHING) continue;
    addTo(texts, isOpening(kind, record) ? FROM_THE_BEGINNING : month, `${id} ${text}`);
    names.set(month, new Set([...(names.get(month) ?? []), ...named]));
  }
  return {
    days: span.from === undefined ? undefined : [span.from, span.until],
    moves: [...texts].map(([month, all]) => [month, digest([file, ...all])]),
    names: [...names].flatMap(([month, all]) => (all.size > 0 ? [[month, [...all]]] : [])),
    lots,
  };
}

interface Span {
  from: string | undefined;
  until: string;
}

function widen(span: Span, { from, until }: Span): void {
  if (from !== undefined && (span.from === undefined || from < span.from)) span.from = from;
  if (until > span.until) span.until = until;
}

const DAY = /^\d{4}-\d\d-\d\d$/;

/** Looks for days and named lots, however deep. */
function look(raw: Raw, span: Span, lots: Set<string>): void {
  if (typeof raw === 'string') {
    if (raw.length === 10 && DAY.test(raw)) widen(span, { from: raw, until: raw });
  } else if (isList(raw)) for (const each of raw) look(each, span, lots);
  else
    for (const key in raw) {
      const value = raw[key] ?? '';
      if (key === 'lot' && typeof value === 'string') lots.add(value);
      else look(value, span, lots);
    }
}

/** What was there when the book began changes what earlier records come to. */
function isOpening(kind: Kind, record: Raw): boolean {
  return kind === 'counted' && JSON.stringify(record).includes('"cost":');
}

function digest(texts: readonly string[]): string {
  return digestOf(texts.join('\n')).slice(0, 24);
}

function isList(raw: Raw): raw is readonly Raw[] {
  return Array.isArray(raw);
}
