/** What is known of every pot of an invented studio, and the book that is kept of them. */
import type { Files } from '../../helpers/book.ts';
import type { randomSource } from '../../helpers/random-source.js';

type Source = ReturnType<typeof randomSource>;

/** One pot, as nobody could follow it. */
export interface Pot {
  readonly lot: string;
  readonly product: string;
  readonly glaze: string;
  /** Keys of all bags, batches and mixes in it, and ids of the firings that it was in. */
  readonly in: Set<string>;
  stage: number;
  finished: boolean;
  grade: 'first' | 'second';
  /** Undefined once it has left or was lost. */
  place: string | undefined;
  /** The lines by which it left, `id/line`. */
  readonly left: string[];
}

/** The pots, and the book that was kept of them. */
export interface ShelfLife {
  readonly files: Files;
  readonly asOf: string;
  readonly pots: readonly Pot[];
  readonly lots: readonly string[];
  readonly firings: readonly string[];
  /** What can be traced, with the key by which pots have it. */
  readonly supplies: readonly { readonly id: string; readonly key: string }[];
}

/** A bag or a batch of clay. */
export interface Bin {
  readonly key: string;
  readonly name: string;
  left: number;
  /** Everything in it. */
  readonly in: Set<string>;
}

/** A bucket of glaze. */
export interface Bucket {
  readonly recipe: string;
  readonly in: Set<string>;
  last: string;
}

/** The studio while it is lived in. */
export interface Life {
  readonly random: Source;
  date: string;
  count: number;
  readonly text: Record<string, string[]>;
  readonly bins: Record<string, Bin[]>;
  buckets: Bucket[];
  /** What is in the trimmings that wait to be reclaimed. */
  slop: Set<string>;
  readonly pots: Pot[];
  readonly lots: string[];
  readonly firings: string[];
  readonly supplies: { id: string; key: string }[];
  /** Lot → the load lines that it had so far. */
  readonly passes: Map<string, number>;
}
/** An id that no other record has. */
export function newId(life: Life, letter: string): string {
  life.count += 1;
  return `${letter}${life.count}`;
}

/** Writes a record of the day into the book. */
export function note(life: Life, kind: string, [id, fields]: readonly [string, string]): void {
  (life.text[kind] ??= []).push(`${id}: { date: ${life.date}, ${fields} }`);
}
/** What is written of a lot. */
export interface LotText {
  readonly life: Life;
  readonly date: string;
  readonly fields: string;
  readonly gone: string[];
  mixes: string | undefined;
}

/** Lots are written anew when more becomes known of them. */
export const lotText = new Map<string, LotText>();

/** Writes a lot as it is known now. */
export function keepLot(id: string): void {
  const lot = lotText.get(id);
  if (!lot) return;
  const lines = (lot.life.text['pieces'] ??= []);
  const gone = lot.gone.length === 0 ? '' : `, gone: [${lot.gone.join(', ')}]`;
  const mixes = lot.mixes === undefined ? '' : `, mixes: ${lot.mixes}`;
  const text = `${id}: { date: ${lot.date}, ${lot.fields}${gone}${mixes} }`;
  const at = lines.findIndex((line) => line.startsWith(`${id}:`));
  if (at === -1) lines.push(text);
  else lines[at] = text;
}
