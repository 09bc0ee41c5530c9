/** Files of the cache that hold an answer each, with its question and a checksum: whatever is odd is passed over. */
import { mkdtempSync, readFileSync, renameSync, rmdirSync, rmSync, writeFileSync } from 'node:fs';

/** What was found of one state of a studio, by what was asked. */
export interface Kept {
  readonly recall: (words: string) => unknown;
  /** Keeps what JSON can hold. */
  readonly keep: (words: string, answer: unknown) => void;
}

/** The answer that a file keeps to a question; undefined where it keeps another, or nothing sound. */
export function readKept(path: string, question: string): unknown {
  try {
    const [sum, asked, json = ''] = readFileSync(path, 'utf8').split('\n');
    return sum === sumOf(json) && asked === question ? (JSON.parse(json) as unknown) : undefined;
  } catch {
    return undefined;
  }
}

/** An answer, given as what JSON can hold, and where it is to be kept. */
export interface Keeping {
  readonly path: string;
  readonly question: string;
  readonly answer: unknown;
}

/** Writes an answer whole or not at all, by way of a folder of its own. Throws where it can't. */
export function writeKept(own: string, { path, question, answer }: Keeping): void {
  const json = JSON.stringify(answer);
  putInPlace(own, path, [sumOf(json), question, json].join('\n'));
}

/** Puts a file in its place by a rename, from a folder that lies in the cache's own. Throws where it can't. */
export function putInPlace(own: string, path: string, content: string | Uint8Array): void {
  const place = mkdtempSync(`${own}/new-`);
  try {
    writeFileSync(`${place}/new`, content);
    renameSync(`${place}/new`, path);
    rmdirSync(place);
  } catch (error) {
    rmSync(place, { recursive: true, force: true });
    throw error;
  }
}

/** A checksum of a text: 32-bit FNV-1a over its code units. */
export function sumOf(text: string): string {
  let sum = 0x811c9dc5;
  for (let index = 0; index < text.length; index += 1) {
    sum = Math.imul(sum ^ text.charCodeAt(index), 0x01000193);
  }
  return (sum >>> 0).toString(16).padStart(8, '0');
}
