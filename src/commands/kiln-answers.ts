/** The firings that a command line can go on with where they are to be unloaded: those still in the kiln. */
import { PATTERNS } from '../../schema/generated/fields.js';
import { findStudio } from '../read/find.ts';
import { openMemory } from '../read/memory.ts';
import { isMap, type Raw } from '../read/raw.ts';
import { readStudio } from '../read/read.ts';
import type { Answer } from './answer-words.ts';
import type { Shelf } from './id-answers.ts';

/** Firings with a load line whose outcome nobody has written down, the latest first. */
export async function inKilnAnswers(shelf: Shelf): Promise<readonly Answer[]> {
  const folder = findStudio(shelf.studio);
  if (folder === undefined) return [];
  const memory = openMemory(folder, shelf.storeFor(folder));
  const reading = await readStudio(folder, { memory, kinds: ['firings'] });
  if ('refused' in reading) return [];
  const firings = reading.files.flatMap(({ root }) => Object.entries(root));
  return firings
    .filter(([id, raw]) => ID.test(id) && isInKiln(raw))
    .map(([id, raw]) => ({ word: id, about: TOLD.map((field) => textIn(raw, field)).join(' ') }))
    .sort((a, b) => (`${a.about} ${a.word}` < `${b.about} ${b.word}` ? 1 : -1));
}

// An id that no record may have could act on the terminal, so it is left out.
const ID = new RegExp(PATTERNS['id'] ?? '', 'u');

const TOLD = ['date', 'kind', 'kiln'] as const;

const OUTCOME = ['first', 'second', 'lost'] as const;

function isInKiln(firing: Raw): boolean {
  const load = isMap(firing) ? firing['load'] : undefined;
  if (!Array.isArray(load)) return false;
  return (load as readonly Raw[]).some(
    (line) => isMap(line) && OUTCOME.every((field) => line[field] === undefined),
  );
}

function textIn(raw: Raw, field: string): string {
  const value = isMap(raw) ? raw[field] : undefined;
  return typeof value === 'string' ? value : '';
}
