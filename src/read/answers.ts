/** Answers that were given before, kept for as long as no file of the studio has changed since. */
import { Buffer } from 'node:buffer';
import { readFileSync } from 'node:fs';
import { digestOf } from '../digest.ts';
import type { Store } from '../memory/store.ts';
import { once } from '../once.ts';
import type { ListedFile } from './find.ts';
import { readAnswer, writeAnswer, type Kept } from './kept.ts';
import { stateAfter, stateOf, type StudioState, type Written } from './state.ts';

/** What was found of a studio in the state that it is in. */
export interface KeptOfStudio extends Kept {
  /** The files that hold records, and the settings; none where the state can't be told. */
  readonly files: readonly ListedFile[];
  /**
   * The same of the state that the program itself has brought about. Undefined where a file that it
   * wrote has been changed meanwhile; where any other has, nobody will ask for what is kept of it.
   */
  readonly after: (written: Written) => Kept | undefined;
}

/**
 * What was answered of the studio as it is now. To be opened before its files are read: what is kept
 * is of the state that they are in at this moment. Like the cache a hint only: whatever is odd about
 * it, it is passed over. Without a store nothing is known, and nothing is kept.
 */
export function keptOfStudio(studioDir: string, store: Store | undefined): KeptOfStudio {
  const state = store && stateOf(studioDir, store.clock());
  if (!store || !state) return NOTHING_KEPT;
  const known = once(() => knownState(store, studioDir, state));
  // A file that may yet change unseen is known by its content, if at all.
  const isSure = (): boolean => state.unsettled.size === 0 || known() !== undefined;
  if (state.unsettled.size > 0) known();
  const makeRoom = (): KnownState | undefined =>
    isSure() ? roomFor(store, { state, contents: NONE }) : undefined;
  return {
    ...keptOf(store, known, makeRoom),
    files: state.files,
    after: (written) => {
      if (!isSure()) return undefined;
      const now = stateAfter(state, studioDir, written);
      const isMine = [...written].every(([file, text]) => textIn(studioDir, file) === text);
      const contents = now && contentsAfter(now, known()?.contents ?? NONE, written);
      if (!contents || !isMine) return undefined;
      const unknown = (): undefined => undefined;
      return keptOf(store, unknown, () => roomFor(store, { state: now, contents }));
    },
  };
}

/** What is kept between runs where nothing is. */
const NOTHING_KEPT: KeptOfStudio = {
  recall: () => undefined,
  keep: () => undefined,
  files: [],
  after: () => undefined,
};

/** File → fingerprint of its content, for those that a stamp alone does not tell apart. */
type Contents = Readonly<Record<string, string>>;

const NONE: Contents = {};

/** A state that answers are kept of, and its tag, which stands in each of them. */
interface KnownState {
  readonly tag: string;
  readonly contents: Contents;
}

/** The state that answers are of: files by their stamps, and some by their contents too. */
const STATE = 'state';
const ANSWER = 'answer-';
const LINE_FEED = 0x0a;

function keptOf(
  store: Store,
  find: () => KnownState | undefined,
  makeRoom: () => KnownState | undefined,
): Kept {
  let known: KnownState | undefined;
  // An answer says of which state it is, in case another run has changed that since.
  const questionOf = (words: string, tag: string): string =>
    JSON.stringify([store.stamp, tag, words]);
  return {
    recall: (words) => {
      known ??= find();
      return known && readAnswer(store, nameOf(words), questionOf(words, known.tag));
    },
    keep: (words, answer) => {
      known ??= find() ?? makeRoom();
      if (!known) return;
      writeAnswer(store, nameOf(words), { question: questionOf(words, known.tag), answer });
    },
  };
}

/** Two questions of one name overwrite each other's answer and never take it for their own. */
function nameOf(words: string): string {
  return ANSWER + digestOf(words).slice(0, 16);
}

/** Fingerprints of the contents that the new state needs; undefined where one of them is not known. */
function contentsAfter(
  { unsettled }: StudioState,
  before: Contents,
  written: Written,
): Contents | undefined {
  const contents: Record<string, string> = {};
  for (const file of unsettled) {
    const text = written.get(file);
    const content = text === undefined ? before[file] : digestOf(text);
    if (content === undefined) return undefined;
    contents[file] = content;
  }
  return contents;
}

/** The state that answers are kept of, where the studio is in it. */
function knownState(
  store: Store,
  studioDir: string,
  { bytes, unsettled }: StudioState,
): KnownState | undefined {
  const kept = store.read(STATE);
  const parts = kept && partsOf(kept);
  if (!parts?.bytes.equals(bytes)) return undefined;
  const contents = asContents(parts.contents);
  if (!contents || [...unsettled].some((file) => contents[file] === undefined)) return undefined;
  const isSame = Object.entries(contents).every(([file, content]) => {
    const text = textIn(studioDir, file);
    return text !== undefined && digestOf(text) === content;
  });
  return isSame ? { tag: parts.tag, contents } : undefined;
}

function partsOf(kept: Buffer): { tag: string; contents: string; bytes: Buffer } {
  const end = kept.indexOf(LINE_FEED);
  const next = kept.indexOf(LINE_FEED, end + 1);
  return {
    tag: kept.toString('latin1', 0, end),
    contents: kept.toString('utf8', end + 1, next),
    bytes: kept.subarray(next + 1),
  };
}

function asContents(json: string): Contents | undefined {
  try {
    const contents: unknown = JSON.parse(json);
    return typeof contents === 'object' && contents !== null ? (contents as Contents) : undefined;
  } catch {
    return undefined;
  }
}

/** Answers of another state are of no use any more. Undefined without room. */
function roomFor(
  store: Store,
  { state, contents }: { readonly state: StudioState; readonly contents: Contents },
): KnownState | undefined {
  const json = JSON.stringify(contents);
  const tag = digestOf(Buffer.concat([Buffer.from(`${json}\n`), state.bytes]));
  store.forget(ANSWER);
  const isKept = store.write(STATE, Buffer.concat([Buffer.from(`${tag}\n${json}\n`), state.bytes]));
  return isKept ? { tag, contents } : undefined;
}

function textIn(studioDir: string, file: string): string | undefined {
  try {
    return readFileSync(`${studioDir}/${file}`, 'utf8');
  } catch {
    return undefined;
  }
}
